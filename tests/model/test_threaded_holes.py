from dataclasses import replace

import pytest
from drawings.strip_railway import LEVER, described, harbour

from labelgen.model.netlist import Netlist
from labelgen.model.threaded_holes import ThreadedHole, threaded_holes


def through_h1(points: int = 2, hole: tuple[str, ...] = ("H1",)) -> Netlist:
    """Every lever's wires go through a hole."""
    netlist = harbour(points=points)
    wires = [replace(wire, holes=hole) if wire.start.kind is LEVER else wire for wire in netlist.wires]
    return replace(netlist, wires=tuple(wires))


def holes(netlist: Netlist, **holes: dict[str, object]) -> list[ThreadedHole]:
    given = {id_: {"at": ["0", "0"], **hole} for id_, hole in holes.items()}
    return threaded_holes(described(netlist, boards={"WEST": {"holes": given}}), netlist)


def test_what_goes_through_in_threading_order() -> None:
    (hole,) = holes(through_h1(), H1={"diameter": "10", "shown": "Hole A"}, H2={})
    assert [wire.head for wire in hole.wires] == ["1N", "1F", "1R", "2N", "2F", "2R"]
    assert (hole.board, hole.id, hole.shown, hole.diameter) == ("WEST", "H1", "Hole A", 10)
    assert hole.path == ("boards", "WEST", "holes", "H1")


def test_the_figures_of_a_hole() -> None:
    """Six wires 16/0.2 of 1.6 mm (common practice): three diameters thick, 6 × 2.56 of 100 mm² squared."""
    (hole,) = holes(through_h1(), H1={"diameter": "10"})
    assert hole.bundle == pytest.approx(4.8)
    assert hole.fill == pytest.approx(0.1536)
    assert (hole.fill_limit, hole.fits, hole.unknown) == (0.40, True, 0)


def test_without_a_diameter_the_drill_to_use() -> None:
    """√(6 × 2.56 / 0.4) = 6.197 mm: 6.2 is stocked."""
    (hole,) = holes(through_h1(), H1={})
    assert (hole.fill, hole.fits, hole.drill) == (None, None, 6.2)


def test_a_wire_through_two_holes_is_in_both() -> None:
    found = holes(through_h1(hole=("H10", "H2")), H10={}, H2={})
    assert [(hole.id, len(hole.wires)) for hole in found] == [("H2", 6), ("H10", 6)]


def test_a_wire_of_no_size_is_counted_and_takes_no_room() -> None:
    netlist = through_h1(points=1)
    wires = (replace(netlist.wires[0], size=""), *netlist.wires[1:])
    (hole,) = holes(replace(netlist, wires=wires), H1={"diameter": "4"})
    assert (len(hole.wires), hole.unknown, len(hole.outside_diameters)) == (3, 1, 2)
    assert hole.bundle == pytest.approx(3.2)


def test_a_hole_that_no_board_has_is_left_out() -> None:
    assert holes(through_h1(), H2={}) == []
