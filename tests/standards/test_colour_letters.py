"""Letters by IEC 60757; how far apart the paints are, by coloraide as an independent judge (CIEDE2000)."""

from itertools import combinations

import pytest
from coloraide import Color

from labelgen.standards.colour_letters import COLOURS, PROTECTIVE, WORDS, is_like_protective, is_protective, letters_of
from labelgen.standards.functions import DEFAULT_FUNCTIONS, PATTERNS

# IEC 60757, table of letter codes, without gold and silver.
STANDARD_ORDER = ["BK", "BN", "RD", "OG", "YE", "GN", "BU", "VT", "GY", "WH", "PK", "TQ"]
STANDARD_WORDS = ["black", "brown", "red", "orange", "yellow", "green"]
STANDARD_WORDS += ["blue", "violet", "grey", "white", "pink", "turquoise"]


def test_letters_and_words_are_those_of_the_standard() -> None:
    assert list(COLOURS) == STANDARD_ORDER
    assert [WORDS[word] for word in STANDARD_WORDS] == STANDARD_ORDER


@pytest.mark.parametrize(
    ("text", "letters"),
    [
        ("RD", ("RD",)),
        ("red", ("RD",)),
        ("Grey", ("GY",)),
        ("gray", ("GY",)),
        ("rdbu", ("RD", "BU")),
        # IEC 60757: the letters of two colours are joined in the order of the table.
        ("BURD", ("RD", "BU")),
        ("white/red", ("RD", "WH")),
        ("red-red", ("RD",)),
        ("reddish", None),
        ("RDXX", None),
        ("red/blue/green", None),
        ("", None),
    ],
)
def test_what_names_a_colour(text: str, letters: tuple[str, ...] | None) -> None:
    assert letters_of(text) == letters


@pytest.mark.parametrize(("one", "other"), [*combinations(STANDARD_ORDER, 2)])
def test_green_and_yellow_go_with_no_other_colour(one: str, other: str) -> None:
    """IEC 60757:2021, clause 5.1: GNYE alone, for protective conductors; neither in any other mix."""
    letters = letters_of(f"{one}{other}") or ()
    assert is_protective(letters) == ({one, other} == {"GN", "YE"})
    assert is_like_protective(letters) == (len({one, other} & {"GN", "YE"}) == 1)


@pytest.mark.parametrize("letters", [(one,) for one in STANDARD_ORDER])
def test_every_colour_may_stand_alone(letters: tuple[str, ...]) -> None:
    assert not is_protective(letters)
    assert not is_like_protective(letters)


def test_no_function_mixes_green_or_yellow() -> None:
    assert not any(is_like_protective(letters_of(function.colour) or ()) for function in DEFAULT_FUNCTIONS.values())


@pytest.mark.parametrize("vision", ["normal", "protan", "deutan", "tritan"])
def test_any_two_paints_are_told_apart(vision: str) -> None:
    """At least 15 by CIEDE2000, to normal eyes and to those simulated after Machado, Oliveira and Fernandes 2009."""
    seen = {}
    for letters, colour in COLOURS.items():
        paint = Color(colour.paint)
        if vision != "normal":
            paint = paint.filter(vision, method="machado").convert("srgb").clip()
        seen[letters] = paint
    closest = min(combinations(seen, 2), key=lambda pair: seen[pair[0]].delta_e(seen[pair[1]], method="2000"))
    assert seen[closest[0]].delta_e(seen[closest[1]], method="2000") >= 15, closest


def test_the_ink_reads_on_the_paint() -> None:
    """WCAG 2.x: 4.5 to 1 for text."""
    for letters, colour in COLOURS.items():
        assert Color(colour.paint).contrast(Color(colour.ink), method="wcag21") >= 4.5, letters


def test_no_function_has_the_protective_colours() -> None:
    """GNYE is kept for protective conductors (IEC 60445)."""
    assert all(function.colour != PROTECTIVE for function in DEFAULT_FUNCTIONS.values())


def test_every_function_has_a_code_and_a_pattern_of_its_own() -> None:
    codes = [function.code for function in DEFAULT_FUNCTIONS.values()]
    patterns = [function.pattern for function in DEFAULT_FUNCTIONS.values()]
    assert len(set(codes)) == len(codes)
    assert len(set(patterns)) == len(patterns)
    assert set(patterns) <= set(PATTERNS)
