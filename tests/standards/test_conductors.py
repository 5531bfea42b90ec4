"""Wire sizes against published figures and trade practice."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from labelgen.standards.colour_letters import COLOURS
from labelgen.standards.conductors import (
    copper_area_mm2,
    gauge_diameter_mm,
    outside_diameter_mm,
    parse_size,
    size_notation,
    strand_notation,
)
from labelgen.standards.functions import DEFAULT_FUNCTIONS, PATTERNS


@pytest.mark.parametrize(
    ("gauge", "inches"),
    [(16, 0.05082), (18, 0.0403), (20, 0.0320), (22, 0.0253), (24, 0.0201), (26, 0.0159), (28, 0.0126), (30, 0.01002)],
)
def test_gauge_diameters_are_those_of_the_wire_table(gauge: int, inches: float) -> None:
    """Oracle: the table of ASTM B258, as reprinted in a university physics text; four figures."""
    assert gauge_diameter_mm(gauge) == pytest.approx(inches * 25.4, rel=5e-3)


def test_36_gauge_is_where_the_table_starts() -> None:
    """ASTM B258 defines 36 AWG as 0.0050 in and 0000 as 0.4600 in."""
    assert gauge_diameter_mm(36) == pytest.approx(0.0050 * 25.4)
    assert gauge_diameter_mm(-3) == pytest.approx(0.4600 * 25.4)


@pytest.mark.parametrize(
    ("text", "area", "notation", "strands"),
    [
        ("16/0.2", 0.50265, "16/0.2", "16/0.2"),
        ("16/0.20", 0.50265, "16/0.2", "16/0.2"),
        (" 7 / .2 mm ", 0.21991, "7/0.2", "7/0.2"),
        ("1/0.6", 0.28274, "1/0.6", "1/0.6"),
        ("0.5", 0.5, "0.5 mm²", "16/0.2"),
        ("0.5 mm2", 0.5, "0.5 mm²", "16/0.2"),
        ("0.75mm²", 0.75, "0.75 mm²", "24/0.2"),
        ("1 sq mm", 1.0, "1 mm²", "32/0.2"),
        ("20 AWG", 0.5176, "20 AWG", "16/0.2"),
        ("AWG 24", 0.2047, "24 AWG", "7/0.2"),
        ("24awg", 0.2047, "24 AWG", "7/0.2"),
        ("40 AWG", 0.00501, "40 AWG", "1/0.2"),
    ],
)
def test_three_ways_of_writing_a_size(text: str, area: float, notation: str, strands: str) -> None:
    """Areas: strands by geometry, gauges by ASTM B258. 7/0.2 and 16/0.2 stand for 24 and 20 AWG in the trade."""
    assert copper_area_mm2(text) == pytest.approx(area, rel=2e-4)
    assert size_notation(text) == notation
    assert strand_notation(text) == strands


@pytest.mark.parametrize(
    "text",
    ["", "20", "x", "16x0.2", "16/", "/0.2", "1e3", "-1", "0", "0/0.2", "16/0", "AWG", "99 AWG", "١٦/0.2", "5000/0.2"],
)
def test_what_is_no_layout_wire(text: str) -> None:
    """A lone 20 is refused: it most likely means a gauge."""
    assert parse_size(text) is None
    with pytest.raises(ValueError, match="no wire size"):
        outside_diameter_mm(text)


@pytest.mark.parametrize(("text", "diameter"), [("7/0.2", 1.2), ("16/0.2", 1.6), ("24/0.2", 2.05), ("32/0.2", 2.6)])
def test_outside_diameters_of_the_common_sizes(text: str, diameter: float) -> None:
    """Common practice, from memory, no source."""
    assert outside_diameter_mm(text) == pytest.approx(diameter)


areas = st.floats(min_value=0.005, max_value=9.99)


@given(areas, areas)
def test_more_copper_is_never_thinner_and_always_thicker_than_bare(one: float, other: float) -> None:
    small, large = sorted((one, other))
    small_mm, large_mm = (outside_diameter_mm(f"{area:.6f}") for area in (small, large))
    assert small_mm <= large_mm + 1e-9
    assert small_mm > (4 * small / 3.1416) ** 0.5


def test_every_function_has_its_own_code_pattern_and_a_real_colour() -> None:
    assert len({function.code for function in DEFAULT_FUNCTIONS.values()}) == len(DEFAULT_FUNCTIONS)
    assert {function.pattern for function in DEFAULT_FUNCTIONS.values()} == set(PATTERNS)
    for name, function in DEFAULT_FUNCTIONS.items():
        assert (function.colour in COLOURS) is (name != "spare")
        assert (parse_size(function.size) is not None) is (name != "spare")


def test_codes_and_sizes_of_the_format() -> None:
    """Section 6 of the format, copied by hand."""
    table = (
        "normal N 16/0.2 reverse R 16/0.2 feed F 16/0.2 return C 32/0.2 track T 24/0.2 track-return U 24/0.2 "
        "lamp L 7/0.2 drive-a A 7/0.2 drive-b B 7/0.2 data D 7/0.2 frog X 16/0.2"
    )
    words = table.split()
    for name, code, size in zip(words[::3], words[1::3], words[2::3], strict=True):
        assert (DEFAULT_FUNCTIONS[name].code, DEFAULT_FUNCTIONS[name].size) == (code, size)
