"""Slips for sleeves: once around the wire, legible, the same at both ends; the key above them."""

from dataclasses import replace
from math import pi

import pytest
from drawn_extents import assert_all_inside, assert_within, cap_height, extent, texts
from hypothesis import assume, given
from hypothesis import strategies as st
from small_railway import Railway, description, device_end, points_railway, supply_end, way_end

from labelgen.drawings.flags.sleeve_flags import LONG, RING, USUAL, sleeve_drawings
from labelgen.drawings.flags.sleeve_key import bores_said, sleeve_key
from labelgen.model.drawing import Box, Drawing
from labelgen.model.look import Look
from labelgen.model.netlist import Side
from labelgen.problems import Problem

LOOK = Look()
LAYOUT = Side.LAYOUT
# over the insulation: trade practice, the reference's table
OUTSIDE = {"7/0.2": 1.2, "16/0.2": 1.6, "24/0.2": 2.05, "32/0.2": 2.6}


def one(size: str = "16/0.2", *, stem: str = "5", device: str = "P5", terminal: str = "N", **more: object) -> Railway:
    railway = Railway()
    values: dict[str, object] = {"size": size, "number": 17, "flag_form": "sleeve"} | more
    end = device_end(device, terminal)
    railway.wire("normal", way_end("A1", 1, LAYOUT), end, stem=stem, **values)  # type: ignore[arg-type]
    return railway


def slips(railway: Railway, look: Look = LOOK) -> tuple[list[Drawing], list[Problem]]:
    return sleeve_drawings(description(), railway.netlist(), look)


@pytest.mark.parametrize("size", OUTSIDE)
def test_a_slip_is_once_around_its_wire_and_ten_to_fifteen_long(size: str) -> None:
    drawings, problems = slips(one(size))
    assert problems == []
    for drawing in drawings:
        assert drawing.height == pytest.approx(pi * OUTSIDE[size])
        assert drawing.width in (10, 12, 15)


IDS = st.text("ABCDEPS0123456789_-", min_size=1, max_size=9)


@given(
    stem=IDS, device=IDS, terminal=st.sampled_from(["N", "g", "common", "Q/j"]), number=st.integers(1, 9999),
    size=st.sampled_from([*OUTSIDE, "6 mm2"]), smallest=st.floats(1.31, 1.8),
)  # fmt: skip
def test_whatever_it_says_is_legible_inside_and_never_on_one_another(
    *, stem: str, device: str, terminal: str, number: int, size: str, smallest: float
) -> None:
    railway = one(size, stem=stem, device=device, terminal=terminal, number=number)
    drawings, problems = slips(railway, Look(smallest_cap=smallest))
    assert {problem.code for problem in problems} <= {"text-does-not-fit"}
    assume(not problems)
    assert len({(d.width, d.height) for d in drawings}) == 1
    for drawing in drawings:
        assert_all_inside(drawing)
        assert drawing.width in (*USUAL, *LONG)
        said = texts(drawing)
        wanted = {f"{stem}N", "A1.1", f"{device}.{terminal}", f"#{number}"}
        assert {text.text for text in said} == wanted
        for text in said:
            assert cap_height(text) >= smallest * 0.995
            assert_within(text, (RING + 0.5, 0.2, drawing.width - 0.5, drawing.height - 0.2), slack=0.03)
        boxes = sorted(extent(text) for text in said)
        for index, box in enumerate(boxes):
            for other in boxes[index + 1 :]:
                assert box[2] <= other[0] + 0.05 or box[3] <= other[1] + 0.05 or other[3] <= box[1] + 0.05


def test_both_flags_of_a_wire_mirror_each_other() -> None:
    """IEC 62491: a cable marking names the local end first, then the remote end."""
    (here, there), _ = slips(one())
    assert (here.name, there.name) == ("sleeve 5N at A1.1", "sleeve 5N at P5.N")
    assert [text.size for text in texts(here)] == [text.size for text in texts(there)]
    order = [[text.text for text in texts(d) if "." in text.text] for d in (here, there)]
    assert order == [["A1.1", "P5.N"], ["P5.N", "A1.1"]]
    assert texts(here)[-2].x < texts(here)[-1].x


def test_the_ring_is_the_end_next_to_the_screw_and_goes_all_around() -> None:
    (drawing, _), _ = slips(one(colour="BU"))
    (ring,) = [shape for shape in drawing.shapes if isinstance(shape, Box) and shape.fill]
    assert (ring.fill, ring.x, ring.y, ring.height) == ("#31397F", 0, 0, drawing.height)
    railway = one()
    bare = replace(railway.wires[0], function="", code="", head="W7", stem="W7", colour="")
    drawings, _ = sleeve_drawings(description(), replace(railway.netlist(), wires=(bare,)), LOOK)
    assert not any(isinstance(shape, Box) for one in drawings for shape in one.shapes)


def test_a_head_stands_out_where_there_is_room() -> None:
    (drawing, _), _ = slips(one("32/0.2"))
    heights = {text.text: cap_height(text) for text in texts(drawing)}
    assert heights["5N"] >= 1.2 * heights["A1.1"]
    assert heights["#17"] == pytest.approx(heights["A1.1"], rel=0.001)


def test_low_letters_on_a_thin_wire_put_all_on_one_line() -> None:
    (drawing, _), problems = slips(one("7/0.2", stem="1", device="Q1", terminal="gj", mark="g"))
    assert problems == []
    assert len({round(text.y, 6) for text in texts(drawing)}) == 1


def test_names_that_fit_no_slip_are_a_problem() -> None:
    drawings, problems = slips(one("7/0.2", device="A_VERY_LONG_DEVICE_NAME_INDEED"))
    assert [problem.code for problem in problems] == ["text-does-not-fit"] * 2
    assert "A_VERY_LONG_DEVICE_NAME_INDEED.N" in problems[0].message
    assert [texts(drawing) for drawing in drawings] == [[], []]


def test_a_wire_too_thin_for_any_line_is_one_problem_a_size() -> None:
    railway = one("7/0.1")
    railway.wire("return", supply_end("PULSE", "return"), device_end("P5", "C"), size="7/0.1", flag_form="sleeve")
    drawings, (problem,) = slips(railway, Look(smallest_cap=2.5))
    assert drawings == []
    assert problem.code == "flag-unsuited"
    assert problem.message.startswith("wire 17 (5N) and 1 more are 0.9 mm thick; sleeves that can be read go over")
    assert problem.message.endswith("of 1.1 to 12.4 mm")
    assert "fold" in problem.hint
    assert slips(one("7/0.1"))[1] == []


def test_wires_of_another_form_are_left_to_it() -> None:
    assert slips(points_railway(("1",))) == ([], [])


def test_the_key_says_when_they_go_on_and_which_bore_for_which_wire() -> None:
    wires = [one(size).wires[0] for size in ("32/0.2", "7/0.2", "", "7/0.2")]
    key = sleeve_key(description(), wires, LOOK, 194)
    said = " ".join(text.text for text in texts(key))
    assert "before the ferrule" in said
    # the next step of the series over 1.2 and 2.6 mm; π × 1.2 = 3.77, π × 2.6 = 8.17
    assert "7/0.2: bore 1.6 mm (slips 3.8 mm high); 32/0.2: bore 3.2 mm (slips 8.2 mm high)" in said
    assert_all_inside(key)
    assert key.width == 194
    assert bores_said([]) == bores_said([one("").wires[0]]) == []
