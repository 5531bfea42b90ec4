"""How texts are written in a PDF: by the numbers that its fonts' subsets give to the characters as they come."""

from typing import TYPE_CHECKING, Any, NamedTuple, cast

from labelgen.typefaces import font

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas


class Letters(NamedTuple):
    """Part of a text that one subset shows."""

    subset: int
    name: str
    """What pages call the subset."""
    shown: str
    """The operator."""


_KEPT = 2048
"""Texts: those of labels that lie near each other are often the same."""


class PdfLetters:
    """Of one document; a text that comes again is not worked out again."""

    def __init__(self, canvas: "Canvas") -> None:
        self._document = cast("Any", canvas)._doc
        self._known: dict[tuple[str, str], list[Letters]] = {}

    def of(self, text: str, face: str) -> list[Letters]:
        key = text, face
        if key not in self._known:
            if len(self._known) >= _KEPT:
                self._known.clear()
            self._known[key] = self._split(text, face)
        return self._known[key]

    def _split(self, text: str, face: str) -> list[Letters]:
        from reportlab.lib.rl_accel import escapePDF

        of: Any = font(face)
        return [
            Letters(subset, of.getSubsetInternalName(subset, self._document), f"({escapePDF(codes)}) Tj")
            for subset, codes in of.splitString(text, self._document)
        ]
