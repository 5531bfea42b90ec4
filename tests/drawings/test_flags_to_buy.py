"""What sleeves and wraps ask to be bought, on the cut list."""

from dataclasses import replace

from drawings.small_railway import description
from drawings.strip_railway import harbour

from labelgen.drawings.flags.sleeve_flags import sleeve_drawings
from labelgen.drawings.flags.to_buy import OVER_MM, sleeves_to_buy, wraps_to_buy
from labelgen.drawings.lists.cut_list_pages import cut_list_pages
from labelgen.model.drawing import Text
from labelgen.model.look import Look
from labelgen.model.netlist import Netlist
from labelgen.standards.paper_sizes import PAPERS

LOOK = Look()


def netlist(**forms: str) -> Netlist:
    """The form of the flags of each function; folded where nothing is said."""
    made = harbour(points=2)
    wires = tuple(replace(wire, flag_form=forms.get(wire.function, "fold")) for wire in made.wires)
    return replace(made, wires=wires)


def test_sleeves_by_bore_cut_longer_than_their_slips() -> None:
    """16/0.2 is 1.6 mm thick, 32/0.2 2.6 mm: bores of 2.4 and 3.2 mm by the rule of `standards.sleeves`."""
    made = netlist(normal="sleeve", **{"return": "sleeve"})
    found = sleeves_to_buy(description(), made, LOOK)
    slips, _ = sleeve_drawings(description(), made, LOOK)
    assert [(each.bore, each.pieces) for each in found] == [(2.4, 8), (3.2, 4)]
    assert sum(each.total for each in found) == sum(slip.width + 2 * OVER_MM for slip in slips)
    assert all(each.shortest <= each.longest for each in found)


def test_wraps_are_two_a_wire_and_links_have_none() -> None:
    made = netlist(feed="wrap")
    wires = [wire for wire in made.wires if wire.function == "feed"]
    assert any(wire.link for wire in wires)
    assert wraps_to_buy(made) == 2 * sum(not wire.link for wire in wires)


def said(made: Netlist) -> list[str]:
    pages, problems = cut_list_pages(description(), made, LOOK, PAPERS["a4"])
    assert problems == []
    return [shape.text for page in pages for shape in page.shapes if isinstance(shape, Text)]


def test_the_cut_list_says_so_and_says_nothing_without_them() -> None:
    words = said(netlist(normal="sleeve", feed="wrap"))
    assert {"bore 2.4 mm", "for wraps", "clear sleeves, 2:1"} <= set(words)
    assert "clear sleeves, 2:1" not in said(netlist())
