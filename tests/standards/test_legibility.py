"""Cap heights by visual angle: NUREG-0700 rev. 3, 1.3.1-4 and 11.4.1.5-1 (height = 2 d tan(angle / 2))."""

import pytest

from labelgen.standards.legibility import HEADS_CAP_MM, SMALLEST_CAP_MM, cap_height


@pytest.mark.parametrize(
    ("distance", "minutes", "height"),
    # Worked with the formula by hand, to 0.01 mm; 20/20 sight is 5 minutes of arc at 6 m: 8.7 mm (optometry).
    [(300, 15, 1.31), (300, 20, 1.75), (500, 15, 2.18), (500, 20, 2.91), (1000, 22, 6.40), (6000, 5, 8.73)],
)
def test_height_of_a_capital(distance: float, minutes: float, height: float) -> None:
    assert cap_height(distance, minutes) == pytest.approx(height, abs=0.005)


def test_the_smallest_text_is_seen_under_15_minutes_at_arms_length() -> None:
    assert pytest.approx(1.309, abs=0.001) == SMALLEST_CAP_MM


def test_heads_are_seen_so_from_half_a_metre() -> None:
    assert pytest.approx(2.182, abs=0.001) == HEADS_CAP_MM
