"""Two alternating supplies that are joined across boards are one mistake: the danger is told, not the short circuit."""

import pytest
from wiring.wiring_builder import described, wired

from labelgen.checks.check_list import check

RAILWAY = """
boards: {West: , East: }
plugs: {J1: {boards: [West, East], pins: 9}}
supplies: {AC1: {kind: ac, board: West}, AC2: {kind: ac, board: EAST}}
strips: {A1: {board: West, measured: 110, bridges: BRIDGES}, B1: {board: East, measured: 110}}
wires:
"""


def told(*wires: str, east: str = "East", bridges: str = "[]") -> list[tuple[str, str]]:
    railway = RAILWAY.replace("EAST", east).replace("BRIDGES", bridges)
    railway += "".join(f"  - {{{wire}, function: {use}}}\n" for wire, use in zip(wires, ("lamp", "data"), strict=False))
    netlist, _ = wired(railway)
    found = check(described(railway), netlist)
    return [(problem.code, problem.place.source) for problem in found if problem.code in ("ac-joined", "nets-joined")]


def test_across_boards_the_danger_is_told() -> None:
    wires = ("from: AC1.feed, to: A1.1", "from: AC2.feed, to: A1.1")
    assert told(*wires) == [("ac-joined", "wires.1")]


def test_on_one_board_it_is_a_short_circuit() -> None:
    wires = ("from: AC1.feed, to: A1.1", "from: AC2.feed, to: A1.1")
    assert told(*wires, east="West") == [("nets-joined", "wires.1")]


def test_by_a_bridge() -> None:
    wires = ("from: AC1.feed, to: A1.1", "from: AC2.feed, to: A1.2")
    found = told(*wires, bridges="[[1, 2]]")
    assert {code for code, _ in found} == {"ac-joined"}
    assert len(found) == 1


@pytest.mark.parametrize("terminal", ["return", "feed"])
def test_another_mistake_at_another_place_is_told_as_well(terminal: str) -> None:
    wires = ("from: AC1.feed, to: B1.1", f"from: AC2.{terminal}, to: B1.1")
    assert told(*wires, bridges="[[1, 2]]") == [("ac-joined", "wires.1")]
