"""The font files, and how wide a text is.

B612 is an open typeface drawn for cockpit displays: I l 1, O 0, 5 S and 8 B are drawn apart. DejaVu Sans
Condensed steps in for a whole text when B612 lacks one of its characters. Sizes are in mm per em.
"""

from dataclasses import dataclass
from functools import cache, lru_cache
from typing import TYPE_CHECKING, cast

from labelgen.data_files import font_file

if TYPE_CHECKING:
    from reportlab.pdfbase.ttfonts import TTFont

REGULAR = "B612-Regular"
BOLD = "B612-Bold"


@dataclass(frozen=True, slots=True, kw_only=True)
class Face:
    """Heights above and below the baseline, per em, measured from the glyphs (H, g), not from the OS/2 table."""

    name: str
    cap: float
    descent: float
    ascent: float
    """The top of an accented capital."""
    fallback: str | None = None


FACES = {
    face.name: face
    for face in (
        Face(name=REGULAR, cap=0.760, descent=0.2585, ascent=0.965, fallback="DejaVuSansCondensed"),
        Face(name=BOLD, cap=0.7635, descent=0.2585, ascent=0.965, fallback="DejaVuSansCondensed-Bold"),
        Face(name="DejaVuSansCondensed", cap=0.729, descent=0.2358, ascent=0.9283),
        Face(name="DejaVuSansCondensed-Bold", cap=0.729, descent=0.2358, ascent=0.9283),
    )
}


@cache
def font(name: str) -> "TTFont":
    """The parsed font, registered once for the whole process."""
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    loaded = TTFont(name, str(font_file(f"{name}.ttf")))
    pdfmetrics.registerFont(loaded)
    return loaded


@cache
def _advances(name: str) -> dict[int, float]:
    """Advance of each character that the face has, in thousandths of an em."""
    face = font(name).face
    glyphs = cast("dict[int, int]", face.charToGlyph)
    widths = cast("dict[int, float]", face.charWidths)
    return {code: widths.get(code, 0.0) for code in glyphs}


@lru_cache(maxsize=2048)
def face_for(text: str, face: str) -> str:
    """The face itself if it has every character of the text, else its fallback if that has, else the face itself."""
    chosen: str | None = face
    while chosen:
        if all(ord(character) in _advances(chosen) for character in text):
            return chosen
        chosen = FACES[chosen].fallback
    return face


@lru_cache(maxsize=2048)
def missing_characters(text: str, face: str) -> str:
    """Those characters for which neither the face nor its fallback has a shape, once each."""
    return "".join(c for c in dict.fromkeys(text) if ord(c) not in _advances(face_for(c, face)))


def named_missing(text: str, face: str) -> str:
    """The same with their numbers, for a message: `'⏚' (U+23DA)`; "" where nothing is missing."""
    return ", ".join(f"{c!r} (U+{ord(c):04X})" for c in missing_characters(text, face))


@lru_cache(maxsize=2048)
def _unit_width(text: str, face: str) -> float:
    advances = _advances(face)
    return sum(advances.get(ord(character), 0.0) for character in text) / 1000


def text_width(text: str, face: str, size: float) -> float:
    """Width in mm of a text at `size` mm per em; `face` must be the one that `face_for` chose."""
    return _unit_width(text, face) * size


def size_for_cap(cap_mm: float, face: str) -> float:
    """The font size at which a capital is `cap_mm` high."""
    return cap_mm / FACES[face].cap
