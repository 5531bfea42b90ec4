"""The trade's words on either side of the Atlantic: one table, and how a text of ours is said by it.

Common practice of British and American model railways, no source. Words that both use alike are not in it, nor what
means something else there as well (`loop`).
"""

import re
from functools import cache
from typing import Literal

TradeWords = Literal["british", "american"]

AMERICAN = {
    "move points": "move a turnout",
    "points up": "is up",
    "points and lock": "switch and lock",
    "points": "turnout",
    "point motors": "switch machines",
    "point motor": "switch machine",
    "crossing (frog)": "frog",
    "crossing": "frog",
    "tie bar": "throwbar",
    "stretcher": "throwbar",
    "baseboards": "modules",
    "baseboard": "module",
    "fiddle yard": "staging yard",
    "sidings": "spurs",
    "siding": "spur",
    "controller": "throttle",
    "sections": "blocks",
    "section": "block",
    "droppers": "feeders",
    "dropper": "feeder",
    "fishplates": "rail joiners",
    "fishplate": "rail joiner",
    "loom": "harness",
    "sleeves": "tubes",
    "sleeve": "tube",
    "multi-core": "multiconductor",
    "mains": "line voltage",
    "earth": "ground",
    "signal box": "tower",
    "lever frame": "interlocking machine",
    "detonators": "torpedoes",
    "sleepers": "ties",
    "sleeper": "tie",
    "exhibition": "train show",
    "coloured": "colored",
    "colours": "colors",
    "colour": "color",
    "grey": "gray",
    "metres": "meters",
    "metre": "meter",
}
"""British: American. Of a whole phrase that means something else in parts, the phrase."""


def said(text: str, words: TradeWords) -> str:
    """A text of ours in those words; nothing that the builder wrote is given to it."""
    return text if words == "british" else _table().sub(_american, text)


@cache
def _table() -> re.Pattern[str]:
    """The longest first, so that a phrase comes before its words."""
    longest_first = sorted(AMERICAN, key=len, reverse=True)
    return re.compile(rf"\b({'|'.join(map(re.escape, longest_first))})(?!\w)", re.IGNORECASE)


def _american(found: re.Match[str]) -> str:
    """With a capital where there was one."""
    other = AMERICAN[found[0].lower()]
    return other[0].upper() + other[1:] if found[0][0].isupper() else other
