"""What the cut list adds up to, counted by hand on a small piece of Marram Quay."""

from dataclasses import replace

from drawings.strip_railway import described, harbour
from hypothesis import given
from hypothesis import strategies as st

from labelgen.model.cut_list import cut_list, strips_to_buy
from labelgen.model.description import Description
from labelgen.model.netlist import Netlist
from labelgen.standards.ferrules import Ferrule


def with_lengths(netlist: Netlist, lengths: dict[int, int | None]) -> Netlist:
    wires = [replace(wire, length=lengths.get(int(wire.number), wire.length)) for wire in netlist.wires]
    return replace(netlist, wires=tuple(wires))


def test_totals_by_colour_and_size() -> None:
    """Two points: 2 returns, 4 feeds (one of them from the supply, of no length), 4 normal, 4 reverse."""
    netlist = harbour(points=2)
    found = {(total.colour, total.size): total for total in cut_list(netlist).totals}
    assert list(found) == [("BK", "32/0.2"), ("RD", "16/0.2"), ("YE", "16/0.2"), ("BU", "16/0.2")]
    assert [(total.count, total.unknown) for total in found.values()] == [(2, 0), (4, 1), (4, 0), (4, 0)]
    feeds = [wire for wire in netlist.wires if wire.function == "feed" and wire.length is not None]
    assert found["RD", "16/0.2"].length == sum(wire.length or 0 for wire in feeds) > 0


def test_a_size_is_called_by_one_name() -> None:
    netlist = harbour(points=1)
    wires = [
        replace(wire, colour="GY", size=size) for wire, size in zip(netlist.wires, ("0.50mm2", "0.5"), strict=False)
    ]
    totals = cut_list(replace(netlist, wires=tuple(wires))).totals
    assert [(total.colour, total.size, total.count) for total in totals] == [("GY", "0.5 mm²", 2)]


def test_thin_wire_first_and_what_has_no_colour_last() -> None:
    netlist = harbour(points=1)
    looks = [("", ""), ("RD", "24/0.2"), ("RD", "16/0.2"), ("RDBU", "7/0.2"), ("BK", "7/0.2"), ("", "7/0.2")]
    wires = [replace(wire, colour=c, size=s) for wire, (c, s) in zip(netlist.wires, looks, strict=False)]
    totals = cut_list(replace(netlist, wires=tuple(wires))).totals
    assert [(total.colour, total.size) for total in totals] == [
        ("BK", "7/0.2"), ("RD", "16/0.2"), ("RD", "24/0.2"), ("RDBU", "7/0.2"), ("", ""), ("", "7/0.2"),
    ]  # fmt: skip


def test_a_ferrule_for_every_end_at_a_strip() -> None:
    """Two points: ten wires of 16/0.2 from a lever to a way or on to a motor, the supply's, and the link with two."""
    cuts = cut_list(harbour(points=2))
    assert dict(cuts.ferrules) == {Ferrule(mm2=0.5, bare_mm=8): 10 + 1 + 2}
    assert {row.wire.function: row.ferrule for row in cuts.rows}["return"] is None, "from motor to motor: soldered"
    assert {row.ferrules for row in cuts.rows if row.wire.link} == {2}


def test_two_flags_a_wire_and_none_on_a_link() -> None:
    rows = list(cut_list(harbour(points=2)).rows)
    assert [row.flags for row in rows if row.wire.link] == [0]
    assert {row.flags for row in rows if not row.wire.link} == {2}


def test_no_word_of_a_reel_where_there_is_only_one() -> None:
    assert {row.reel for row in cut_list(harbour(points=2)).rows} == {None}


def test_from_which_reel_each_wire_comes() -> None:
    """Yellow: 9 m, 9 m, 0.7 m and 0.6 m want two reels of 10 m; the longer one fits on the first reel first."""
    lengths = {1: 9_000, 2: 9_000, 6: 700, 7: 600}
    rows = {row.wire.number: row for row in cut_list(with_lengths(harbour(points=2), lengths)).rows}
    assert (rows[1].wire.colour, rows[1].reel, rows[2].reel, rows[6].reel, rows[7].reel) == ("YE", 1, 2, 1, 2)
    assert rows[4].wire.colour == "BU"
    assert rows[4].reel is None


def test_strips_by_ways_and_amps() -> None:
    strips = {"S10": {}, "S2": {}, "S1": {"ways": 6}, "S3": {"amps": 15}, "S4": {"ways": 6}}
    description = Description.model_validate({"railway": "Marram Quay", "strips": strips})
    assert [(each.ways, each.amps, each.strips) for each in strips_to_buy(description)] == [
        (6, 5, ("S1", "S4")), (12, 5, ("S2", "S10")), (12, 15, ("S3",)),
    ]  # fmt: skip


def test_a_railway_without_wires() -> None:
    cuts = cut_list(replace(harbour(), wires=()))
    assert (cuts.groups, cuts.totals, dict(cuts.ferrules)) == ((), (), {})
    assert strips_to_buy(described(harbour()))


@given(st.lists(st.one_of(st.none(), st.integers(50, 120_000)), min_size=28, max_size=28))
def test_every_wire_is_cut_or_told(lengths: list[int | None]) -> None:
    """Whatever the lengths: each wire is on one reel, or too long for any, or of no length; nothing is lost."""
    netlist = harbour(points=4)
    wires = tuple(replace(wire, length=length) for wire, length in zip(netlist.wires, lengths, strict=True))
    cuts = cut_list(replace(netlist, wires=wires))
    told = []
    for total in cuts.totals:
        on_reels = [index for reel in total.plan.reels for index in reel.cuts]
        told += [total.wires[index].number for index in (*on_reels, *total.plan.too_long)]
    assert sorted(told, key=int) == [wire.number for wire in wires if wire.length is not None]
    assert sum(total.unknown for total in cuts.totals) == lengths.count(None)
    assert sum(total.length for total in cuts.totals) == sum(length or 0 for length in lengths)
