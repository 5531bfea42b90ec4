"""Lever colours against lists of the prototype's practice (British lever frames; panels of the 1960s)."""

import pytest

from labelgen.standards.lever_colours import PRESETS, ROLES, paint_of, painted, role_words, said

FRAME = {  # levers of mechanical frames, as their practice is described in many places
    "stop": "red", "shunt": "red", "route": "red", "distant": "yellow", "points": "black", "lock": "blue",
    "gate": "brown", "gong": "green", "points-and-lock": "blue/black", "release": "blue/brown",
    "acceptance": "red/brown", "king": "brown/white", "detonators": "black/white", "home-and-distant": "red/yellow",
    "spare": "white", "section": "", "plain": "",
}  # fmt: skip
PANEL = {
    "stop": "red", "shunt": "yellow", "auto": "blue", "points": "black", "release": "brown", "acceptance": "green",
    "detonators": "white", "overlap": "black",
}  # fmt: skip


@pytest.mark.parametrize(("preset", "practice"), [("mechanical", FRAME), ("panel", PANEL)])
def test_levers_are_painted_as_the_prototype_does(preset: str, practice: dict[str, str]) -> None:
    assert {role: said(paint_of(role, preset).colours) for role in practice} == practice


def test_no_preset_paints_nothing_and_no_role_is_unknown_to_a_preset() -> None:
    assert all(paint_of(role, "none").colours == () for role in ROLES)
    assert all(set(preset) <= set(ROLES) for preset in PRESETS.values())


def test_striped_levers_have_two_colours() -> None:
    marked = [paint for preset in PRESETS.values() for paint in preset.values() if paint.mark]
    assert len(marked) >= 4
    assert all(len(paint.colours) == 2 for paint in marked)


@pytest.mark.parametrize(
    ("text", "letters"),
    [
        ("red", ("RD",)),
        ("blue/brown", ("BU", "BN")),
        ("brown / blue", ("BN", "BU")),
        ("bu/bn", ("BU", "BN")),
        ("grey", ("GY",)),
        ("gray", ("GY",)),
        ("reddish", None),
        ("red/green/blue", None),
        ("red/", None),
        ("", None),
    ],
)
def test_colours_are_read_in_the_order_of_the_levers_parts(text: str, letters: tuple[str, ...] | None) -> None:
    assert painted(text) == letters


def test_roles_are_said_in_the_words_of_the_country() -> None:
    assert role_words("points-and-lock") == "points and lock"
    assert role_words("points", "american") == "turnout"
    assert role_words("points-and-lock", "american") == "switch and lock"
    assert role_words("stop", "american") == "stop"
    assert role_words("plain") == ""
