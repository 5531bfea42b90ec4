"""The colour sets, by the facts of NEM 605 (2014) and by the rules of IEC 60757."""

from labelgen.standards.colour_letters import is_like_protective, is_protective, letters_of
from labelgen.standards.functions import DEFAULT_FUNCTIONS, PALETTES


def test_nem_605_says_what_colour_a_function_has() -> None:
    """Table 1: plus red, common return black; traction plus white, minus yellow; turnouts green; the rest violet."""
    colours = {name: function.colour for name, function in PALETTES["nem605"].items()}
    assert (colours["feed"], colours["return"]) == ("RD", "BK")
    assert (colours["track"], colours["track-return"]) == ("WH", "YE")
    assert {colours[name] for name in ("normal", "reverse", "drive-a", "drive-b", "lamp")} == {"GN"}
    assert (colours["data"], colours["frog"], colours["spare"]) == ("OG", "VT", "")


def test_a_palette_changes_nothing_but_colours() -> None:
    for palette in PALETTES.values():
        assert palette.keys() == DEFAULT_FUNCTIONS.keys()
        for name, function in palette.items():
            usual = DEFAULT_FUNCTIONS[name]
            assert (function.code, function.pattern, function.size) == (usual.code, usual.pattern, usual.size)


def test_no_palette_has_colours_that_are_kept_for_safety() -> None:
    for palette in PALETTES.values():
        for function in palette.values():
            letters = letters_of(function.colour) or ()
            assert not is_protective(letters)
            assert not is_like_protective(letters)
