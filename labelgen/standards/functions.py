"""What wires are for, and how each kind is marked unless the builder says otherwise.

Codes and sizes: section 6 of the format. There is no common colour code in the trade, so the colours are our own
choice, each function's another one; the letters are those of IEC 60757. Every function has a pattern of its own, so
that a black-and-white printer keeps them apart.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Literal

Palette = Literal["own", "nem605"]


@dataclass(frozen=True, slots=True, kw_only=True)
class FunctionDefault:
    code: str
    """One or two characters: what stands in a head."""
    colour: str
    """IEC 60757 letters; "" when it has none."""
    pattern: str
    """One of `PATTERNS`."""
    size: str
    """Strands/strand diameter in mm; "" when it has none."""


PATTERNS = (
    "solid",
    "diagonal",
    "back-diagonal",
    "vertical",
    "horizontal",
    "cross",
    "grid",
    "dots",
    "zigzag",
    "bars",
    "rings",
    "triangles",
    "plain",
)

DEFAULT_FUNCTIONS: Mapping[str, FunctionDefault] = MappingProxyType(
    {
        name: FunctionDefault(code=code, colour=colour, pattern=pattern, size=size)
        for name, code, colour, pattern, size in (
            ("normal", "N", "YE", "diagonal", "16/0.2"),
            ("reverse", "R", "BU", "back-diagonal", "16/0.2"),
            ("feed", "F", "RD", "solid", "16/0.2"),
            ("return", "C", "BK", "horizontal", "32/0.2"),
            ("track", "T", "BN", "grid", "24/0.2"),
            ("track-return", "U", "GY", "vertical", "24/0.2"),
            ("lamp", "L", "WH", "dots", "7/0.2"),
            ("drive-a", "A", "OG", "zigzag", "7/0.2"),
            ("drive-b", "B", "VT", "cross", "7/0.2"),
            ("data", "D", "TQ", "bars", "7/0.2"),
            ("frog", "X", "PK", "rings", "16/0.2"),
            ("route", "M", "GN", "triangles", "16/0.2"),
            ("spare", "–", "", "plain", ""),
        )
    }
)

_NEM_605 = {
    "normal": "GN",
    "reverse": "GN",
    "feed": "RD",
    "return": "BK",
    "track": "WH",
    "track-return": "YE",
    "lamp": "GN",
    "drive-a": "GN",
    "drive-b": "GN",
    "data": "OG",
    "frog": "VT",
    "route": "VT",
}
"""NEM 605 (2014), table 1: supply plus red, common return black; traction plus white, minus yellow; turnouts, signals
and accessories green; feedback orange; everything else violet. Several functions share a colour: their letters and
patterns are ours. Its second colours beside green (table 2) are left out: IEC 60757 allows green with yellow alone.
"""

PALETTES: Mapping[Palette, Mapping[str, FunctionDefault]] = MappingProxyType(
    {
        "own": DEFAULT_FUNCTIONS,
        "nem605": MappingProxyType(
            {name: replace(usual, colour=_NEM_605.get(name, "")) for name, usual in DEFAULT_FUNCTIONS.items()}
        ),
    }
)
"""Colour set: the functions as it marks them."""
