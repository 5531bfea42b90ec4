"""Plugs as they are described: section 2 of the format."""

import pytest

from labelgen.reading.description_reader import read_description_text

BOARDS = "railway: x\nboards: {West: {}, East: {}}\n"


def told(text: str) -> list[tuple[str, int, int, str]]:
    _, problems = read_description_text(text)
    return [(problem.code, problem.place.line, problem.place.column, problem.message) for problem in problems]


def test_a_plug_and_what_it_holds() -> None:
    description, problems = read_description_text(
        BOARDS + "plugs:\n  J1: {boards: [West, East], pins: 15, keep_empty: [13], shown: X/1, name: quay joint,"
        " at: {West: [1190, 300], East: [10, -5.5]}}\n"
        "functions: {return: {pins: 3}}\nsupplies: {D: {kind: dc, pins: 2}, E: {kind: dc}}\n"
    )
    assert problems == []
    assert description is not None
    plug = description.plugs["J1"]
    assert (plug.boards, plug.pins, plug.keep_empty, plug.name) == (("West", "East"), 15, (13,), "quay joint")
    assert plug.at == {"West": (1190, 300), "East": (10, -5.5)}
    assert description.shown == {"J1": "X/1"}
    assert [supply.pins for supply in description.supplies.values()] == [2, 1]
    assert description.functions["return"].pins == 3


@pytest.mark.parametrize(
    ("plug", "code", "column", "said"),
    [
        ("boards: [West], pins: 4", "bad-plug", 22, "a plug joins two boards, not West"),
        ("boards: [], pins: 4", "bad-plug", 22, "a plug joins two boards, not none"),
        ("boards: [West, West], pins: 4", "bad-plug", 22, "a plug joins two boards, not West"),
        ("boards: [West, Est], pins: 4", "unknown-name", 29, "there is no board `Est`"),
        ("boards: [West, East], pins: 201", "out-of-range", 42, "201 is too large here"),
        ("boards: [West, East], pins: 0", "out-of-range", 42, "0 is too small here"),
        ("boards: [West, East], pins: 4, keep_empty: [2, 5]", "bad-plug", 61, "there is no pin 5 on a plug of 4"),
        ("boards: [West, East], pins: 4, at: {North: [1, 2]}", "bad-plug", 50, "the plug is not on North, but on West"),
        ("boards: [West, East]", "missing-key", 9, "`pins`"),
        ("pins: 4", "missing-key", 9, "`boards`"),
    ],
)
def test_a_plug_that_cannot_be(plug: str, code: str, column: int, said: str) -> None:
    # behind `plugs: {J1: {` the first key stands in column 14
    ((found, line, at, message),) = told(BOARDS + f"plugs: {{J1: {{{plug}}}}}\n")
    assert (found, line, at) == (code, 3, column)
    assert said in message


def test_the_id_of_a_plug_is_nobody_elses() -> None:
    plug = "plugs: {%s: {boards: [West, East], pins: 4}}\n"
    assert told(BOARDS + "strips: {j1: {board: West}}\n" + plug % "J1") == [
        ("repeated-id", 4, 9, "`J1` is taken: it is the strip on line 3")
    ]
    assert [code for code, *_ in told(BOARDS + plug % "L5" + "levers: {5: {spare: yes}}\n")] == ["bad-id"]
    assert [code for code, *_ in told(BOARDS + plug % "J/1")] == ["bad-id"]


@pytest.mark.parametrize("pins", ["0", "21", "1.5"])
def test_how_many_pins_a_wire_may_take(pins: str) -> None:
    assert len(told(BOARDS + f"functions: {{return: {{pins: {pins}}}}}\n")) == 1
    assert len(told(BOARDS + f"supplies: {{D: {{kind: dc, pins: {pins}}}}}\n")) == 1


def test_what_is_on_each_board_of_a_plug() -> None:
    text = BOARDS + "plugs: {J1: {boards: [West, East], pins: 4, gender: {West: socket, %s: plug}}}\n"
    assert told(text % "East") == []
    assert [code for code, *_ in told(text % "North")] == ["bad-plug"]
