"""Lever plates: number and name, N and R at the ends where the handle lies."""

import pytest
from coloraide import Color
from drawn_extents import assert_all_inside, cap_height, extent, texts
from hypothesis import given
from hypothesis import strategies as st
from small_railway import Railway, description

from labelgen.drawings.plates.lever_bands import letters_of_role
from labelgen.drawings.plates.plates import plate_drawings
from labelgen.model.description import Description
from labelgen.model.drawing import Box, Circle, Drawing, Line, Outline
from labelgen.model.look import CellSize, Look
from labelgen.problems import Problem
from labelgen.standards.colour_letters import COLOURS
from labelgen.standards.lever_colours import ROLES, role_words

LOOK = Look()
CELLS = [
    CellSize(width=width, height=height)
    for width, height in ((38.1, 21.2), (45.7, 16.9), (63.5, 33.9), (25.4, 10), (99.1, 38.1))
]
CELL = CELLS[0]


def plates(railway: Railway, cell: CellSize = CELL, look: Look = LOOK) -> tuple[list[Drawing], list[Problem]]:
    return plate_drawings(description(), railway.netlist(), look, cell)


def one(cell: CellSize = CELL, look: Look = LOOK, **lever: object) -> Drawing:
    railway = Railway()
    railway.lever(str(lever.pop("id", "5")), **lever)
    drawings, problems = plates(railway, cell, look)
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
    assert {box.fill for box in plate.shapes if isinstance(box, Box)} == {None, COLOURS["WH"].paint}
    low = one(CellSize(width=25.4, height=10), spare=True)
    assert [type(shape).__name__ for shape in low.shapes] == ["Text", "Text"]


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


LEVERS: dict[str, dict[str, str]] = {
    "1": {"role": "stop", "name": "Home"},
    "2": {"role": "home-and-distant", "name": "Inner home"},
    "3": {"role": "king"},
    "4": {"role": "detonators", "normal": "left"},
    "5": {"role": "detonators-down"},
    "6": {"role": "detonators-single"},
    "7": {"colour": "orange"},
    "8": {"role": "section", "name": "Yard"},
}


def painted(cell: CellSize, look: Look = LOOK) -> dict[str, Drawing]:
    railway = Railway()
    for id_, keys in LEVERS.items():
        railway.lever(id_, name=keys.get("name", ""), normal=keys.get("normal", "up"))
    given = Description.model_validate({"railway": "Marram Quay", "levers": LEVERS})
    drawings, problems = plate_drawings(given, railway.netlist(), look, cell)
    assert problems == []
    return dict(zip(LEVERS, drawings, strict=True))


def shades(drawing: Drawing) -> set[str]:
    """The colours that are painted, by their names."""
    names = {colour.paint: colour.word for colour in COLOURS.values()}
    fills = [shape.fill for shape in drawing.shapes if isinstance(shape, (Box, Outline)) and shape.fill]
    return {names[fill] for fill in fills if fill in names}


def words_of(drawing: Drawing) -> set[str]:
    return {text.text for text in texts(drawing)}


@pytest.mark.parametrize("cell", CELLS)
def test_a_plate_has_its_levers_colours(cell: CellSize) -> None:
    found = painted(cell)
    marks = shades(one(cell))
    wanted = {"1": {"red"}, "2": {"red", "yellow"}, "3": {"brown", "white"}, "7": {"orange"}}
    for id_, colours in wanted.items():
        assert shades(found[id_]) >= colours
        assert shades(found[id_]) - marks <= colours
    for plate in found.values():
        assert_all_inside(plate)


@pytest.mark.parametrize("cell", [cell for cell in CELLS if cell.height > 17])
def test_the_band_says_what_it_works_and_survives_black_and_white(cell: CellSize) -> None:
    found, mono = painted(cell), painted(cell, Look(mono=True))
    said = {"1": "stop", "2": "home and distant", "3": "king", "4": "detonators, up", "8": "section"}
    for id_, role in said.items():
        assert role in words_of(found[id_])
    assert "stop, red" in words_of(mono["1"])
    assert "home and distant, red/yellow" in words_of(mono["2"])
    assert {"orange"} <= words_of(mono["7"])
    assert "section" in words_of(mono["8"])
    assert all(shades(plate) <= {"white", "black"} for plate in mono.values())


def test_the_words_on_a_band_stand_out_from_its_colour() -> None:
    for id_, plate in painted(CELL).items():
        for text in texts(plate):
            left, top, right, bottom = extent(text)
            under = [
                shape.fill
                for shape in plate.shapes
                if isinstance(shape, Box) and shape.fill and shape.x <= left and right <= shape.x + shape.width
                if shape.y <= top + 0.5 and bottom - 0.5 <= shape.y + shape.height
            ]
            ground = under[-1] if under else "#FFFFFF"
            assert Color(ground).contrast(text.colour, method="wcag21") >= 4.5, (id_, text.text)


def test_chevrons_point_up_down_and_both_ways() -> None:
    found = painted(CELL)
    runs = [next(s.runs[0] for s in found[id_].shapes if isinstance(s, Outline) and len(s.runs) > 4) for id_ in "456"]
    up, down, both = runs
    assert min(up, key=lambda corner: corner[1])[0] == pytest.approx(sum(x for x, _ in up) / 3)
    assert max(down, key=lambda corner: corner[1])[0] == pytest.approx(sum(x for x, _ in down) / 3)
    assert len(both) == 4


def on_low_plates(*names: str, width: float) -> list[set[str]]:
    """What is written on plates of points 10 mm high, in black and white."""
    railway = Railway()
    for number, name in enumerate(names, 1):
        railway.lever(str(number), name=name)
    roles = {str(number): {"role": "points"} for number in range(1, len(names) + 1)}
    given = Description.model_validate({"railway": "Marram Quay", "levers": roles})
    drawings, problems = plate_drawings(given, railway.netlist(), Look(mono=True), CellSize(width=width, height=10))
    assert problems == []
    return [words_of(drawing) for drawing in drawings]


def test_low_plates_in_black_and_white_say_in_words_what_the_lever_works() -> None:
    (written,) = on_low_plates("Release", width=46)
    assert "Release, points" in written


def test_where_words_have_no_room_on_one_of_them_all_have_letters() -> None:
    long, short = on_low_plates("Loop by the harbour", "Bay", width=25.4)
    assert "points" not in long | short
    assert "Po" in long & short


@pytest.mark.parametrize("words", ["british", "american"])
def test_no_two_roles_have_the_same_letters(words: str) -> None:
    said = [*{role_words(role, words) for role in ROLES} - {""}, "out of use"]
    assert len({letters_of_role(each) for each in said}) == len(said)


def test_number_and_name_come_before_the_colour() -> None:
    name, cell = "coal", CellSize(width=17.8, height=10)
    railway = Railway()
    railway.lever("5", name=name)
    bare, fits = plates(railway, cell)
    given = Description.model_validate({"railway": "Marram Quay", "levers": {"5": {"role": "points"}}})
    drawings, problems = plate_drawings(given, railway.netlist(), LOOK, cell)
    assert fits == problems == []
    assert drawings[0].shapes == bare[0].shapes


def test_a_long_name_stands_in_lines_below_the_number_on_a_high_plate() -> None:
    plate = painted_name("Loudspeaker amplifier room behind the old fish market at the quay")
    lines = [text for text in texts(plate) if "oud" in text.text or "quay" in text.text]
    assert len(lines) > 1
    (number,) = (text for text in texts(plate) if text.text == "5")
    assert all(line.y > number.y for line in lines)
    assert "points" in words_of(plate)


def painted_name(name: str) -> Drawing:
    railway = Railway()
    railway.lever("5", name=name)
    given = Description.model_validate({"railway": "Marram Quay", "levers": {"5": {"role": "points"}}})
    (plate,), problems = plate_drawings(given, railway.netlist(), LOOK, CellSize(width=63.5, height=33.9))
    assert problems == []
    return plate


@pytest.mark.parametrize("normal", ["up", "down", "left"])
def test_a_section_switch_says_which_way_is_on(normal: str) -> None:
    """Off is normal (as for every on-off switch here), so on is the other way."""
    other = {"up": "down", "down": "up", "left": "right"}[normal]
    said = " ".join(text.text for text in texts(one(name="Goods", type="on-off", normal=normal)))
    assert f"{normal} off, {other} on" in said
    assert said.startswith("Goods:") or " Goods:" in said


def test_where_there_is_no_room_for_that_the_name_stands_alone() -> None:
    name = "Herring wharf and goods yard, both roads"
    said = " ".join(text.text for text in texts(one(name=name, type="on-off", cell=CellSize(width=38.1, height=8.5))))
    assert "off" not in said
