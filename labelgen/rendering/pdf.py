"""Makes the PDF of a document; `pdf_pen` paints its pages.

A label printed at 96 % misses its cell, so the file asks the viewer for actual size (ISO 32000-1, table 150), and for
one side only, since label sheets must not pass the printer twice.
"""

import os
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from hashlib import md5
from io import BytesIO
from typing import TYPE_CHECKING, Any, cast

from labelgen.lengths import POINTS_PER_MM as PT
from labelgen.model.sheet import Document, Sheet
from labelgen.rendering.pdf_letters import PdfLetters
from labelgen.rendering.pdf_links import Lead, add_links, mark_stops
from labelgen.rendering.pdf_pen import PdfPen
from labelgen.typefaces import REGULAR, font

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

CREATOR = "labelgen"


def pdf_bytes(document: Document) -> bytes:
    """The document as a PDF 1.7 at actual size; the same document always gives the same bytes.

    ValueError for a document without pages.
    """
    if not document.pages:
        raise ValueError(f"the document {document.title!r} has no pages")
    canvas = _empty_canvas(document)
    letters = PdfLetters(canvas)
    for page in document.pages:
        canvas.setPageSize((page.width * PT, page.height * PT))
        mark_stops(canvas, page)
        _paint_page(canvas, page, letters)
        _end_page(canvas)
    content: bytes = cast("Any", canvas).getpdfdata()
    return content


def _end_page(canvas: "Canvas") -> None:
    """Packs what is on the page: otherwise the library keeps all pages as long texts until the last one."""
    document = cast("Any", canvas)._doc
    name = document.thisPageName()
    canvas.showPage()
    page = document.idToObject[name]
    page.Contents, page.stream = _packed_class()(page.stream), None


@cache
def _packed_class() -> type:
    """What is on a page, kept only until it is written: the library's documents live on for a while after that."""
    from reportlab.pdfbase.pdfdoc import PDFArray, PDFDictionary, PDFName, PDFStream, PDFZCompress

    class Packed(cast("type", PDFStream)):  # type: ignore[misc]
        def __init__(self, content: str) -> None:
            filters = PDFDictionary({"Filter": PDFArray([PDFName(PDFZCompress.pdfname)])})
            super().__init__(filters, PDFZCompress.encode(content))

        def format(self, document: object) -> bytes:
            written: bytes = super().format(document)
            self.content = None
            return written

    return Packed


def _empty_canvas(document: Document) -> "Canvas":
    from reportlab import rl_config
    from reportlab.pdfgen.canvas import Canvas

    rl_config.useA85 = 0
    font(REGULAR)
    with _without_source_date():
        # The first font is ours: the preamble of every page would otherwise name Helvetica, which is not embedded.
        ours: Any = REGULAR  # the published types call this argument a number
        canvas = Canvas(BytesIO(), pageCompression=1, invariant=1, pdfVersion=(1, 7), initialFontName=ours, lang="en")
    canvas.setTitle(document.title)
    canvas.setCreator(CREATOR)
    canvas.setAuthor("")
    canvas.setSubject(document.about)
    canvas.setViewerPreference("PrintScaling", "None")
    canvas.setViewerPreference("Duplex", "DuplexFlipLongEdge" if document.both_sides else "Simplex")
    canvas.setViewerPreference("DisplayDocTitle", "true")
    if any(stop.bookmark for page in document.pages for stop in page.stops):
        canvas.showOutline()
    _forget_the_date(canvas)
    return canvas


@contextmanager
def _without_source_date() -> Iterator[None]:
    """Without the variable that changes even invariant files: what is made depends on the input alone."""
    name = "SOURCE_DATE_EPOCH"
    kept = os.environ.pop(name, None)
    try:
        yield
    finally:
        if kept is not None:
            os.environ[name] = kept


def _forget_the_date(canvas: "Canvas") -> None:
    """Leaves the invented date of invariant files out of the metadata: no date is better than a wrong one."""
    from reportlab.pdfbase.pdfdoc import PDFDictionary, PDFInfo, PDFString

    class Undated(PDFInfo):
        def format(self, document: object) -> bytes:
            fields = {"Title": self.title, "Creator": self.creator, "Producer": self.producer}
            fields |= {"Subject": self.subject} if self.subject else {}
            written: bytes = PDFDictionary({key: PDFString(text) for key, text in fields.items()}).format(document)
            return written

    document = cast("Any", canvas)._doc
    undated = Undated()
    undated.title, undated.creator = document.info.title, document.info.creator
    undated.subject = document.info.subject
    document.info = undated
    document.signature = md5(CREATOR.encode(), usedforsecurity=False)


def _correct(canvas: "Canvas", page: Sheet) -> None:
    """Everything on the page as its correction says; in a PDF, y runs up from the foot of the page."""
    correction = page.correction
    if not correction.changes_nothing:
        (across, down), (dx, dy) = correction.scale, correction.shift
        canvas.transform(across, 0, 0, down, dx * PT, (page.height * (1 - down) - dy) * PT)


def _paint_page(canvas: "Canvas", page: Sheet, letters: PdfLetters) -> None:
    _correct(canvas, page)
    leads: list[Lead] = []
    pen = PdfPen(canvas, page.height, letters, leads)
    if page.window is not None:
        canvas.saveState()
        pen.clip(page.window)
        pen.draw_placed(page.placed)
        canvas.restoreState()
        pen = PdfPen(canvas, page.height, letters, leads)  # what was set inside is forgotten with the clipping
    else:
        pen.draw_placed(page.placed)
    for shape in page.marks:
        pen.draw(shape)
    pen.end_text()
    add_links(canvas, leads)
