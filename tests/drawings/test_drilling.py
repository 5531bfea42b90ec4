"""Drilling templates and lists."""

from itertools import pairwise
from pathlib import Path

import pytest
from shapely.geometry import Point, box

from labelgen.drawings.drilling.drilling import drilling_drawings
from labelgen.drawings.drilling.order import Step, drilling_steps
from labelgen.drawings.drilling.pages import drilling_pages
from labelgen.lengths import Point as At
from labelgen.model.drawing import Circle, Drawing, Text
from labelgen.model.look import Look
from labelgen.model.panel.holes import PanelHole
from labelgen.pipeline import check_file
from labelgen.reading.data_readers import built_in_hardware
from labelgen.standards.drills import DRILLS_MM, is_stocked
from labelgen.standards.paper_sizes import PAPERS
from labelgen.typefaces import FACES, text_width


def hole(x: float, y: float, diameter: float) -> PanelHole:
    return PanelHole(use="lever", thing="5", called="lever 5", at=At(x, y), diameter=diameter, part=None)


def drilled(text: str, folder: Path) -> tuple[dict[str, Drawing], str]:
    """The templates of a railway, and all that its drilling list says."""
    path = folder / "box.yaml"
    path.write_text(f"railway: Marram Quay\n{text}", encoding="utf-8")
    checked, problems = check_file(path)
    assert checked is not None, problems
    drawings, said = drilling_drawings(checked.description, checked.netlist, Look()), []
    for panel in drawings:
        pages, found = drilling_pages(checked.description, checked.netlist, Look(), PAPERS["a4"], panel)
        assert found == []
        said += [shape.text for page in pages for shape in page.shapes if isinstance(shape, Text)]
    return drawings, " ".join(said)


def test_cautions_are_those_that_the_panel_needs(tmp_path: Path) -> None:
    _, plain = drilled("panels: {BOX: {size: [200, 100], screws: yes, thickness: 3}}\n", tmp_path)
    assert "Acrylic" in plain
    assert "Wear glasses" in plain
    assert not any(word in plain for word in ("step drill or a hole cutter", "Slots", "recess"))
    text = """
levers: {"1": {type: passing, spare: yes}, "2": {type: rotary, spare: yes}}
panels: {BOX: {size: [200, 100], thickness: 7, levers: {"1": [5, 5], "2": [14, 5]}}}
"""
    _, more = drilled(text, tmp_path)
    needed = ("step drill or a hole cutter", "Slots", "slot 4 by 26", "recess the back at L2")
    assert all(word in more for word in needed)


def test_a_hole_wider_than_any_drill_takes_a_saw(tmp_path: Path) -> None:
    _, said = drilled("panels: {BOX: {size: [200, 100], screws: {inset: 20, diameter: 30}}}\n", tmp_path)
    assert said.count("hole saw") == 5


def test_only_a_panel_with_a_size_and_holes_has_a_template(tmp_path: Path) -> None:
    drawings, _ = drilled("panels: {BARE: {}, EMPTY: {size: [90, 90]}, BOX: {size: [90, 90], screws: yes}}\n", tmp_path)
    assert list(drawings) == ["BOX"]


def test_marks_stand_clear_or_are_left_to_the_list(tmp_path: Path) -> None:
    lamps = ", ".join(f"[{2 + x * 0.35}, {2 + y * 0.35}]" for x in range(12) for y in range(12))
    panels = f"panels: {{BOX: {{size: [90, 90], lamps: {{CAB: [{lamps}]}}}}}}"
    drawings, said = drilled(f"supplies: {{CAB: {{kind: track}}}}\n{panels}\n", tmp_path)
    written = [shape for shape in drawings["BOX"].shapes if isinstance(shape, Text) and shape.text.startswith("LAMP")]
    assert 2 < len(written) < 144
    assert all(f"LAMP{number} " in said for number in range(1, 145))
    circles = [Point(c.x, c.y).buffer(c.radius) for c in drawings["BOX"].shapes if isinstance(c, Circle)]
    for mark in written:
        width = text_width(mark.text, mark.face, mark.size)
        place = box(mark.x, mark.y - FACES[mark.face].cap * mark.size, mark.x + width, mark.y)
        assert not any(circle.intersects(place) for circle in circles)


HOLES = {
    "L1": hole(10, 10, 6.5),
    "L2": hole(90, 12, 6.5),
    "L3": hole(50, 40, 6.5),
    "L4": hole(20, 41, 6.5),
    "LAMP1": hole(30, 10, 3.2),
    "S": hole(80, 80, 2.5),
    "BIG": hole(60, 60, 30),
    "ODD": hole(70, 60, 6.45),
}


def test_pilots_then_from_small_to_large_then_the_saw() -> None:
    steps = drilling_steps(HOLES)
    assert [(step.drill, step.pilot) for step in steps] == [
        (3.0, True),
        (2.5, False),
        (3.2, False),
        (6.5, False),
        (None, False),
    ]
    assert "S" not in steps[0].marks
    assert sorted(mark for step in steps[1:] for mark in step.marks) == sorted(HOLES)


def test_rows_are_drilled_there_and_back() -> None:
    assert drilling_steps(HOLES)[3].marks == ("L1", "L2", "L3", "L4", "ODD")


def test_without_wide_holes_there_are_no_pilots() -> None:
    assert drilling_steps({"S": HOLES["S"]}) == (Step(drill=2.5, marks=("S",)),)


def test_going_there_and_back_is_shorter_than_always_from_the_left() -> None:
    field = {f"{x}-{y}": hole(x * 20.0, y * 20.0, 6.5) for x in range(5) for y in range(4)}
    marks = drilling_steps(field)[1].marks
    way = sum(abs(field[a].at.x - field[b].at.x) + abs(field[a].at.y - field[b].at.y) for a, b in pairwise(marks))
    assert way == 19 * 20


@pytest.mark.parametrize("part", built_in_hardware())
def test_every_part_of_ours_has_a_hole_for_which_there_is_a_drill(part: str) -> None:
    assert built_in_hardware()[part].hole in DRILLS_MM


@pytest.mark.parametrize(("diameter", "stocked"), [(6.5, True), (6.45, False), (2.95, True), (16, True), (26, False)])
def test_what_is_kept_in_stock(diameter: float, *, stocked: bool) -> None:
    assert is_stocked(diameter) is stocked
