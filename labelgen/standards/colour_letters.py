"""Letter codes of conductor colours, and how each is shown on paper and screen.

Letters and their order: IEC 60757. The standard sets no colour values; those here keep each name's hue and were
chosen so that any two differ by at least 15 (CIEDE2000) to normal and to simulated colour-blind eyes, and so that
paint and ink lie on either side of half grey: a photocopy that knows black and white alone keeps letter and pattern.
"""

from collections.abc import Collection
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Colour:
    letters: str
    word: str
    paint: str
    ink: str
    """Black or white: what is read best on it."""


COLOURS = {
    letters: Colour(letters=letters, word=word, paint=paint, ink=ink)
    for letters, word, paint, ink in (
        ("BK", "black", "#0B0B0B", "#FFFFFF"),
        ("BN", "brown", "#571F03", "#FFFFFF"),
        ("RD", "red", "#B52E44", "#FFFFFF"),
        ("OG", "orange", "#EE6701", "#000000"),
        ("YE", "yellow", "#FDE60E", "#000000"),
        ("GN", "green", "#5AAB75", "#000000"),
        ("BU", "blue", "#31397F", "#FFFFFF"),
        ("VT", "violet", "#AA26F0", "#FFFFFF"),
        ("GY", "grey", "#767676", "#FFFFFF"),
        ("WH", "white", "#FFFFFF", "#000000"),
        ("PK", "pink", "#C892AF", "#000000"),
        ("TQ", "turquoise", "#00DFF7", "#000000"),
    )
}
"""In the standard's order, but for GD and SR."""

METALS = frozenset({"GD", "SR", "gold", "silver"})
"""No paint for gold differs by more than 11 from all others, to whatever eyes, and none for silver by more than 13:
found by search. Nor is layout wire sold in them."""
OTHER_WORDS = {"gray": "GY", "purple": "VT"}
WORDS = {colour.word: colour.letters for colour in COLOURS.values()} | OTHER_WORDS
PROTECTIVE = "GNYE"
"""Green and yellow together: reserved for protective conductors by IEC 60445. Never on a circuit of a layout."""

_PROTECTIVE_PARTS = frozenset({PROTECTIVE[:2], PROTECTIVE[2:]})


def known_words() -> str:
    """Every colour in the order of the standard: its words, and its letters in brackets."""
    other = {letters: f" or {word}" for word, letters in OTHER_WORDS.items()}
    return ", ".join(f"{one.word}{other.get(one.letters, '')} ({one.letters})" for one in COLOURS.values())


def is_protective(letters: Collection[str]) -> bool:
    """Whether these are green and yellow."""
    return set(letters) == _PROTECTIVE_PARTS


def is_like_protective(letters: Collection[str]) -> bool:
    """Whether green or yellow goes with another colour: only with each other they may (IEC 60757:2021, clause 5.1)."""
    return len(set(letters)) > 1 and not _PROTECTIVE_PARTS.isdisjoint(letters) and not is_protective(letters)


def letters_of(text: str) -> tuple[str, ...] | None:
    """The letter codes that a text names: `RD`, `red`, `rdbu`, `red/blue`; None when it names none.

    Two colours on one wire are joined in the standard's order (IEC 60757).
    """
    parts = [part.strip() for part in text.replace("-", "/").split("/")]
    if len(parts) == 1 and len(parts[0]) == 4 and parts[0].lower() not in WORDS:
        parts = [parts[0][:2], parts[0][2:]]
    found = [WORDS.get(part.lower(), part.upper()) for part in parts]
    if not 1 <= len(found) <= 2 or any(letters not in COLOURS for letters in found):
        return None
    order = list(COLOURS)
    return tuple(sorted(dict.fromkeys(found), key=order.index))
