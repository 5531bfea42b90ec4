"""Where a PDF can be touched to go elsewhere in it: links and bookmarks (ISO 32000-1, 12.3.2, 12.3.3 and 12.5.6.5)."""

from collections.abc import Iterable
from functools import cache
from typing import TYPE_CHECKING, Any, cast

from labelgen.lengths import POINTS_PER_MM as PT
from labelgen.model.sheet import Sheet

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

Lead = tuple[tuple[float, float, float, float], str]
"""Lower left and upper right corner on the page, in points; the name of the stop that it leads to."""


def mark_stops(canvas: "Canvas", page: Sheet) -> None:
    """Where texts and bookmarks lead to: the places themselves, at whatever size the reader has chosen."""
    for stop in page.stops:
        canvas.bookmarkPage(stop.name, fit="XYZ", left=0, top=(page.height - stop.y) * PT, zoom=0)
        if stop.bookmark:
            canvas.addOutlineEntry(stop.bookmark, stop.name, stop.level, closed=True)


def add_links(canvas: "Canvas", leads: Iterable[Lead]) -> None:
    """The links of the page that was just painted."""
    ours: Any = canvas
    for corners, stop in leads:
        ours._addAnnotation(_link_class()(corners, ours._bookmarkReference(stop)))


@cache
def _link_class() -> type:
    """Written in one go: reportlab's own takes ten times as long, and a booklet has thousands."""
    from reportlab.pdfbase.pdfdoc import PDFObject

    class Link(cast("type", PDFObject)):  # type: ignore[misc]
        def __init__(self, corners: tuple[float, ...], destination: Any) -> None:
            self._corners, self._destination = corners, destination

        def format(self, document: object) -> bytes:
            where: bytes = self._destination.format(document)
            rect = " ".join(f"{corner:.2f}" for corner in self._corners).encode()
            return b"<< /Type /Annot /Subtype /Link /Border [0 0 0] /Rect [" + rect + b"] /Dest " + where + b" >>"

    return Link
