"""Full sheets on which labels of several sizes are mixed, so that little is left over; cut from edge to edge.

On every sheet each height gets as many bands as its share of what is still to come, give or take the few that fill the
sheet best; a band is filled to the brim with labels that come next. So labels stay nearly in their order. Turned ones
fill what is over beside the bands.
"""

from collections import deque
from collections.abc import Iterable, Iterator, Sequence
from itertools import islice, product
from typing import NamedTuple

from labelgen.imposition.sheet_bands import HAIR, Band, Block, Page, Unit

STEPS_PER_MM = 100
"""Lengths are compared in hundredths of a mm, the longer way round, when a band is filled."""
TRIED_AT_MOST = 4096
"""Ways to share a sheet among heights."""


class _Piece(NamedTuple):
    """A unit, and how it lies in a band."""

    order: int
    unit: Unit
    along: float
    height: float


_Waiting = dict[int, deque[_Piece]]
"""Pieces of one height by their length in steps, each in order."""


def mixed_pages(units: Sequence[Unit], length: float, room: float) -> tuple[Page, ...]:
    """All of them on sheets with bands of `length`, `room` high together; each fits into a band, one way or another."""
    left = dict(enumerate(units))
    smallest = min((min(unit[0].width, unit[0].height) for unit in units), default=0.0)
    pages = []
    while left:
        page, width = [], length
        for turned in (False, True):
            if width < smallest - HAIR:
                continue
            bands = tuple(_bands(left, width, room, turned=turned))
            if bands:
                page.append(Block(bands=bands))
                width -= page[-1].width
        pages.append(tuple(page))
    return tuple(pages)


def _bands(left: dict[int, Unit], length: float, room: float, *, turned: bool) -> Iterator[Band]:
    """Bands that fill `length` by `room` as well as they can; what they hold is taken out of `left`."""
    by_height = _by_height(_pieces(left, turned=turned), length, room)
    for height, count in _shares(by_height, length, room).items():
        waiting = by_height[height]
        for _ in range(count):
            chosen = _filled(waiting, length)
            for piece in chosen:
                del left[piece.order]
            if chosen:
                yield Band(drawings=tuple(drawing for piece in chosen for drawing in piece.unit), turned=turned)


def _pieces(left: dict[int, Unit], *, turned: bool) -> Iterator[_Piece]:
    for order, unit in left.items():
        first = unit[0]
        along, height = (first.height, first.width) if turned else (first.width, first.height)
        yield _Piece(order, unit, along * len(unit), height)


def _by_height(pieces: Iterable[_Piece], length: float, room: float) -> dict[float, _Waiting]:
    found: dict[float, _Waiting] = {}
    for piece in pieces:
        if piece.height <= room + HAIR and piece.along <= length + HAIR:
            steps = int(piece.along * STEPS_PER_MM + 1 - HAIR)
            found.setdefault(piece.height, {}).setdefault(steps, deque()).append(piece)
    return found


def _shares(by_height: dict[float, _Waiting], length: float, room: float) -> dict[float, int]:
    """Height: how many bands of it this sheet gets; the fullest sheet, and of equal ones that nearest to the mix."""
    needed = {height: _needed(waiting, length) for height, waiting in by_height.items()}
    total = sum(height * count for height, count in needed.items())
    shares = {height: min(count, count * room / total) for height, count in needed.items()}
    main = max(shares, key=lambda height: shares[height], default=0.0)
    others = [height for height in shares if height != main]
    ways = []
    for counts in islice(product(*(_near(shares[height], needed[height]) for height in others)), TRIED_AT_MOST):
        over = room - sum(height * count for height, count in zip(others, counts, strict=True)) + HAIR
        if main and over >= 0:
            mains = min(int(over / main), _count(by_height[main]))
            ways.append(dict(zip((*others, main), (*counts, mains), strict=True)))
    return min(ways, key=lambda way: _badness(way, shares, needed), default={})


def _badness(way: dict[float, int], shares: dict[float, float], needed: dict[float, float]) -> tuple[float, float]:
    """How little of the sheet is used, in mm, and how far that is from the mix of what is to come."""
    full = sum(height * min(count, needed[height]) for height, count in way.items())
    return -round(full, 3), sum(abs(count - shares[height]) * height for height, count in way.items())


def _needed(waiting: _Waiting, length: float) -> float:
    """How many bands they take if each is as full as the fullest of them can be."""
    total = sum(piece.along for pieces in waiting.values() for piece in pieces)
    fullest = _fullest({steps: len(pieces) for steps, pieces in waiting.items()}, int((length + HAIR) * STEPS_PER_MM))
    return max(1.0, total * STEPS_PER_MM / sum(steps * count for steps, count in fullest.items()))


def _count(waiting: _Waiting) -> int:
    return sum(map(len, waiting.values()))


def _near(share: float, needed: float) -> range:
    """How many bands to try: a few below and above a height's share."""
    return range(max(0, int(share) - 1), min(int(needed) + 1, int(share) + 3) + 1)


def _filled(waiting: _Waiting, length: float) -> list[_Piece]:
    """The pieces of the fullest band that begins with the first of them; they are taken out."""
    there = {steps: pieces for steps, pieces in waiting.items() if pieces}
    if not there:
        return []
    first = min(there, key=lambda steps: there[steps][0].order)
    chosen = [there[first].popleft()]
    room = int((length + HAIR) * STEPS_PER_MM) - first
    for steps, count in _fullest({steps: len(pieces) for steps, pieces in there.items()}, max(0, room)).items():
        chosen += [there[steps].popleft() for _ in range(count)]
    return sorted(chosen, key=lambda piece: piece.order)


def _fullest(there: dict[int, int], room: int) -> dict[int, int]:
    """How many of each length come nearest to `room` together. Bit n of a number says that n steps can be reached."""
    reached, before = 1, []
    everything = (1 << (room + 1)) - 1
    for steps, count in there.items():
        for _ in range(min(count, room // steps)):
            before.append((steps, reached))
            reached |= (reached << steps) & everything
    wanted: dict[int, int] = {}
    at = reached.bit_length() - 1
    for steps, reached_before in reversed(before):
        if not reached_before >> at & 1:
            wanted[steps] = wanted.get(steps, 0) + 1
            at -= steps
    return wanted
