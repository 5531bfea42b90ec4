"""For how much a diode is bought: by hand, twice the current and twice the crest, in the steps of the trade."""

import pytest

from labelgen.standards.diodes import diode_rating


@pytest.mark.parametrize(
    ("given", "rating"),
    [
        (("pulse", 22, None), (1, 50, True)),  # 44 V
        (("pulse", 25, 5000), (1, 50, True)),  # a pulse is short: the coil's current does not count
        (("pulse", 26, None), (1, 100, True)),
        (("ac", 16, 16), (1, 50, False)),  # 16 V effective is 22.6 V at the crest: 45.3 V
        (("ac", 18, 16), (1, 100, False)),  # 25.5 V: 50.9 V
        (("dc", 12, 600), (3, 50, False)),  # 1.2 A
        (("dc", None, None), (1, None, False)),
        (("dc", 900, 9000), (10, 1000, False)),
    ],
)
def test_ratings(given: tuple[str, float | None, float | None], rating: tuple[float, int | None, bool]) -> None:
    found = diode_rating(*given)
    assert (found.amps, found.reverse_volts, found.surge) == rating
