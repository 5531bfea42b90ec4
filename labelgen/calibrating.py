"""From a test page to what its printer needs: the page itself, and what was measured on it."""

import re
from dataclasses import replace

from labelgen.imposition.stock_page import stock_page
from labelgen.model.correction import OFFICE_PAPERS, UNCORRECTED, Correction, from_test_page
from labelgen.model.scalars import PLAIN_DECIMAL
from labelgen.model.sheet import ROLL, Document, Stock

MOST_STRETCH = 0.05
"""A rule that is off by more was measured, or printed, in another way than meant; no printer is."""
MOST_OFF_MM = 20.0


def proof_page(stock: Stock, correction: Correction = UNCORRECTED) -> bytes:
    """The PDF of a stock's test page, as a printer with that correction needs it."""
    from labelgen.rendering.pdf import pdf_bytes

    page = replace(stock_page(stock).sheet, correction=correction.for_page(stock.paper_width, stock.paper_height))
    return pdf_bytes(Document(title=f"Test page for {stock.id}", pages=(page,)))


def calibrated(stock: Stock, rules: str | None, off: str | None) -> Correction | str:
    """What a printer needs that made `rules` (`199.2x278.6`) and put the first cross `off` (`0.8,-0.4`) its place.

    What is not said is taken to be right. A text says what is wrong with them. A roll's correction is for that roll.
    """
    page = stock_page(stock)
    said = _numbers(rules, "x") if rules is not None else page.rules
    aside = _numbers(off, ",") if off is not None else (0.0, 0.0)
    if said is None or any(abs(one / long - 1) > MOST_STRETCH for one, long in zip(said, page.rules, strict=True)):
        long, high = page.rules
        return (
            f"--measured: the rules of this page are {long} and {high} mm long; write what they measure: {long}x{high}"
        )
    if aside is None or max(map(abs, aside)) > MOST_OFF_MM:
        return "--off: write how many mm cross 1 is off to the right, and how many down, such as 0.8,-0.4"
    papers = ((stock.paper_width, stock.paper_height),) if stock.paper == ROLL else OFFICE_PAPERS
    return replace(from_test_page(said, page.rules, aside, page.cross), papers=papers)


def _numbers(text: str, between: str) -> tuple[float, float] | None:
    """Two numbers; a sign before them, and a blank beside them, is no mistake."""
    parts = [part.strip() for part in re.split(re.escape(between), text.lower().replace("×", "x"))]
    if len(parts) != 2 or not all(PLAIN_DECIMAL.fullmatch(part) for part in parts):
        return None
    return float(parts[0]), float(parts[1])
