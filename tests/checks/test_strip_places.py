"""Strips over the edge of their board, and on each other: their ends worked out by hand from middle and length."""

import pytest
from wiring.wiring_builder import described, wired

from labelgen.checks.strip_places import strips_on_each_other, strips_over_edges
from labelgen.problems import Problem

BOARDS = "boards: {West: {size: [1200, 600]}, East: {size: [900, 600], right_of: West}, Loft: }\nstrips: "


def over(strips: str) -> list[Problem]:
    return strips_over_edges(described(BOARDS + strips), wired(BOARDS + strips)[0])


def overlapping(strips: str, boards: str = BOARDS) -> list[str]:
    found = strips_on_each_other(described(boards + strips), wired(boards + strips)[0])
    assert {problem.code for problem in found} <= {"strips-overlap"}
    return [problem.place.source for problem in found]


@pytest.mark.parametrize(
    ("strip", "edge", "mm"),
    [
        ("at: [30, 430], ways: 24, measured: 231", "left", "85.5"),  # 115.5 from the middle
        ("at: [1150, 430], ways: 24, measured: 231, way_1: right", "right", "65.5"),
        ("at: [300, 50], ways: 24, measured: 231, way_1: back", "back", "65.5"),
        ("at: [300, 500], ways: 24, measured: 231, way_1: front", "front", "15.5"),
        ("at: [118, 430], ways: 24, measured: 231, fixing: 244", "left", "4"),  # its holes are beyond its screws
        ("at: [20, 430], ways: 24", "left", "8.75"),  # not measured: 23 gaps of 2.5 mm at the least
    ],
)
def test_an_end_beyond_the_edge(strip: str, edge: str, mm: str) -> None:
    (problem,) = over(f"{{W1: {{board: West, {strip}}}}}")
    assert (problem.code, problem.place.source) == ("outside-board", "strips.W1.at")
    assert f"reaches {mm} mm beyond the {edge} edge of board West" in problem.message


@pytest.mark.parametrize(
    "strip",
    [
        "board: West, at: [120, 430], ways: 24, measured: 231",
        "board: West, at: [115, 430], ways: 24, measured: 231",  # half a millimetre is how people measure
        "board: West, at: [40, 430], ways: 24",  # nobody measured it, and it may be a small one
        "board: West, at: [-30, 430], ways: 24, measured: 231",  # said of its middle already
        "board: Loft, at: [3, 430], ways: 24, measured: 231",  # without a size
        "board: Attic, at: [3, 430], ways: 24, measured: 231",  # unknown: that is told elsewhere
        "board: West, ways: 24, measured: 231",
        "at: [3, 430], ways: 24, measured: 231",  # on which board, nobody knows
    ],
)
def test_what_is_on_its_board_or_unknown(strip: str) -> None:
    assert over(f"{{W1: {{{strip}}}}}") == []


LONG = "ways: 24, measured: 230"


@pytest.mark.parametrize(
    ("first", "second"),
    [
        (f"at: [300, 430], {LONG}", f"at: [320, 430], {LONG}"),
        (f"at: [300, 430], {LONG}", f"at: [300, 425], {LONG}"),  # beside each other, closer than 10 mm of pitch
        (f"at: [300, 430], {LONG}", f"at: [400, 400], {LONG}, way_1: back"),  # across
        ("at: [300, 430]", "at: [305, 430]"),  # not measured
    ],
)
def test_two_on_one_place(first: str, second: str) -> None:
    strips = f"{{W1: {{board: West, {first}}}, W2: {{board: West, {second}}}}}"
    assert overlapping(strips) == ["strips.W2.at"]
    elsewhere = strips.replace("W2: {board: West", "W2: {board: East")
    assert overlapping(elsewhere) == []
    alone = strips.replace("board: West, ", "")
    assert overlapping(alone, "strips: ") == ["strips.W2.at"], "without boards all are in one frame"
    assert overlapping(alone) == [], "on which boards, nobody knows"


@pytest.mark.parametrize(
    ("first", "second"),
    [
        (f"at: [300, 430], {LONG}", f"at: [535, 430], {LONG}"),  # end to end: 415 and 420
        (f"at: [300, 430], {LONG}", f"at: [300, 415], {LONG}"),
        (f"at: [300, 430], {LONG}", f"at: [400, 300], {LONG}, way_1: back"),
        ("at: [300, 430]", "at: [340, 430]"),
        ("at: [300, 430]", ""),
    ],
)
def test_two_that_have_room(first: str, second: str) -> None:
    assert overlapping(f"{{W1: {{board: West, {first}}}, W2: {{board: West, {second}}}}}") == []


def test_each_of_many_is_said_once_in_words() -> None:
    strips = ", ".join(f"W{n}: {{board: West, at: [{300 + 20 * n}, 430], {LONG}}}" for n in (3, 1, 2))
    assert sorted(overlapping(f"{{{strips}}}")) == ["strips.W1.at", "strips.W2.at"], "the one that is written later"
    text = BOARDS + f"{{W1: {{board: West, at: [300, 430], {LONG}}}, W2: {{board: West, at: [320, 430], {LONG}}}}}"
    (problem,) = strips_on_each_other(described(text), wired(text)[0])
    assert problem.message == (
        "strips W1 and W2 lie on each other on board West: W1 is from 185 to 415 mm across, W2 is from 205 to 435 mm"
        " across"
    )
