"""Label stocks: whether one adds up to its paper, which one a name means, which ones hold a label of a size."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from difflib import get_close_matches

from labelgen.lengths import Rectangle
from labelgen.model.sheet import ROLL, Stock
from labelgen.natural_order import natural
from labelgen.places import Place
from labelgen.problems import Problem

CLOSES_WITHIN = 0.15
"""How many mm a stock's sums may be from its paper: published figures are rounded to 0.05 mm a margin."""
FITS_WITHIN = 0.01
"""A label is no larger than its cell, but for a hair of rounding in mm."""

SAME_SIZE = 0.06
"""How far, in mm, a size may be from a stock's to mean it: 66.7 means 66.675."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Unsure:
    """What a name may have meant, when it does not name one stock."""

    candidates: tuple[str, ...]
    """Ids that begin like it when `several`, else ids that look like it."""
    several: bool


def stock_problems(stock: Stock, place: Place) -> list[Problem]:
    """What does not add up in a stock: its cells to its paper, its pitch to its cells, its name to its count.

    Codes: sheet-does-not-add-up.
    """
    return [
        Problem(
            code="sheet-does-not-add-up",
            message=f"the label sheet {stock.id} does not add up: {message}",
            hint=hint,
            place=place,
        )
        for message, hint in _faults(stock)
    ]


def _faults(stock: Stock) -> Iterator[tuple[str, str]]:
    """What is wrong, and what to do."""
    across = (stock.left, stock.columns, stock.width, stock.pitch_x)
    down = (stock.top, stock.rows, stock.height, stock.pitch_y)
    yield from _along(across, stock.paper_width, way="across", margin_name="left")
    yield from _along(down, stock.paper_height, way="down", margin_name="top")
    if stock.paper == ROLL and stock.count > 1:
        yield (
            f"a roll has one label after the other, and it says {stock.columns} columns of {stock.rows}",
            "Leave `columns` and `rows` out, or say on which paper the labels are.",
        )
    if stock.print_zone is not None and stock.print_zone >= stock.height:
        yield (
            f"{_mm(stock.print_zone)} mm of its labels are white, and they are {_mm(stock.height)} mm high, "
            "so that no clear tail is left",
            "`print_zone` is the white part of a self-laminating label, from its top.",
        )
    named = re.match(r"[^-]+-(\d+)-", stock.id)
    if named and int(named[1]) != stock.count:
        yield (
            f"its name says {named[1]} labels, but {stock.columns} columns of {stock.rows} are {stock.count}",
            "Count the labels again, or change the name.",
        )


def _along(
    side: tuple[float, int, float, float], paper: float, *, way: str, margin_name: str
) -> Iterator[tuple[str, str]]:
    margin, count, size, pitch = side
    if count > 1 and pitch < size - FITS_WITHIN:
        yield (
            f"{way}, its labels are {_mm(size)} mm but stand only {_mm(pitch)} mm apart, so they would overlap",
            "The pitch is measured from the edge of one label to the same edge of the next, gap included.",
        )
    total = 2 * margin + (count - 1) * pitch + size
    if abs(total - paper) > CLOSES_WITHIN:
        parts = f"2 × {_mm(margin)} + {count - 1} × {_mm(pitch)} + {_mm(size)}"
        yield (
            f"{way}, twice the margin, the pitches and one label are {parts} = {_mm(total)} mm, "
            f"but the paper has {_mm(paper)} mm",
            f"Measure `{margin_name}`, `pitch` and `size` again; the margins of both sides are taken to be equal.",
        )


def find_stock(text: str, stocks: Sequence[Stock]) -> Stock | Unsure:
    """The stock that a name means: its id, its id with exact decimals, or the beginning of either if only one fits.

    A beginning of whole parts (`a4-6` of `a4-6-99x93`) goes before one that breaks off inside a number.
    """
    wanted = text.strip().lower().replace("×", "x")
    exact = [s for s in stocks if s.id.lower() == wanted] or _of_size(wanted, stocks)
    if exact:
        return exact[0]
    whole = [s for s in stocks if any(name.startswith(f"{wanted}-") for name in _names(s))]
    begun = whole or [s for s in stocks if wanted and any(name.startswith(wanted) for name in _names(s))]
    if len(begun) == 1:
        return begun[0]
    if begun:
        return Unsure(candidates=tuple(sorted((s.id for s in begun), key=natural)), several=True)
    near = get_close_matches(wanted, [name for s in stocks for name in _names(s)], n=3, cutoff=0.5)
    ids = dict.fromkeys(s.id for name in near for s in stocks if name in _names(s))
    return Unsure(candidates=tuple(ids), several=False)


def _of_size(wanted: str, stocks: Sequence[Stock]) -> list[Stock]:
    """The stocks of the paper, count and size in mm that a name says, nearest first: `us-30-66.7x25.4`."""
    said = re.fullmatch(r"([^-]+-\d+)-(\d+\.?\d*)x(\d+\.?\d*)", wanted)
    if not said:
        return []
    width, height = float(said[2]), float(said[3])
    off = {s.id: max(abs(s.width - width), abs(s.height - height)) for s in stocks if _head(s) == said[1]}
    near = [s for s in stocks if off.get(s.id, 1.0) < SAME_SIZE]
    return sorted(near, key=lambda s: off[s.id])


def _head(stock: Stock) -> str:
    """Paper and count: `a4-65`."""
    return "-".join(stock.id.lower().split("-")[:2])


def _names(stock: Stock) -> tuple[str, ...]:
    """The id, and the id with the exact size in mm."""
    return stock.id.lower(), f"{_head(stock)}-{_mm(stock.width)}x{_mm(stock.height)}"


def stocks_that_hold(width: float, height: float, stocks: Sequence[Stock], paper: str) -> list[Stock]:
    """The stocks whose cells hold a label of that size: of that paper, with margins, and with small cells first."""
    holding = [s for s in stocks if holds(s, width, height)]
    return sorted(holding, key=lambda s: (s.paper != paper, min(s.left, s.top) <= 0, s.width * s.height, natural(s.id)))


def holds(stock: Stock, width: float, height: float) -> bool:
    """True when a label of that size, in the middle of a cell, lies within it."""
    across, down = (width - FITS_WITHIN) / stock.width, (height - FITS_WITHIN) / stock.height
    return across**2 + down**2 <= 1 if stock.shape == "round" else max(across, down) <= 1


def near_edge(stock: Stock, labels_inset: float) -> tuple[int, ...]:
    """The cells, from 1, of which some print may come where many printers print nothing.

    `labels_inset`: how many mm of a cell's own edge every label keeps white.
    """
    safe = Rectangle(0, 0, stock.paper_width, stock.paper_height).inset(stock.edge)
    return tuple(n + 1 for n in range(stock.count) if not safe.contains(stock.cell(n).inset(labels_inset)))


def near_edge_problem(stock: Stock, cells: Sequence[int], place: Place) -> Problem:
    """One caution that names the cells. Codes: near-paper-edge."""
    shown = ", ".join(map(str, cells[:8])) + (f" and {len(cells) - 8} more" if len(cells) > 8 else "")
    return Problem(
        code="near-paper-edge",
        message=f"on {stock.id}, the print of {'label' if len(cells) == 1 else 'labels'} {shown} comes within "
        f"{stock.edge:g} mm of the paper's edge, where many printers print nothing",
        hint=f"Print the test page first (`labelgen sheets {stock.id}`), or choose a sheet with wider margins.",
        place=place,
    )


def _mm(length: float) -> str:
    return f"{length:.2f}".rstrip("0").rstrip(".")
