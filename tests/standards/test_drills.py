"""Truth: the stocked metric series of BS 328, as the reference page quotes it."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from labelgen.standards.drills import DRILLS_MM, next_drill


@pytest.mark.parametrize(
    ("asked", "drill"),
    [
        (0.3, 1.0), (1.0, 1.0), (1.01, 1.05), (2.95, 2.95), (2.96, 3.0), (3.01, 3.1), (6.2, 6.2), (6.21, 6.3),
        (13.9, 13.9), (13.91, 14), (14.1, 14.25), (20, 20), (24.8, 25), (25, 25), (25.01, None), (60, None),
    ],
)  # fmt: skip
def test_the_next_stocked_drill(asked: float, drill: float | None) -> None:
    assert next_drill(asked) == drill


def test_steps_of_the_series() -> None:
    steps = {round(b - a, 2): (a, b) for a, b in pairwise(DRILLS_MM)}
    assert set(steps) == {0.05, 0.1, 0.25}
    assert len(DRILLS_MM) == 40 + 110 + 45


def test_floating_point_asks_for_no_larger_drill() -> None:
    assert next_drill(0.1 + 0.2 + 5.9) == 6.2  # the sum is a hair over 6.2


@given(st.floats(0.1, 25))
def test_never_smaller_than_asked(asked: float) -> None:
    drill = next_drill(asked)
    assert drill is not None
    assert drill >= asked - 1e-9
