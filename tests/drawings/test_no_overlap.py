"""No overlap on 200 generated track plans and the example. Judge: shapely, on what the drawing shows."""

from pathlib import Path

import pytest
from generated_track_plans import track_plans
from overlap_judge import overlapping

from labelgen.checks.check_list import check
from labelgen.data_files import layouts
from labelgen.drawings.fascia.fascia import fascia_drawings
from labelgen.model.description import Description
from labelgen.model.look import Look
from labelgen.model.netlist import Netlist
from labelgen.model.panel.scaling import on_squares
from labelgen.pipeline import check_file

PLANS = 200
LARGER = 6
"""How many of the plans need a larger panel than was asked for: squares of 9 or 10 mm instead of 8."""
CROWDED = range(3, PLANS, 10)
"""Those that are drawn again with a lamp on each road, on squares seven tenths as large."""
CROWDED_LARGER = 2
"""How many of those need larger squares than that."""
ROOM = {"text-does-not-fit", "too-close", "lever-without-hole"}
"""The problems that say that there is no room."""


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("plans")


def test_nothing_overlaps_on_any_of_the_generated_plans(folder: Path) -> None:
    larger = {}
    for number, text in enumerate(track_plans(PLANS)):
        path = folder / f"plan{number}.yaml"
        path.write_text(text, encoding="utf-8")
        checked, _ = check_file(path)
        assert checked is not None
        grid, overlaps = first_with_room(checked.description, checked.netlist)
        assert overlaps == [], (number, grid, text)
        if grid != checked.description.panels["BOX"].grid:
            larger[number] = grid
    assert len(larger) == LARGER, larger


def test_nothing_overlaps_on_crowded_plans_with_lamps(folder: Path) -> None:
    larger = {}
    plans = track_plans(PLANS)
    for number in CROWDED:
        path = folder / f"crowded{number}.yaml"
        path.write_text(plans[number].replace("    tracks:", "    lamps: yes\n    tracks:"), encoding="utf-8")
        checked, _ = check_file(path)
        assert checked is not None
        asked = round(0.7 * checked.description.panels["BOX"].grid)
        grid, overlaps = first_with_room(on_squares(checked.description, "BOX", asked), checked.netlist)
        assert overlaps == [], (number, grid)
        if grid != asked:
            larger[number] = grid
    assert len(larger) == CROWDED_LARGER, larger


def first_with_room(description: Description, netlist: Netlist) -> tuple[float, list[str]]:
    """The grid, as asked for or the next larger one, at which nothing is said of room; and what overlaps there."""
    asked = description.panels["BOX"].grid
    for grid in (asked, *(asked + more for more in range(1, int(asked) + 1))):
        tried = description if grid == asked else on_squares(description, "BOX", grid)
        drawings, problems = fascia_drawings(tried, netlist, Look())
        if not ROOM & {problem.code for problem in (*problems, *check(tried, netlist))}:
            return grid, list(overlapping(tried, netlist, drawings["BOX"], "BOX"))
    raise AssertionError("no panel would do")


@pytest.mark.parametrize("lamps", ["no", "yes"])
def test_nothing_overlaps_on_the_example(folder: Path, lamps: str) -> None:
    text = (layouts("railways") / "marram-quay.yaml").read_text(encoding="utf-8")
    path = folder / "example.yaml"
    more = f"    grid: 10\n    lamps: {lamps}\n    screws: yes\n"
    path.write_text(text.replace("    grid: 10\n", more), encoding="utf-8")
    checked, _ = check_file(path)
    assert checked is not None
    drawings, problems = fascia_drawings(checked.description, checked.netlist, Look())
    assert problems == []
    assert list(overlapping(checked.description, checked.netlist, drawings["HARBOUR"], "HARBOUR")) == []
