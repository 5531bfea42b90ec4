"""Two supplies of alternating current joined across boards: live pins on a mains plug. Section 6, rule 2 of our notes
on trade practice; the physics are plain: a transformer works backwards as well."""

import pytest
from wiring.wiring_builder import described, wired

from labelgen.checks.plugs import alternating_supplies_joined

RAILWAY = """
boards: {West: , East: }
plugs: {J1: {boards: [West, East], pins: 9}}
supplies: {AC1: {kind: ac, board: West}, AC2: {kind: ac, board: %s}, D: {kind: dc, board: East}}
strips: {A1: {board: West%s}, B1: {board: East}}
wires:
"""


def joined(*wires: str, board: str = "East", strip: str = "", plugs: bool = True) -> list[tuple[str, str]]:
    """Where each problem points, and what is wrong."""
    railway = RAILWAY % (board, strip) + "".join(f"  - {{{wire}, function: lamp}}\n" for wire in wires)
    if not plugs:
        railway = railway.replace("plugs: {J1: {boards: [West, East], pins: 9}}", "")
    found = alternating_supplies_joined(described(railway), wired(railway)[0])
    assert {problem.code for problem in found} <= {"ac-joined"}
    return [(problem.place.source, problem.message) for problem in found]


def test_two_supplies_joined_through_a_plug() -> None:
    (problem,) = joined("from: AC1.feed, to: A1.1", "from: AC2.feed, to: B1.1", "from: A1.1, to: B1.1")
    assert problem == (
        "wires.2",
        "the wire from J1.1 to B1.1 joins the alternating current of AC1 and AC2 from board to board",
    )


def test_one_supply_may_pass_a_plug() -> None:
    assert joined("from: AC1.feed, to: A1.1", "from: A1.1, to: B1.1", "from: AC2.feed, to: B1.2") == []


def test_feed_with_return_is_no_better() -> None:
    assert len(joined("from: AC1.feed, to: B1.1", "from: AC2.return, to: B1.1")) == 1


def test_both_terminals_of_one_supply_are_another_matter() -> None:
    assert joined("from: AC1.feed, to: B1.1", "from: AC1.return, to: B1.1") == []


def test_a_direct_supply_is_another_matter() -> None:
    assert joined("from: AC1.feed, to: B1.1", "from: D.feed, to: B1.1") == []


def test_on_one_board_it_is_another_matter() -> None:
    assert joined("from: AC1.feed, to: A1.1", "from: AC2.feed, to: A1.1", board="West") == []


def test_from_board_to_board_without_plugs() -> None:
    assert len(joined("from: AC1.feed, to: A1.1", "from: AC2.feed, to: A1.1", plugs=False)) == 1


def test_a_supply_that_feeds_another_is_not_joined_with_it() -> None:
    railway = (RAILWAY % ("East, fed_by: AC1", "")).replace("wires:\n", "")
    netlist, problems = wired(railway)
    assert problems == []
    assert {"AC1.feed", "AC2.in-feed"} <= {end.name for wire in netlist.wires for end in wire.ends}
    assert alternating_supplies_joined(described(railway), netlist) == []


BELLS = """
kinds: {bell: {terminals: {T: }, supply: ac, group: [{function: lamp, chain: feed, terminal: T}]}}
devices:
  H1: {kind: bell, supply: AC1, strip: A1, way: 1}
  H2: {kind: bell, supply: AC2, strip: A1, way: 2}
"""


@pytest.mark.parametrize(("bridge", "expected"), [("[1, 2]", 1), ("[1, 3]", 0), ("[3, 2, 1]", 1)])
def test_a_bridge_may_join_them(bridge: str, expected: int) -> None:
    railway = (RAILWAY % ("East", f", bridges: [{bridge}]")).replace("wires:\n", BELLS)
    found = alternating_supplies_joined(described(railway), wired(railway)[0])
    assert [(problem.place.source, problem.message.split(" joins")[0]) for problem in found] == [
        ("strips.A1.bridges.0", "a bridge of strip A1")
    ] * expected


def test_a_wire_of_the_builder_s_own_is_to_blame_before_a_bridge() -> None:
    """As of other short circuits: the same place is told, and so the mistake is told once."""
    found = joined("from: AC1.feed, to: A1.1", "from: AC2.feed, to: A1.2", strip=", bridges: [[1, 2]]")
    assert [where for where, _ in found] == ["wires.1"]
