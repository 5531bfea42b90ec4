"""Sleeves: common practice, no source; the laws that any sleeve must keep."""

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from labelgen.standards.sleeves import BORES_MM, around_mm, bore_for, sleeved_wires_mm


@given(st.floats(0.1, 20))
def test_a_sleeve_goes_over_its_wire_and_grips_it_once_shrunk_to_half(wire: float) -> None:
    bore = bore_for(wire)
    thin, thick = sleeved_wires_mm()
    assert (bore is not None) == (thin < wire <= thick + 1e-9)
    if bore is not None:
        assert bore / 2 < wire < bore
        assert not any(wire + 0.3 <= other < bore for other in BORES_MM)


@pytest.mark.parametrize(("wire", "bore"), [(1.2, 1.6), (1.6, 2.4), (2.05, 2.4), (2.6, 3.2)])
def test_the_bores_for_layout_wire(wire: float, bore: float) -> None:
    """The next step of the series over 7/0.2, 16/0.2, 24/0.2 and 32/0.2."""
    assert bore_for(wire) == bore


def test_a_slip_is_as_high_as_its_wire_is_around() -> None:
    assert around_mm(1.6) == pytest.approx(pi * 1.6)
