"""A new hole is told by two distances and a side: whoever strikes the two arcs comes to that very place."""

from math import hypot

from hypothesis import assume, given
from hypothesis import strategies as st

from labelgen.model.panel.hole_dimensions import dimensioned

PLACES = st.tuples(st.integers(0, 400), st.integers(0, 200))
OLD = st.dictionaries(st.sampled_from(["L1", "L2", "L10", "LAMP1", "SCREW1"]), PLACES, min_size=2)


def crossings(one: tuple[float, float], r: float, other: tuple[float, float], s: float) -> list[tuple[float, float]]:
    """Where two circles cross, by elementary geometry."""
    d = hypot(other[0] - one[0], other[1] - one[1])
    along = (r * r - s * s + d * d) / (2 * d)
    across = max(0.0, r * r - along * along) ** 0.5
    ux, uy = (other[0] - one[0]) / d, (other[1] - one[1]) / d
    return [(one[0] + along * ux - sign * across * uy, one[1] + along * uy + sign * across * ux) for sign in (1, -1)]


@given(PLACES, OLD)
def test_the_arcs_cross_there_and_the_side_says_which(
    at: tuple[float, float], old: dict[str, tuple[float, float]]
) -> None:
    assume(len({*old.values(), at}) == len(old) + 1)
    ((one, r), (other, s)), side = dimensioned(at, old)
    found = crossings(old[one], r, old[other], s)
    if side == "in line":
        assert hypot(found[0][0] - found[1][0], found[0][1] - found[1][1]) < 1.001
        return
    key = {"right": (0, 1), "left": (0, -1), "below": (1, 1), "above": (1, -1)}[side]
    best = max(found, key=lambda place: key[1] * place[key[0]])
    assert hypot(best[0] - at[0], best[1] - at[1]) < 1e-3


def test_the_nearest_two_that_cross_well() -> None:
    old = {"L1": (0.0, 0.0), "L2": (20.0, 0.0), "L3": (0.0, 30.0), "L9": (300.0, 300.0)}
    froms, side = dimensioned((40.0, 0.0), old)
    assert froms == (("L2", 20.0), ("L3", 50.0)), "L1 and L2 lie on one line with it"
    assert side == "right"


def test_in_a_row_it_is_said_that_it_is_in_line() -> None:
    assert dimensioned((40.0, 0.0), {"L1": (0.0, 0.0), "L2": (20.0, 0.0)})[1] == "in line"


def test_with_one_old_hole_or_none_there_is_nothing_to_measure_from() -> None:
    assert dimensioned((40.0, 0.0), {"L1": (0.0, 0.0)}) == ((), "")
    assert dimensioned((40.0, 0.0), {}) == ((), "")


def test_two_holes_in_one_place_tell_no_side() -> None:
    assert dimensioned((40.0, 0.0), {"L1": (0.0, 0.0), "L2": (0.0, 0.0)})[1] == ""
