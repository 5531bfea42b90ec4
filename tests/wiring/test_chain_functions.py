"""A chain is called the same from end to end, and is as thick as the thickest of what it feeds: section 6."""

import pytest
from wiring.recorded_builder import Made
from wiring_builder import netlist_of, way_heads

from labelgen.model.netlist import Netlist

MIXED = """
    supplies: {D: {kind: dc}}
    strips: {A1: }
    kinds:
      motor: {terminals: {p: , m: }, supply: dc, group: [{function: feed, terminal: p, chain: feed}],
              chain: [{function: return, terminal: m, supply: return}]}
    devices: {%s}
"""
LAMPS = "H1: {kind: lamps}, H3: {kind: lamps}"


def trunk(netlist: Netlist, terminal: str = "feed") -> set[tuple[str, str, str, str]]:
    """Function, head, colour and size of the chain's wires, from the supply's terminal to the last of its stops."""
    functions = {"feed": ("feed", "lamp"), "return": ("return",)}[terminal]
    wires = [wire for wire in netlist.wires if wire.circuit == "D" and wire.function in functions]
    return {(wire.function, wire.head, wire.colour, wire.size) for wire in wires}


def test_lamps_alone_make_a_lamp_chain() -> None:
    netlist = netlist_of(MIXED % LAMPS)
    assert trunk(netlist) == {("lamp", "L", "WH", "7/0.2")}
    assert way_heads(netlist, "A1")[:2] == ["L", "L"]


def test_lamps_and_motors_on_one_feed_are_on_a_feed() -> None:
    """The lamp between the motors: all of the chain is feed, red, and thick enough; a lamp has its thin branch."""
    netlist = netlist_of(MIXED % f"{LAMPS}, M2: {{kind: motor}}, N4: {{kind: motor}}")
    assert trunk(netlist) == {("feed", "F", "RD", "16/0.2")}
    assert len([wire for wire in netlist.wires if wire.head == "F"]) == 4
    assert way_heads(netlist, "A1")[:4] == ["F"] * 4
    branches = {wire.head: (wire.function, wire.size) for wire in netlist.wires if wire.circuit == "H1"}
    assert branches == {"H1L": ("lamp", "7/0.2")}


@pytest.mark.parametrize(("size", "expected"), [("32/0.2", "32/0.2"), ("10/0.1", "16/0.2"), ("1.5 mm2", "1.5 mm²")])
def test_the_trunk_is_never_thinner_than_a_branch(size: str, expected: str) -> None:
    railway = MIXED % f"{LAMPS}, M2: {{kind: motor}}" + f"    functions: {{lamp: {{size: {size}}}}}"
    assert trunk(netlist_of(railway)) == {("feed", "F", "RD", expected)}


def test_a_supply_that_feeds_another_and_lamps() -> None:
    railway = (MIXED % LAMPS).replace("{D: {kind: dc}}", "{D: {kind: dc}, E: {kind: dc, fed_by: D}}")
    railway = railway.replace("kind: lamps}", "kind: lamps, supply: D}")
    assert {function for function, *_ in trunk(netlist_of(railway))} == {"feed"}


def test_what_is_stuck_on_stays_when_a_motor_comes() -> None:
    """The flags of a recorded chain say L: it goes on being called so; only laid out anew it is a feed."""
    before = Made(MIXED % LAMPS)
    grown = MIXED % f"{LAMPS}, M2: {{kind: motor}}"
    after = before.then(grown).then(grown)
    assert trunk(after.netlist) == {("lamp", "L", "WH", "16/0.2")}
    assert trunk(Made(grown).netlist) == {("feed", "F", "RD", "16/0.2")}


def test_a_recorded_name_that_no_stop_has_any_more_is_given_up() -> None:
    after = Made(MIXED % LAMPS).then(MIXED % "M2: {kind: motor}")
    assert trunk(after.netlist) == {("feed", "F", "RD", "16/0.2")}
