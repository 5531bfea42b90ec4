"""What colour the lever of a signal box has, by what it works: two sets of the prototype's practice.

British practice, gathered from many descriptions; it varied by company and era, so it is a preset with an override.
Two colours: the first is the upper part of the lever.
"""

from dataclasses import dataclass
from typing import Literal, get_args

from labelgen.standards.colour_letters import COLOURS, WORDS
from labelgen.standards.trade_words import TradeWords
from labelgen.standards.trade_words import said as said_in

LeverRole = Literal[
    "stop", "distant", "home-and-distant", "shunt", "auto", "route", "points", "points-and-lock", "lock", "gate",
    "release", "gong", "acceptance", "king", "detonators", "detonators-down", "detonators-single", "overlap", "section",
    "spare", "plain",
]  # fmt: skip
LeverPreset = Literal["mechanical", "panel", "none"]
LeverMark = Literal["", "stripes", "chevrons-up", "chevrons-down", "chevrons"]


@dataclass(frozen=True, slots=True, kw_only=True)
class LeverPaint:
    colours: tuple[str, ...] = ()
    """Letters of IEC 60757, the upper part first; none: not painted."""
    mark: LeverMark = ""
    """What is painted across it in its second colour."""


_MECHANICAL = {
    "stop": LeverPaint(colours=("RD",)),
    "distant": LeverPaint(colours=("YE",)),
    "home-and-distant": LeverPaint(colours=("RD", "YE")),
    "shunt": LeverPaint(colours=("RD",)),
    "auto": LeverPaint(colours=("RD",)),
    "route": LeverPaint(colours=("RD",)),
    "points": LeverPaint(colours=("BK",)),
    "points-and-lock": LeverPaint(colours=("BU", "BK")),
    "lock": LeverPaint(colours=("BU",)),
    "gate": LeverPaint(colours=("BN",)),
    "release": LeverPaint(colours=("BU", "BN")),
    "gong": LeverPaint(colours=("GN",)),
    "acceptance": LeverPaint(colours=("RD", "BN")),
    "king": LeverPaint(colours=("BN", "WH"), mark="stripes"),
    "detonators": LeverPaint(colours=("BK", "WH"), mark="chevrons-up"),
    "detonators-down": LeverPaint(colours=("BK", "WH"), mark="chevrons-down"),
    "detonators-single": LeverPaint(colours=("BK", "WH"), mark="chevrons"),
    "overlap": LeverPaint(colours=("BK",)),
    "spare": LeverPaint(colours=("WH",)),
}
_PANEL = _MECHANICAL | {
    "shunt": LeverPaint(colours=("YE",)),
    "auto": LeverPaint(colours=("BU",)),
    "release": LeverPaint(colours=("BN",)),
    "acceptance": LeverPaint(colours=("GN",)),
    "detonators": LeverPaint(colours=("WH",)),
    "detonators-down": LeverPaint(colours=("WH",)),
    "detonators-single": LeverPaint(colours=("WH",)),
}
PRESETS: dict[str, dict[str, LeverPaint]] = {"mechanical": _MECHANICAL, "panel": _PANEL, "none": {}}
"""`mechanical`: lever frames. `panel`: the buttons and switches of the 1960s panels. What is missing is not painted."""

_ROLE_WORDS = {
    "detonators": "detonators, up",
    "detonators-down": "detonators, down",
    "detonators-single": "detonators",
    "plain": "",
}
ROLES: tuple[LeverRole, ...] = get_args(LeverRole)


def paint_of(role: str, preset: str) -> LeverPaint:
    """How a lever of a role is painted by a preset."""
    return PRESETS[preset].get(role, LeverPaint())


def role_words(role: str, words: TradeWords = "british") -> str:
    """How a role is said on a plate; "" of what has no role."""
    return said_in(_ROLE_WORDS.get(role, role.replace("-", " ")), words)


def painted(text: str) -> tuple[str, ...] | None:
    """The one or two colours that a text names, in its own order: `blue/brown` is blue above brown; None for others."""
    parts = [part.strip() for part in text.split("/")]
    letters = tuple(WORDS.get(part.lower(), part.upper()) for part in parts)
    return letters if len(letters) <= 2 and all(each in COLOURS for each in letters) else None


def said(colours: tuple[str, ...]) -> str:
    """Colours in words, the upper one first."""
    return "/".join(COLOURS[letters].word for letters in colours)
