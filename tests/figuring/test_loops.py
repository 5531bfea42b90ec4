"""Networks of one volt: rows added up as they would be solved, and metal between the terminals."""

from math import isclose

import pytest
from test_throws_figures import HEAD, figured

from labelgen.figuring.elements import Element
from labelgen.figuring.loops import Loop
from labelgen.figuring.throws import Throw, figure_of, supply_joints
from labelgen.model.copper import Copper, Joint
from labelgen.model.netlist import EndKind

F, N, COIL, C = (
    (EndKind.LEVER, "5", "F"),
    (EndKind.LEVER, "5", "N"),
    (EndKind.DEVICE, "P5", "N"),
    (EndKind.DEVICE, "P5", "C"),
)
CONTACT = Element(F, N, ohms=0.2)


def loop(*more: tuple[Joint, Joint, float]) -> Loop:
    """Lever 5's coil and contact, and further resistances beside them."""
    description, netlist, _ = figured(HEAD + "points: {P5: {at: [2400, 300]}}\n")
    others = [Element(start, finish) for start, finish, _ in more]
    passed = [CONTACT, Element(COIL, C, device="P5"), *others]
    ends = supply_joints("PULSE", description.supplies["PULSE"])
    return Loop(ends, passed, [0.2, 5.0, *(ohms for *_, ohms in more)], Copper(netlist))


def test_a_row_as_a_network_would_have_it() -> None:
    """A thousand megohms beside the coil make a network of it, and change nothing to nine digits."""
    row, network = loop(), loop((COIL, C, 1e12))
    assert row.ohms is not None
    assert network.ohms is not None
    assert isclose(row.ohms, network.ohms, rel_tol=1e-9)
    assert row.shares() == pytest.approx(network.shares()[:2], rel=1e-9)
    assert [number for number, _, _ in row.wires()] == [number for number, _, _ in network.wires()]
    assert [part for *_, part in network.wires()] == pytest.approx([1.0] * len(row.wires()))


def test_metal_between_the_terminals_has_no_figures() -> None:
    description, netlist, _ = figured(HEAD + "points: {P5: {at: [2400, 300]}}\n")
    supply = description.supplies["PULSE"]
    plus, minus = supply_joints("PULSE", supply)
    short = Loop((plus, minus), [Element(plus, minus), Element(plus, minus)], [0.0, 5.0], Copper(netlist))
    throw = Throw(lever="5", shown="lever 5", lie="normal", supply="PULSE", closed=(CONTACT,), path=())
    assert short.ohms is None
    assert figure_of(throw, short, supply) is None
