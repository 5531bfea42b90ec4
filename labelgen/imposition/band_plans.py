"""Ways to lay out what is cut from full sheets: in bands right across, each cut into labels of one height."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby, product
from math import ceil

from labelgen.imposition.mixed_bands import mixed_pages
from labelgen.imposition.sheet_bands import HAIR, Band, Block, Page, Unit
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Drawing


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """One way to lay out everything: along the sheet's longer side (upright), or across it."""

    upright: bool
    pages: tuple[Page, ...]

    @property
    def cuts(self) -> int:
        return sum(len(block.bands) + 1 for page in self.pages for block in page)


def best_plan(drawings: Sequence[Drawing], area: Rectangle, *, together: bool = True) -> Plan:
    """The plan of fewest sheets, then of fewest cuts; read without turning the sheet where both are equal.

    `together`: labels of one place stay side by side. Only where that saves sheets, sizes are mixed on a sheet, and
    turned ones fill what is over at its side.
    """
    units: list[Unit] = _units(drawings) if together else [(drawing,) for drawing in drawings]
    ways = product((False, True), (False, True))
    best = _best([_plain(units, area, *way) for way in ways if _lies(units, area, upright=way[0])])
    fewest = fewest_sheets(drawings, area)
    for mix, upright in product(_mixes(units, area), (False, True)):
        if len(best.pages) <= fewest:
            break
        best = _best([best, Plan(upright=upright, pages=mixed_pages(mix, *_room(area, upright=upright)))])
    return best


def _mixes(units: Sequence[Unit], area: Rectangle) -> Iterator[list[Unit]]:
    """What is mixed: as units or one by one, in order or the longest first."""
    shorter = min(area.width, area.height)
    whole = [unit for unit in units for unit in _short(unit, shorter)]
    single: list[Unit] = [(drawing,) for unit in units for drawing in unit]
    for mix in (whole, single):
        yield mix
        yield sorted(mix, key=lambda unit: -unit[0].width)


def _short(unit: Unit, longest: float) -> tuple[Unit, ...]:
    """A unit that can lie anywhere, in one or in its single labels."""
    return (unit,) if sum(d.width for d in unit) <= longest + HAIR else tuple((d,) for d in unit)


def fewest_sheets(drawings: Sequence[Drawing], area: Rectangle) -> int:
    """So many at least, by their area: no way of cutting takes fewer."""
    return ceil(sum(d.width * d.height for d in drawings) / (area.width * area.height) - HAIR)


def _best(plans: Sequence[Plan]) -> Plan:
    return min(plans, key=lambda plan: (len(plan.pages), plan.cuts, plan.upright))


def _room(area: Rectangle, *, upright: bool) -> tuple[float, float]:
    """Length of a band, and how high all the bands of a sheet may be together."""
    return (area.height, area.width) if upright else (area.width, area.height)


def _lies(units: Sequence[Unit], area: Rectangle, *, upright: bool) -> bool:
    """True when every label is short enough to lie along the bands."""
    length, _ = _room(area, upright=upright)
    return all(unit[0].width <= length + HAIR for unit in units)


def _plain(units: Sequence[Unit], area: Rectangle, upright: bool, grouped: bool) -> Plan:  # noqa: FBT001
    length, room = _room(area, upright=upright)
    return Plan(upright=upright, pages=tuple(_pages(_bands(_grouped(units) if grouped else units, length), room)))


def _units(drawings: Sequence[Drawing]) -> list[Unit]:
    """Drawings that stay side by side: those of one place and one size that follow one another."""
    return [tuple(unit) for _, unit in groupby(drawings, key=lambda d: (d.place, d.width, d.height))]


def _grouped(units: Sequence[Unit]) -> list[Unit]:
    """The units with those of equal size together, in the order in which each size is first met."""
    sizes = list(dict.fromkeys((unit[0].width, unit[0].height) for unit in units))
    return sorted(units, key=lambda unit: sizes.index((unit[0].width, unit[0].height)))


def _bands(units: Sequence[Unit], length: float) -> list[Band]:
    """The units end to end; a new band where one is full or the height changes, a unit split only if it must be."""
    bands: list[Band] = []
    for unit in units:
        whole = sum(d.width for d in unit) <= length + HAIR
        for piece in (unit,) if whole else tuple((d,) for d in unit):
            last = bands[-1] if bands else None
            room = last.length + sum(d.width for d in piece) <= length + HAIR if last else False
            if last and room and last.height == piece[0].height:
                bands[-1] = Band(drawings=last.drawings + piece)
            else:
                bands.append(Band(drawings=piece))
    return bands


def _pages(bands: Sequence[Band], room: float) -> Iterator[Page]:
    """The bands in order, as many on each page as there is room for."""
    page: list[Band] = []
    for band in bands:
        if page and sum(b.height for b in page) + band.height > room + HAIR:
            yield (Block(bands=tuple(page)),)
            page = []
        page.append(band)
    if page:
        yield (Block(bands=tuple(page)),)
