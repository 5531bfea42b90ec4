"""Words at the holes of a fascia: which button is which, which way a switch is on; and texts that keep apart."""

from typing import Any

import pytest
from panel_railway import text_ink
from wiring.wiring_builder import built_in_kinds, described, read

from labelgen.drawings.fascia.fascia import fascia_drawings
from labelgen.model.drawing import Drawing, Text
from labelgen.model.look import Look
from labelgen.model.panel.holes import panel_holes
from labelgen.problems import Problem
from labelgen.reading.data_readers import built_in_hardware
from labelgen.wiring.expansion import Expansion

RAILWAY = """
supplies: {{PULSE: {{kind: pulse}}, CAB: {{kind: track}}, DC: {{kind: dc}}}}
strips: {{A1: {{ways: 60}}}}
points: {{P3: {{kind: three-way, name: fish quay}}}}
levers: {{11: {{normal: {normal}}}}}
devices:
  TA: {{kind: section, lever: 11, name: up main}}
  S2: {{kind: signal-3-aspect, lever: S2, name: home}}
panels:
  QUAY:
    size: [300, 150]
    levers: {{3: [8, 12], 11: [18, 12], S2: [24, 6]}}
    texts: {{Harbour: {at}}}
"""


def made(normal: str = "up", at: tuple[float, float] = (15, 2)) -> tuple[Drawing, Any, list[Problem]]:
    description = described(read(RAILWAY.format(normal=normal, at=list(at)))).with_parts(built_in_hardware())
    netlist, _ = Expansion(description, built_in_kinds(), None).netlist()
    drawings, problems = fascia_drawings(description, netlist, Look())
    holes = {(hole.thing, hole.contact): hole for hole in panel_holes(description, netlist, "QUAY")}
    return drawings["QUAY"], holes, problems


def middle(drawing: Drawing, said: str) -> tuple[float, float]:
    (found,) = [text for text in drawing.shapes if isinstance(text, Text) and text.text == said]
    left, top, right, bottom = text_ink(found).bounds
    return (left + right) / 2, (top + bottom) / 2


def test_each_button_has_its_word_above_or_below_it() -> None:
    drawing, holes, problems = made()
    assert problems == []
    for contact in ("left", "right"):
        x, y = middle(drawing, contact)
        hole = holes["3", contact]
        assert x == pytest.approx(hole.at.x, abs=1)
        assert abs(y - hole.at.y) < 14


@pytest.mark.parametrize(("normal", "upper", "lower"), [("up", "off", "on"), ("down", "on", "off")])
def test_off_and_on_stand_as_the_handle_does(normal: str, upper: str, lower: str) -> None:
    drawing, holes, _ = made(normal)
    (ux, uy), (lx, ly) = middle(drawing, upper), middle(drawing, lower)
    at = holes["11", ""].at
    assert uy < at.y < ly
    assert ux == pytest.approx(lx, abs=1)
    assert 5 < abs(ux - at.x) < 16


def test_a_rotary_switch_has_its_positions_beside_it() -> None:
    drawing, _, _ = made()
    said = [text.text for text in drawing.shapes if isinstance(text, Text)]
    assert "red, yellow, green" in said or {"red", "yellow", "green"} <= set(said)


def test_a_text_just_above_a_hole_is_said_to_push_the_number_away() -> None:
    _, _, problems = made(at=(18, 11))
    assert [problem.code for problem in problems] == ["text-in-the-way"]
    assert "'Harbour'" in problems[0].message
    assert "lever 11" in problems[0].message


def test_a_name_keeps_clear_of_a_text_on_its_line() -> None:
    """Further than the 1.8 mm that part a number from its own name."""
    drawing, _, problems = made(at=(21, 10.95))
    assert problems == []
    boxes = {t.text: text_ink(t).bounds for t in drawing.shapes if isinstance(t, Text)}
    strange = boxes["Harbour"]
    for said in ("up main", "up", "main"):
        if said in boxes:
            left, top, right, bottom = boxes[said]
            if top < strange[3] and bottom > strange[1]:
                assert max(strange[0] - right, left - strange[2]) > 3
