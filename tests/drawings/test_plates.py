"""Lever plates: number and name, N and R at the ends where the handle lies."""

import pytest
from drawn_extents import assert_all_inside, cap_height, extent, texts
from hypothesis import given
from hypothesis import strategies as st
from small_railway import Railway, description

from labelgen.drawings.plates import plate_drawings
from labelgen.model.drawing import Circle, Drawing, Line
from labelgen.model.look import CellSize, Look
from labelgen.problems import Problem

LOOK = Look()
CELLS = [
    CellSize(width=width, height=height)
    for width, height in ((38.1, 21.2), (45.7, 16.9), (63.5, 33.9), (25.4, 10), (99.1, 38.1))
]
CELL = CELLS[0]


def plates(railway: Railway, cell: CellSize = CELL, look: Look = LOOK) -> tuple[list[Drawing], list[Problem]]:
    return plate_drawings(description(), railway.netlist(), look, cell)


def one(cell: CellSize = CELL, **lever: object) -> Drawing:
    railway = Railway()
    railway.lever(str(lever.pop("id", "5")), **lever)
    drawings, problems = plates(railway, cell)
    assert problems == []
    return drawings[0]


def where(drawing: Drawing, said: str) -> tuple[float, float]:
    (text,) = [text for text in texts(drawing) if text.text == said]
    left, top, right, bottom = extent(text)
    return (left + right) / 2, (top + bottom) / 2


@pytest.mark.parametrize("cell", CELLS)
@pytest.mark.parametrize(("normal", "dx", "dy"), [("up", 0, -1), ("down", 0, 1), ("left", -1, 0), ("right", 1, 0)])
def test_n_is_at_the_end_where_the_handle_lies_when_normal(cell: CellSize, normal: str, dx: int, dy: int) -> None:
    plate = one(cell, normal=normal, name="Quay")
    (nx, ny), (rx, ry) = where(plate, "N"), where(plate, "R")
    along, across = ((nx - rx) * dx + (ny - ry) * dy), ((nx - rx) * dy + (ny - ry) * dx)
    assert along > 3
    assert abs(across) < 0.5
    knobs = [shape for shape in plate.shapes if isinstance(shape, Circle)]
    if knobs:
        assert abs(knobs[0].x - nx) + abs(knobs[0].y - ny) < abs(knobs[0].x - rx) + abs(knobs[0].y - ry)


@pytest.mark.parametrize("normal", ["up", "left"])
def test_a_plate_with_room_shows_the_handles_travel(normal: str) -> None:
    assert any(isinstance(shape, Circle) for shape in one(normal=normal).shapes)


def test_the_number_is_the_largest_thing() -> None:
    plate = one(name="Harbour siding")
    sizes = {text.text: cap_height(text) for text in texts(plate)}
    assert sizes["5"] > 2 * max(size for text, size in sizes.items() if text != "5")


@given(
    id=st.text("0123456789YZ", min_size=1, max_size=3), name=st.sampled_from(["", "Quay", "Up loop", "Çédille Łódź"]),
    normal=st.sampled_from(["up", "down", "left", "right"]), cell=st.sampled_from(CELLS), spare=st.booleans(),
    type=st.sampled_from(["sprung", "on-off", "button"]), mono=st.booleans(),
)  # fmt: skip
def test_everything_lies_on_the_plate(id: str, mono: bool, cell: CellSize, **lever: object) -> None:  # noqa: A002
    railway = Railway()
    railway.lever(id, **lever)
    (plate,), problems = plates(railway, cell, Look(mono=mono))
    assert_all_inside(plate)
    assert (plate.width, plate.height) == (cell.width, cell.height)
    assert all(cap_height(text) >= LOOK.smallest_cap * 0.995 for text in texts(plate))
    assert problems == []
    assert id in [text.text for text in texts(plate)]


def test_texts_of_a_plate_do_not_run_into_each_other() -> None:
    for cell in CELLS:
        for normal in ("up", "left"):
            boxes = [extent(text) for text in texts(one(cell, id="18", name="Up loop", normal=normal))]
            for index, a in enumerate(boxes):
                for b in boxes[index + 1 :]:
                    assert a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]


def test_spares_say_so_and_are_white_without_normal_or_reverse() -> None:
    plate = one(spare=True, name="Siding")
    assert sorted(text.text for text in texts(plate)) == ["5", "spare"]
    assert len(plate.shapes) == 2


def test_a_button_has_no_normal() -> None:
    assert sorted(text.text for text in texts(one(type="button", name="Bell"))) == ["5", "Bell"]


def test_a_number_that_turns_into_another_has_a_line_below_it() -> None:
    for number, expected in (("9", 1), ("16", 1), ("5", 0), ("8", 0)):
        plate = one(id=number, spare=True)
        assert len([shape for shape in plate.shapes if isinstance(shape, Line)]) == expected


def test_plates_come_in_the_levers_order_and_belong_to_boards() -> None:
    railway = Railway()
    for id in ("1", "2", "10"):  # noqa: A001
        railway.lever(id, shown=f"No {id}", panel=None if id == "10" else "QUAY")
    drawings, _ = plates(railway)
    assert [drawing.name for drawing in drawings] == ["plate No 1", "plate No 2", "plate No 10"]
    assert [drawing.board for drawing in drawings] == [lever.board for lever in railway.netlist().levers]


def test_a_name_that_cannot_be_read_is_a_problem() -> None:
    for cell, normal in ((CELLS[3], "up"), (CELL, "left")):
        railway = Railway()
        railway.lever("5", name="Loudspeakeramplifierroom " * 9, normal=normal)
        drawings, problems = plates(railway, cell)
        assert [problem.code for problem in problems] == ["text-does-not-fit"]
        assert_all_inside(drawings[0])


def test_a_number_that_cannot_be_read_is_a_problem() -> None:
    for name in ("", "Quay"):
        railway = Railway()
        railway.lever("5", shown="Loudspeaker-amplifier-room-at-the-quay", name=name)
        drawings, problems = plates(railway, CELLS[3])
        assert "text-does-not-fit" in [problem.code for problem in problems]
        assert_all_inside(drawings[0])


def test_a_cell_that_is_too_small_is_a_problem() -> None:
    railway = Railway()
    railway.lever("5")
    drawings, problems = plates(railway, CellSize(width=12, height=8))
    assert drawings == []
    assert [problem.code for problem in problems] == ["label-too-large"]
    assert plates(Railway(), CellSize(width=12, height=8)) == ([], [])
