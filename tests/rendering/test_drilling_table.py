import csv
from io import StringIO

import pytest

from labelgen.lengths import Point
from labelgen.model.panel.holes import PanelHole
from labelgen.rendering.drilling_table import drilling_csv, written


def hole(x: float, y: float, diameter: float) -> PanelHole:
    return PanelHole(use="lever", thing="5", called="lever 5", at=Point(x, y), diameter=diameter, part=None)


def test_four_columns_with_points_in_their_numbers() -> None:
    content = drilling_csv(["L5", "L6"], [hole(120, 60.12345, 6.5), hole(0.5, 1 / 3, 4)])
    assert content == b"hole,x,y,diameter\r\nL5,120,60.123,6.5\r\nL6,0.5,0.333,4\r\n"
    rows = list(csv.DictReader(StringIO(content.decode())))
    assert list(rows[0]) == ["hole", "x", "y", "diameter"]


@pytest.mark.parametrize(("length", "text"), [(-0.0001, "0"), (100, "100"), (0.1 + 0.2, "0.3"), (12.3456, "12.346")])
def test_lengths_are_to_a_thousandth(length: float, text: str) -> None:
    assert written(length) == text
