"""Plates of plugs, ends of jumpers and both faces of holes: what is said on them, and that it is legible."""

from collections.abc import Iterable
from itertools import product
from typing import Any

import pytest
from drawings.drawn_extents import assert_all_inside, cap_height, texts
from wiring.wiring_builder import described, wired

from labelgen.drawings.flags.flags import flag_drawings
from labelgen.drawings.flags.order import in_order_of_work
from labelgen.drawings.places.hole_heads import forms
from labelgen.drawings.places.label import share
from labelgen.drawings.places.places import place_drawings
from labelgen.model.drawing import Box, Drawing, Line
from labelgen.model.look import CellSize, Look
from labelgen.problems import Problem

CELLS = {
    "a4-8-99x68": CellSize(width=99.1, height=67.7),
    "us-6-102x85": CellSize(width=101.6, height=84.7),
    "a4-21-64x38": CellSize(width=63.5, height=38.1),
}
A4 = CELLS["a4-8-99x68"]

RAILWAY = """
boards:
  West: {size: [1200, 600], at: [0, 0], holes: {H1: {at: [700, 540], diameter: 20}, H2: {at: [5, 5]}}}
  East: {size: [1200, 600], right_of: West, shown: Throat}
plugs:
  J1: {boards: [West, East], pins: 9, name: harbour joint, keep_empty: [4]}
supplies: {PULSE: {kind: pulse, board: West, at: [100, 120], pins: 2}}
strips: {S1: {board: West, at: [420, 330]}, S3: {board: East, at: [420, 330]}}
panels: {QUAY: {board: West, at: [600, 600], size: [400, 100], levers: {row: 5}}}
points: {P5: {board: West, at: [1, 2]}, P6: {board: East, at: [820, 240]}}
"""
"""On J1 6N, 6F and 6R, nothing on pin 4, then F on 5 and 6, C on 7 and 8; 9 is spare."""


def drawn(
    railway: str | dict[str, Any] = RAILWAY, cell: CellSize = A4, look: Look | None = None
) -> tuple[list[Drawing], list[Problem]]:
    netlist, problems = wired(railway)
    assert problems == []
    return place_drawings(described(railway), netlist, look or Look(), cell)


def labels(railway: str | dict[str, Any] = RAILWAY, cell: CellSize = A4) -> dict[str, Drawing]:
    drawings, problems = drawn(railway, cell)
    assert problems == []
    assert len({drawing.name for drawing in drawings}) == len(drawings)
    return {drawing.name: drawing for drawing in drawings}


def said(drawing: Drawing) -> list[str]:
    return [text.text for text in texts(drawing)]


def rows(drawing: Drawing) -> list[list[str]]:
    """What stands beside each pin's number, from its number on: of a plate in one column."""
    found: dict[float, list[str]] = {}
    for text in sorted(texts(drawing), key=lambda text: text.x):
        found.setdefault(round(text.y, 1), []).append(text.text)
    return [found[y] for y in sorted(found)]


ENDS = ("plate", "jumper", "label of hole")


def of_ends(drawings: Iterable[Drawing]) -> list[Drawing]:
    """Those for the ends of boards."""
    return [drawing for drawing in drawings if drawing.name.startswith(ENDS)]


def test_two_plates_two_jumper_ends_and_both_faces_of_a_hole() -> None:
    found = {drawing.name: drawing for drawing in of_ends(labels().values())}
    assert list(found) == [
        "plate of plug J1 on West",
        "plate of plug J1 on Throat",
        "jumper end of plug J1 on West",
        "jumper end of plug J1 on Throat",
        "label of hole H1, first face",
        "label of hole H1, second face",
    ]
    assert [drawing.board for drawing in found.values()] == ["West", "East", "West", "East", "West", "West"]


def test_nothing_to_print() -> None:
    assert drawn("boards: {A: }", CellSize(width=5, height=5)) == ([], [])
    assert drawn("boards: {A: }") == ([], [])


def test_a_plate_says_what_each_pin_carries_and_where_it_goes() -> None:
    """In two columns, five pins and four; a code letter stands in its block."""
    west, east = (labels()[f"plate of plug J1 on {board}"] for board in ("West", "Throat"))
    words = said(west)
    assert words[:3] == ["J1", "on West", "faces Throat"]
    assert "harbour joint" in words
    assert {"Pin", "Wire", "Goes to", "keep empty", "spare", "with pin 5", "with pin 7"} <= set(words)
    table = [row for row in rows(west) if "L6.N" in row or "L6.R" in row or "S1.2" in row]
    assert [[word for word in row if word not in ("N", "R", "F", "C")] for row in table] == [
        ["1", "6", "L6.N", "6", "with pin 5"],
        ["3", "6", "L6.R", "8", "with pin 7"],
        ["5", "S1.2"],
    ]
    assert said(east)[1:3] == ["on Throat", "faces West"]
    assert {"S3.1", "S3.2", "S3.3", "P6.C"} <= set(said(east))
    assert not {"S3.1", "P6.C"} & set(words)


def test_a_pin_that_is_kept_empty_has_a_crossed_box() -> None:
    plate = labels()["plate of plug J1 on West"]
    crossed = [
        shape for shape in plate.shapes if isinstance(shape, Box) and shape.fill is None and shape.stroke == "#000000"
    ]
    assert len(crossed) == 1


def test_a_code_block_in_its_function_s_look_on_every_used_pin() -> None:
    plate = labels()["plate of plug J1 on West"]
    letters = [word for word in said(plate) if word in ("N", "F", "R", "C")]
    assert sorted(letters) == ["C", "C", "F", "F", "F", "N", "R"]


BIG = [
    ("a4-8-99x68", 20, [20]),
    ("a4-8-99x68", 25, [12, 13]),
    ("a4-21-64x38", 9, [3, 3, 3]),
    ("a4-21-64x38", 4, [4]),
    ("a4-21-64x38", 5, [2, 3]),
    ("us-6-102x85", 25, [25]),
]


@pytest.mark.parametrize(("cell", "pins", "each"), BIG)
def test_a_big_plug_goes_on_on_further_labels(cell: str, pins: int, each: list[int]) -> None:
    found = labels(
        RAILWAY.replace("pins: 9", f"pins: {pins}").replace(
            "points: {P5: {board: West, at: [1, 2]}, P6: {board: East, at: [820, 240]}}", ""
        ),
        CELLS[cell],
    )
    plates = [drawing for name, drawing in found.items() if name.startswith("plate of plug J1 on West")]
    shown = [[int(word) for word in said(plate) if word.isdigit()] for plate in plates]
    assert [len(numbers) for numbers in shown] == each
    assert [number for numbers in shown for number in numbers] == list(range(1, pins + 1))
    if len(each) > 1:
        assert any(f"pins 1–{each[0]} of {pins}, 1/{len(each)}" in word for word in said(plates[0]))
        # they look alike: the same size of type on each
        assert (
            len({round(cap_height(text), 6) for plate in plates for text in texts(plate) if text.text.isdigit()}) == 1
        )


def test_one_pin_alone_on_a_label_is_no_run() -> None:
    low = CellSize(width=50, height=25)
    found = labels("boards: {A: , B: }\nplugs: {J1: {boards: [A, B], pins: 2}}", low)
    assert [name for name in found if name.startswith("plate")][:2] == [
        "plate of plug J1 on A pin 1 of 2, 1/2",
        "plate of plug J1 on A pin 2 of 2, 2/2",
    ]


def test_numbers_that_read_otherwise_upside_down_are_underlined() -> None:
    """6 and 9 are on the plate: two lines between the rules that are neither as long as a column nor black crosses."""
    plate = labels()["plate of plug J1 on West"]
    numbers = {text.text: text for text in texts(plate) if text.text in ("6", "9") and text.anchor == "middle"}
    lines = [s for s in plate.shapes if type(s).__name__ == "Line" and s.y1 == s.y2 and 0.5 < s.x2 - s.x1 < 3]
    for text in numbers.values():
        assert any(0 < line.y1 - text.y < 1.2 and line.x1 < text.x < line.x2 for line in lines)


def test_a_jumper_says_from_where_to_where() -> None:
    west = said(labels()["jumper end of plug J1 on West"])
    assert west == ["West J1", "to Throat J1", "length", "harbour joint"]
    assert said(labels()["jumper end of plug J1 on Throat"])[:2] == ["Throat J1", "to West J1"]


def test_a_jumper_without_a_name() -> None:
    assert said(labels(RAILWAY.replace("name: harbour joint, ", ""))["jumper end of plug J1 on West"])[2:] == ["length"]


def test_a_hole_says_what_goes_through_in_threading_order() -> None:
    """The levers' wires: lever 5's to S1, then lever 6's to the plug, whose place is not known: those have no hole."""
    first, second = (labels()[f"label of hole H1, {face} face"] for face in ("first", "second"))
    assert said(first) == ["H1", "West", "3 wires", "5N  5F  5R"]
    assert first.shapes == second.shapes


def test_a_head_that_several_wires_have_is_said_once() -> None:
    twice = RAILWAY + "wires: [{from: L5.N, to: S1.9, function: normal}]\n"
    assert "5N×2" in " ".join(said(labels(twice)["label of hole H1, first face"]))


def many(points: int, first: int = 1) -> dict[str, Any]:
    """So many points on one board, each lever's wires through the one hole."""
    return {
        "boards": {"West": {"holes": {"H6": {"at": ["5", "5"]}}}},
        "supplies": {"PULSE": {"kind": "pulse"}},
        "strips": {"S1": {"at": ["420", "330"], "ways": "200"}},
        "panels": {"QUAY": {"at": ["600", "600"], "size": ["900", "100"], "levers": {"row": "5"}}},
        "points": {f"P{n}": {"at": ["5", "5"]} for n in range(first, first + points)},
    }


@pytest.mark.parametrize(("points", "size"), [(2, (49.55, 16.925)), (20, (99.1, 16.925)), (40, (99.1, 33.85))])
def test_a_hole_with_many_wires_takes_a_larger_label(points: int, size: tuple[float, float]) -> None:
    drawings, problems = drawn(many(points))
    assert problems == []
    drawings = of_ends(drawings)
    assert [(d.width, d.height) for d in drawings] == [pytest.approx(size)] * 2
    heads = " ".join(word for drawing in drawings[:1] for word in said(drawing)[3:]).split()
    assert heads == [f"{n}{code}" for n in range(1, points + 1) for code in "NFR"]


def test_the_largest_label_is_a_whole_cell() -> None:
    drawings, problems = drawn(many(66, first=100001))
    assert problems == []
    assert [(drawing.width, drawing.height) for drawing in of_ends(drawings)] == [(99.1, 67.7)] * 2


def test_a_hole_that_reads_otherwise_upside_down() -> None:
    railway = """
        boards: {West: {holes: {66: {at: [5, 5], shown: 66}}}}
        supplies: {D: {kind: dc}}
        strips: {S1: {at: [420, 330]}}
        panels: {QUAY: {at: [600, 600], size: [900, 100], levers: {row: 5}}}
        kinds: {bell: {terminals: {T: }, supply: dc, lever_type: on-off,
                       group: [{function: lamp, contact: 2, terminal: T, mark: b}]}}
        devices: {X: {kind: bell, lever: 1, at: [5, 5]}}
    """
    found = labels(railway)["label of hole 66, first face"]
    assert said(found) == ["66", "West", "1 wire", "1Lb"]
    level = [shape for shape in found.shapes if isinstance(shape, Line) and shape.y1 == shape.y2]
    assert len(level) == 1


def test_a_mark_stands_behind_the_block_on_a_plate() -> None:
    railway = """
        boards: {A: , B: }
        plugs: {J1: {boards: [A, B], pins: 4}}
        supplies: {CAB: {kind: track, board: A}}
        strips: {S1: {board: B}}
        panels: {QUAY: {board: A}}
        devices: {X: {kind: section, lever: 12, board: B}}
    """
    marked = next(row for row in rows(labels(railway)["plate of plug J1 on A"]) if "s" in row)
    assert marked == ["2", "12", "s", "L12.2", "4", "CAB.B"]


@pytest.mark.parametrize("smallest", [3.5, 9.0])
def test_where_nothing_is_legible_it_is_said_and_left_out(smallest: float) -> None:
    long = RAILWAY.replace("J1: {", f"J1: {{shown: {'J1-' * 30}, ").replace("S1: {", f"S1: {{shown: {'S1-' * 30}, ")
    netlist, _ = wired(long)
    drawings, problems = place_drawings(described(long), netlist, Look(smallest_cap=smallest), CELLS["a4-21-64x38"])
    assert {problem.code for problem in problems} == {"text-does-not-fit"}
    assert problems[0].place.source in ("plugs.J1", "boards.West.holes.H1")
    for drawing in drawings:
        assert not [text for text in texts(drawing) if "J1-" in text.text or "S1-" in text.text]


@pytest.mark.parametrize(
    ("points", "cell", "words"),
    [
        (24, CellSize(width=63.5, height=38.1), [f"{n}{code}" for n in range(1, 25) for code in "NFR"]),
        (66, CellSize(width=63.5, height=38.1), [f"{n}NFR" for n in range(1, 67)]),
        (66, CellSize(width=48.5, height=25.4), ["1–66NFR"]),
    ],
)
def test_too_many_for_any_label_is_said_in_fewer_words(points: int, cell: CellSize, words: list[str]) -> None:
    drawings, problems = drawn(many(points), cell)
    assert problems == []
    drawings = of_ends(drawings)
    assert len(drawings) == 2
    assert " ".join(word for word in said(drawings[0])[3:]).split() == words
    assert f"{3 * points} wires" in said(drawings[0])


def test_forms_of_what_goes_through_a_hole() -> None:
    railway = many(4)
    railway["points"] = {f"P{n}": {"at": ["5", "5"]} for n in (1, 2, 3, 5)} | {"PX1": {"lever": "Y1", "at": ["5", "5"]}}
    netlist, _ = wired(railway)
    through = [wire for wire in netlist.wires if wire.holes]
    full, by_lever, runs, last = forms(through)
    assert full == [f"{lever}{code}" for lever in ("1", "2", "3", "5", "Y1") for code in "NFR"]
    assert by_lever == ["1NFR", "2NFR", "3NFR", "5NFR", "Y1NFR"]
    assert runs == ["1–3NFR", "5NFR", "Y1NFR"]
    assert last == ["15 wires,", "see the cut list"]


def test_a_sheet_that_is_too_small() -> None:
    drawings, problems = drawn(cell=CellSize(width=38.1, height=21.2))
    assert drawings == []
    assert [problem.code for problem in problems] == ["label-too-large"]
    assert "48 × 25 mm" in problems[0].message


def test_long_names_are_a_problem_where_they_cannot_be_read() -> None:
    long = RAILWAY.replace("shown: Throat", f"shown: {'Station throat and harbour branch junction ' * 3}")
    _, problems = drawn(long)
    assert {problem.code for problem in problems} == {"text-does-not-fit"}
    lacking = RAILWAY.replace("harbour joint", "joint 漢")
    assert {problem.code for problem in drawn(lacking)[1]} == {"character-missing"}


@pytest.mark.parametrize(("cell", "smallest", "mono"), [*product(CELLS, [1.31, 1.8], [False, True])])
def test_everything_is_inside_its_label_and_legible(cell: str, smallest: float, mono: bool) -> None:
    drawings, _ = drawn(RAILWAY, CELLS[cell], Look(mono=mono, smallest_cap=smallest))
    for drawing in drawings:
        assert_all_inside(drawing)
        for text in texts(drawing):
            assert cap_height(text) >= smallest * 0.995, text


def test_how_small_labels_share_a_cell() -> None:
    assert share(A4) == CellSize(width=49.55, height=16.925)
    assert share(A4, 2, whole=True) == CellSize(width=99.1, height=33.85)
    assert share(CellSize(width=48, height=25)) == CellSize(width=48, height=25)


def test_flags_at_pins_come_with_their_strips_and_last_pin_by_pin() -> None:
    """Strip by strip with each wire's other end; what goes from the panel to a plug touches no strip and comes last."""
    netlist, _ = wired(RAILWAY)
    ends = [flag.end.name for flag in in_order_of_work(netlist)]
    assert len(ends) == 2 * sum(not wire.link for wire in netlist.wires)
    pairs = list(zip(ends[::2], ends[1::2], strict=True))
    s1, s3 = ([i for i, pair in enumerate(pairs) if pair[0].startswith(strip)] for strip in ("S1.", "S3."))
    assert max(s1) < min(s3)
    assert [pair[1] for pair in pairs if pair[0].startswith("S3.") and pair[1].startswith("J1")] == [
        "J1.1", "J1.2", "J1.5", "J1.3",
    ]  # fmt: skip
    assert pairs[-3:] == [("L6.N", "J1.1"), ("L6.F", "J1.2"), ("L6.R", "J1.3")]


def test_a_device_that_only_a_pin_leads_to_is_flagged_with_that_pin() -> None:
    netlist, _ = wired("""
        boards: {A: , B: }
        plugs: {J1: {boards: [A, B], pins: 9}}
        supplies: {D: {kind: dc, board: A}}
        kinds: {clock: {terminals: {m: }, supply: dc, chain: [{function: return, terminal: m, supply: return}]}}
        devices: {K1: {kind: clock, board: B}}
    """)
    assert [flag.end.name for flag in in_order_of_work(netlist)] == ["D.return", "J1.1", "J1.1", "K1.m"]


def test_a_flag_at_a_pin_is_stuck_on_the_board_of_its_end() -> None:
    netlist, _ = wired(RAILWAY)
    flags, problems = flag_drawings(described(RAILWAY), netlist, Look(), CellSize(width=38.1, height=21.2))
    assert problems == []
    at_pin = [flag.board for flag in flags if flag.name == "flag 6N at J1.1"]
    assert at_pin == ["East", "West"]
