"""The order of work as the trade does it: strip by strip, hole by hole, a strip's links at that strip."""

from dataclasses import replace

from drawings.strip_railway import DEVICE, LEVER, SUPPLY, Side, Wirer, end, harbour
from hypothesis import given
from hypothesis import strategies as st

from labelgen.model.netlist import EndKind, Netlist
from labelgen.model.pulling_order import Pull, pulling_order


def two_strips() -> Netlist:
    """Two points on A1, one on A2; the feed and the return run on from strip to strip."""
    wirer = Wirer()
    wirer.strip("A1")
    wirer.strip("A2")
    wirer.point("1", "P1", "A1", 1)
    wirer.point("2", "P2", "A1", 4)
    wirer.point("3", "P3", "A2", 1)
    return wirer.netlist()


def through(netlist: Netlist, holes: dict[str, tuple[str, ...]]) -> Netlist:
    """Wires of those heads that end at a lever go through holes."""
    wires = [
        replace(wire, holes=holes[wire.head]) if wire.start.kind is LEVER and wire.head in holes else wire
        for wire in netlist.wires
    ]
    return replace(netlist, wires=tuple(wires))


def said(pulls: list[Pull]) -> list[tuple[str | None, str, list[str]]]:
    return [
        (
            pull.strip,
            "links" if pull.links else " ".join(pull.holes),
            [f"{w.start.name}-{w.finish.name}" for w in pull.wires],
        )
        for pull in pulls
    ]


def test_strip_by_strip_and_way_by_way_the_links_last() -> None:
    assert said(pulling_order(two_strips())) == [
        (
            "A1",
            "",
            [
                "L1.N-A1.1", "A1.1-P1.N", "L1.F-A1.2", "PULSE.feed-A1.2", "L1.R-A1.3", "A1.3-P1.R",
                "L2.N-A1.4", "A1.4-P2.N", "L2.F-A1.5", "A1.5-A2.2", "L2.R-A1.6", "A1.6-P2.R",
                "PULSE.return-P1.C", "P1.C-P2.C", "P2.C-P3.C",
            ],
        ),
        ("A1", "links", ["A1.2-A1.5"]),
        ("A2", "", ["L3.N-A2.1", "A2.1-P3.N", "L3.F-A2.2", "L3.R-A2.3", "A2.3-P3.R"]),
    ]  # fmt: skip


def test_hole_by_hole_within_a_strip_all_of_a_hole_together() -> None:
    netlist = through(two_strips(), {"1N": ("H2",), "1F": ("H1",), "1R": ("H2",), "2N": ("H2", "H3"), "2R": ("H2",)})
    assert said(pulling_order(netlist))[:5] == [
        ("A1", "H2", ["L1.N-A1.1", "L1.R-A1.3", "L2.R-A1.6"]),
        ("A1", "H2 H3", ["L2.N-A1.4"]),
        (
            "A1",
            "",
            [
                "A1.1-P1.N", "PULSE.feed-A1.2", "A1.3-P1.R", "A1.4-P2.N", "L2.F-A1.5", "A1.5-A2.2", "A1.6-P2.R",
                "PULSE.return-P1.C", "P1.C-P2.C", "P2.C-P3.C",
            ],
        ),
        ("A1", "H1", ["L1.F-A1.2"]),
        ("A1", "links", ["A1.2-A1.5"]),
    ]  # fmt: skip


def test_by_way_and_side_however_the_wires_are_numbered() -> None:
    """As after years of changes, when a late number is on an early way."""
    netlist = two_strips()
    turned = replace(netlist, wires=netlist.wires[::-1])
    strip = [pull for pull in said(pulling_order(turned)) if pull[:2] == ("A2", "")]
    assert strip == [("A2", "", ["L3.N-A2.1", "A2.1-P3.N", "L3.F-A2.2", "L3.R-A2.3", "A2.3-P3.R"])]


def test_wires_of_a_plug_at_no_strip_come_pin_by_pin() -> None:
    wirer = Wirer()
    for lever, plug, pin in (("3", "J10", "1"), ("4", "J2", "10"), ("5", "J2", "9"), ("6", "", "")):
        far = end(EndKind.PIN, plug, pin) if plug else end(LEVER, "9", "N")
        wirer.wire(lever, "normal", end(LEVER, lever, "N"), far)
    wirer.chain, wirer.returns = [], []
    (pull,) = pulling_order(wirer.netlist())
    assert [wire.circuit for wire in pull.wires] == ["5", "4", "3", "6"]


def test_what_touches_no_strip_comes_last_board_by_board() -> None:
    wirer = Wirer()
    wirer.strip("A1")
    wirer.wire("", "lamp", end(SUPPLY, "LIGHT", "feed"), end(DEVICE, "LAMPS", "L"), board="WEST")
    wirer.wire("", "lamp", end(LEVER, "9", "1"), end(LEVER, "9", "2"), board=None)
    wirer.wire("", "lamp", end(SUPPLY, "LIGHT", "feed"), end(DEVICE, "SIGN", "L"), board="EAST")
    wirer.wire("", "lamp", end(SUPPLY, "LIGHT", "feed"), wirer.way("A1", 4, Side.LAYOUT))
    wirer.chain, wirer.returns = [], []
    pulls = pulling_order(wirer.netlist())
    assert [(pull.strip, pull.board, len(pull.wires)) for pull in pulls] == [
        ("A1", "WEST", 1), (None, None, 1), (None, "EAST", 1), (None, "WEST", 1),
    ]  # fmt: skip


def test_a_device_without_ways_is_at_no_strip() -> None:
    netlist = harbour(points=1)
    (circuit,) = netlist.circuits
    netlist = replace(netlist, circuits=(replace(circuit, groups=(replace(circuit.groups[0], ways={}),)),))
    assert said(pulling_order(netlist))[-1] == (None, "", ["PULSE.return-P1.C"])


def test_nothing_to_pull() -> None:
    assert pulling_order(replace(harbour(), wires=())) == []


@given(st.lists(st.sampled_from([(), ("H1",), ("H2",), ("H1", "H2")]), min_size=35, max_size=35))
def test_every_wire_once_whatever_holes_they_take(holes: list[tuple[str, ...]]) -> None:
    netlist = two_strips()
    wires = tuple(replace(wire, holes=hole) for wire, hole in zip(netlist.wires, holes, strict=False))
    pulls = pulling_order(replace(netlist, wires=wires))
    pulled = [wire for pull in pulls for wire in pull.wires]
    assert sorted(pulled, key=lambda wire: int(wire.number)) == list(wires)
    keys = [(pull.strip, pull.links, pull.holes) for pull in pulls]
    assert len(set(keys)) == len(keys), "no hole of a strip is threaded twice over"
