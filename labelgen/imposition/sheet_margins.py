"""The margins of a label sheet in which marks may stand: between its cells and the edge that printers leave white."""

from collections.abc import Iterator
from dataclasses import dataclass

from labelgen.model.sheet import Stock

CLEAR_OF_CELLS = 0.6
"""Marks in the margin keep this far from the labels, in mm."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Margin:
    """One side's free strip: along the top or foot (`across`), or along the left or right."""

    across: bool
    near: float
    """Its top, or its left."""
    depth: float


def margins(stock: Stock) -> Iterator[Margin]:
    """Those that have any room: top, foot, left, right."""
    last = stock.cell(stock.count - 1)
    sides = (
        (stock.edge, stock.top - CLEAR_OF_CELLS, True),
        (last.bottom + CLEAR_OF_CELLS, stock.paper_height - stock.edge, True),
        (stock.edge, stock.left - CLEAR_OF_CELLS, False),
        (last.right + CLEAR_OF_CELLS, stock.paper_width - stock.edge, False),
    )
    for near, far, across in sides:
        if far > near:
            yield Margin(across=across, near=near, depth=far - near)
