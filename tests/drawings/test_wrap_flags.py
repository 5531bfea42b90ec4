"""Wraps: on the white alone, all that is said lies outside, a head is whole from nearly every side."""

from dataclasses import replace
from itertools import pairwise
from math import pi, sqrt

import pytest
from drawn_extents import assert_within, cap_height, extent, texts
from hypothesis import assume, given
from hypothesis import strategies as st
from small_railway import Railway, description, device_end, points_railway, supply_end, way_end

from labelgen.drawings.flags.wrap_fit import fold_problems, wrap_suits, wraps_round
from labelgen.drawings.flags.wrap_flags import wrap_drawings
from labelgen.model.drawing import Box, Drawing, Text
from labelgen.model.look import Look
from labelgen.model.netlist import Side, Wire
from labelgen.model.sheet import Stock
from labelgen.problems import Problem
from labelgen.reading.data_readers import stocks

LOOK = Look()
STOCKS = list(stocks().values())
WRAPS = [stock for stock in STOCKS if stock.print_zone is not None]
USUAL = stocks()["a4-70-25x25"]
LAYOUT = Side.LAYOUT
# over the insulation: trade practice, the reference's table
OUTSIDE = {"7/0.2": 1.2, "16/0.2": 1.6, "24/0.2": 2.05, "32/0.2": 2.6}
SEEN = 150 / 360


def one(size: str = "16/0.2", *, stem: str = "5", device: str = "P5", terminal: str = "N", **more: object) -> Railway:
    railway = Railway()
    end = device_end(device, terminal)
    values: dict[str, object] = {"size": size, "number": 17, "flag_form": "wrap"} | more
    railway.wire("normal", way_end("A1", 1, LAYOUT), end, stem=stem, **values)  # type: ignore[arg-type]
    return railway


def wraps(railway: Railway, stock: Stock = USUAL, look: Look = LOOK) -> tuple[list[Drawing], list[Problem]]:
    return wrap_drawings(description(), railway.netlist(), look, stock, STOCKS)


def outer_turn(stock: Stock, wire: float) -> float:
    """Around the wire and the white, which keeps its area: 0.1 mm thick, as the standard's module says of itself."""
    assert stock.print_zone is not None
    return pi * sqrt(wire**2 + 4 * 0.1 * stock.print_zone / pi)


def heads(drawing: Drawing, head: str) -> list[Text]:
    return [text for text in texts(drawing) if text.text == head]


@pytest.mark.parametrize("size", OUTSIDE)
@pytest.mark.parametrize("mono", [False, True])
def test_no_ink_on_the_clear_tail_nor_at_the_edges(size: str, mono: bool) -> None:
    drawings, problems = wraps(one(size), look=Look(mono=mono))
    assert (len(drawings), problems) == (2, [])
    assert USUAL.print_zone is not None
    for drawing in drawings:
        assert (drawing.width, drawing.height) == (USUAL.width, USUAL.height)
        for shape in drawing.shapes:
            assert_within(shape, (1, 0.5, USUAL.width - 1, USUAL.print_zone - 0.5), slack=0.06)


IDS = st.text("ABCDEPS0123456789_-", min_size=1, max_size=7)


@given(
    stem=IDS, device=IDS, terminal=st.sampled_from(["N", "g", "common", "Q/j"]), smallest=st.floats(1.31, 1.6),
    size=st.sampled_from([*OUTSIDE, "4 mm2", "6 mm2"]), stock=st.sampled_from(WRAPS),
)  # fmt: skip
def test_whatever_it_says_it_is_legible_on_the_white_and_outside(
    *, stem: str, device: str, terminal: str, size: str, stock: Stock, smallest: float
) -> None:
    look = Look(smallest_cap=smallest)
    drawings, problems = wraps(one(size, stem=stem, device=device, terminal=terminal), stock, look)
    assert {problem.code for problem in problems} <= {"text-does-not-fit", "flag-unsuited"}
    assert bool(drawings) == ("flag-unsuited" not in {problem.code for problem in problems})
    assume(not problems)
    assert stock.print_zone is not None
    # 4 mm² and 6 mm²: in proportion to the copper's diameter from 32/0.2, 1.005 mm²
    outside = OUTSIDE.get(size) or 2.6 * sqrt({"4": 4, "6": 6}[size[0]] / 1.0053)
    for drawing in drawings:
        top = stock.print_zone - outer_turn(stock, outside)
        for shape in drawing.shapes:
            assert_within(shape, (1, 0.5, stock.width - 1, stock.print_zone - 0.5), slack=0.06)
        assert all(cap_height(text) >= smallest * 0.995 for text in texts(drawing))
        outer = {text.text for text in texts(drawing) if extent(text)[1] >= top - 0.06}
        assert {"A1.1", f"{device}.{terminal}", "#17", f"{stem}N"} <= outer


@given(
    st.sampled_from(sorted(OUTSIDE)), st.sampled_from(["5", "8", "12", "30"]), st.floats(0, 1), st.sampled_from(WRAPS)
)
def test_wherever_one_looks_but_at_the_seam_a_head_is_whole(size: str, stem: str, where: float, stock: Stock) -> None:
    """A view is the 150° that are turned to the eye; on the outer turn of the white, without its seam."""
    assume(wrap_suits(OUTSIDE[size], stock, LOOK))
    drawings, problems = wraps(one(size, stem=stem, device=f"P{stem}"), stock)
    assert problems == []
    assert stock.print_zone is not None
    around = outer_turn(stock, OUTSIDE[size])
    seen, last = SEEN * around, stock.print_zone - 0.65
    first = max(stock.print_zone - around, 0.65)
    view = first + where * (last - first - seen)
    for drawing in drawings:
        tops = [(text.y - cap_height(text), text.y) for text in heads(drawing, f"{stem}N")]
        assert any(view - 1e-6 <= top and low <= view + seen + 0.05 for top, low in tops), (view, seen, tops)


@pytest.mark.parametrize(("size", "blind"), [("7/0.2", 110), ("16/0.2", 80), ("24/0.2", 60), ("32/0.2", 30)])
def test_the_blind_side_at_the_seam_is_small(size: str, blind: float) -> None:
    """Degrees, of 360, from which no head is whole; the manual says to lay the edge where nobody looks."""
    around = outer_turn(USUAL, OUTSIDE[size])
    (drawing, _), _ = wraps(one(size))
    assert USUAL.print_zone is not None
    first = USUAL.print_zone - around
    spans = [((t.y - cap_height(t) - first) / around * 360, (t.y - first) / around * 360) for t in heads(drawing, "5N")]
    outside = [(top, low) for top, low in spans if top >= 0]
    turned = [(top + turn, low + turn) for top, low in outside for turn in (-360, 0, 360)]
    views = [degree / 2 for degree in range(720)]
    whole = [any(view <= top and low <= view + 150.5 for top, low in turned) for view in views]
    assert whole.count(False) / 2 <= blind


def test_both_flags_of_a_wire_say_the_same_the_other_way_round_in_one_size() -> None:
    """IEC 62491: a cable marking names the local end first, then the remote end."""
    (here, there), _ = wraps(one(device="HARBOUR", terminal="b"))
    assert {text.size for text in texts(here)} == {text.size for text in texts(there)}
    assert {text.stretch for text in texts(here)} == {text.stretch for text in texts(there)}
    assert {text.text for text in texts(here)} == {text.text for text in texts(there)} == {
        "5N", "A1.1", "HARBOUR.b", "#17"
    }  # fmt: skip
    assert (here.name, there.name) == ("wrap 5N at A1.1", "wrap 5N at HARBOUR.b")
    arrows = [min(s.x for s in texts(d) if s.text == far) for d, far in ((here, "HARBOUR.b"), (there, "A1.1"))]
    nears = [min(s.x for s in texts(d) if s.text == near) for d, near in ((here, "A1.1"), (there, "HARBOUR.b"))]
    assert all(far > near for far, near in zip(arrows, nears, strict=True))


def test_the_ring_has_the_wires_own_colour_and_stands_at_the_end_by_the_screw() -> None:
    (drawing, _), _ = wraps(one(colour="BU"))
    (fill,) = [shape for shape in drawing.shapes if isinstance(shape, Box) and shape.fill]
    assert fill.fill == "#31397F"
    assert fill.x + fill.width < min(extent(text)[0] for text in texts(drawing))


def test_lines_run_along_thin_wires_and_around_thick_ones() -> None:
    (thin, _), _ = wraps(one("16/0.2"))
    assert {text.turn for text in texts(thin)} == {0}
    large = stocks()["a4-35-25x57"]
    (thick, _), _ = wraps(one("6 mm2"), large)
    assert {text.turn for text in texts(thick)} == {-90}
    seen = SEEN * outer_turn(large, 2.6 * sqrt(6 / 1.0053))
    assert all(extent(text)[3] - extent(text)[1] <= seen for text in texts(thick))
    (long, _), _ = wraps(one("6 mm2", device="SIGNAL-12"), large)
    assert {text.turn for text in texts(long)} == {0}


def test_a_bare_listed_wire_has_no_ring() -> None:
    railway = one()
    bare = replace(railway.wires[0], function="", code="", head="W7", stem="W7", colour="")
    drawings, _ = wrap_drawings(description(), replace(railway.netlist(), wires=(bare,)), LOOK, USUAL)
    assert all(not isinstance(shape, Box) for drawing in drawings for shape in drawing.shapes)


def test_words_that_are_too_long_are_named_once_a_flag() -> None:
    drawings, problems = wraps(one("7/0.2", stem="A_VERY_LONG_STEM", device="ANOTHER_LONG_DEVICE"))
    assert [problem.code for problem in problems] == ["text-does-not-fit"] * 2
    assert "ANOTHER_LONG_DEVICE.N" in problems[0].message
    assert [texts(drawing) for drawing in drawings] == [[], []]


def test_long_heads_take_lines_of_their_own_where_all_of_them_lie_outside() -> None:
    (drawing, _), problems = wraps(one("32/0.2", stem="SIGNAL_12", device="SIGNAL_12", terminal="common"))
    assert problems == []
    assert len({round(text.y, 3) for text in texts(drawing)}) >= 3


# Which wires: one problem a size, and what to do.


@pytest.mark.parametrize(
    ("size", "stock", "suits"),
    [
        ("7/0.2", "a4-70-25x25", True),
        ("32/0.2", "a4-70-25x25", True),
        ("32/0.2", "us-70-25x25", True),
        ("2.5 mm2", "a4-70-25x25", False),
        ("2.5 mm2", "a4-49-25x38", True),
        ("7/0.1", "a4-70-25x25", False),
        ("16/0.2", "a4-49-25x38", False),
        ("6 mm2", "us-28-25x57", True),
    ],
)
def test_which_wires_a_label_goes_round(size: str, stock: str, suits: bool) -> None:
    drawings, problems = wraps(one(size), stocks()[stock])
    assert bool(drawings) == suits
    assert [problem.code for problem in problems] == ([] if suits else ["flag-unsuited"])


def test_a_wire_that_is_too_thick_is_named_with_the_sheet_that_would_do() -> None:
    railway = one("2.5 mm2")
    railway.wire("return", supply_end("PULSE", "return"), device_end("P5", "C"), size="2.5 mm2", flag_form="wrap")
    _, (problem,) = wraps(railway)
    assert problem.message.startswith("wire 17 (5N) and 1 more are 4.1 mm thick; the wraps of a4-70-25x25 go round")
    assert problem.message.endswith("wires of 1.1 to 3 mm")
    assert "a4-49-25x38" in problem.hint
    assert "us-" not in problem.hint
    assert "fold" in problem.hint


def test_larger_text_asks_for_a_thicker_wire() -> None:
    assert wraps_round(USUAL, Look(smallest_cap=1.6))[0] > wraps_round(USUAL, LOOK)[0]
    _, (problem,) = wraps(one("7/0.2"), look=Look(smallest_cap=1.6))
    assert problem.code == "flag-unsuited"


def test_labels_without_a_clear_tail_are_no_wraps_and_wraps_are_never_folded() -> None:
    plain = stocks()["a4-65-38x21"]
    drawings, (problem,) = wraps(one(), plain)
    assert drawings == []
    assert problem.code == "flag-unsuited"
    assert "a4-70-25x25" in problem.hint
    assert list(fold_problems(description(), plain)) == []
    (other,) = fold_problems(description(), USUAL)
    assert (other.code, "9.5 mm" in other.message) == ("flag-unsuited", True)
    _, (unknown,) = wrap_drawings(description(), one().netlist(), LOOK, plain)
    assert "print_zone" in unknown.hint


def test_wires_of_another_form_are_left_to_it() -> None:
    drawings, problems = wraps(points_railway(("1",)))
    assert (drawings, problems) == ([], [])


def test_a_wire_of_no_size_is_taken_for_the_commonest() -> None:
    wire: Wire = one("").wires[0]
    assert wire.size == ""
    drawings, problems = wraps(one(""))
    assert (len(drawings), problems) == (2, [])


def test_no_line_is_left_out_between_two_where_it_costs_little() -> None:
    """Lines stand closer than twice as far as they must, ink apart (our own choice)."""
    for stem in ("PULSE", "LIGHT", "GLOW", "5"):
        for far in ("P5", "P32", "PLATFORM"):
            (drawing, _), problems = wraps(one("32/0.2", stem=stem, device=far))
            assert problems == []
            lines = sorted({round(text.y, 3) for text in texts(drawing) if text.x < 12})
            cap = max(cap_height(text) for text in texts(drawing))
            assert all(low - high < 2.2 * 1.9 * cap for high, low in pairwise(lines)), (stem, far, lines)
