"""The board, its bundles of wires and what stands on it, as a plan shows them. Millimetres on paper.

Wires are soft and lie below; strips and devices are crisp and lie on top. All of it is a mirror image from below, but
what is written.
"""

from collections.abc import Iterable, Iterator
from math import sqrt

from labelgen.drawings.board_plan.cells import HAIR, INK, SOFT, Cells, rule, seen_side
from labelgen.drawings.board_plan.runs import Bundles
from labelgen.drawings.board_plan.things import PlacedStrip, Thing, ThingKind
from labelgen.drawings.board_plan.view import View
from labelgen.lengths import Point, Rectangle
from labelgen.model.drawing import Box, Circle, Line, Outline, Shape

WIRES = "#a7b5c6"
THIN, THICK = 0.45, 3.4
"""mm: one wire, and the thickest bundle that is drawn."""
GROUND, EDGE, FRONT = "#f7f5f0", 0.35, 1.4
DASH = (1.6, 1.0)
FULL_CELL_MM = 5.6
"""Where ways are so far apart on paper, each is written on in its place."""
SYMBOL = {"point": 1.7, "device": 1.6, "supply": 2.8, "plug": 2.4, "panel": 2.8}
"""How far what has no size of its own reaches from its place."""
LEAST_HOLE, NOMINAL_HOLE_MM = 1.2, 8.0


def thickness(wires: int) -> float:
    """By the root of the count, as the bundle itself."""
    return min(THICK, THIN * sqrt(wires))


def reach_of(thing: Thing, scale: float) -> float:
    """How far from its place a thing is drawn."""
    if thing.kind == "hole":
        return max(LEAST_HOLE, (thing.diameter or NOMINAL_HOLE_MM) / 2 / scale)
    return SYMBOL[thing.kind]


def board_ground(view: View, *, known_size: bool) -> Iterator[Shape]:
    stroke = SOFT if known_size else None
    yield Box(x=0, y=0, width=view.width, height=view.height, fill=GROUND, stroke=stroke, stroke_width=EDGE)


def front_edge(view: View) -> Line:
    y = view.height - FRONT / 2
    return Line(x1=0, y1=y, x2=view.width, y2=y, width=FRONT, colour=INK)


def bundle_shapes(bundles: Bundles, view: View) -> Iterator[Shape]:
    """Below the board: one outline for each count, the thickest first; above it: dashed."""
    runs: dict[int, list[tuple[tuple[float, float], ...]]] = {}
    dashed: list[Shape] = []
    for run in bundles.runs:
        if run.above:
            (x1, y1), (x2, y2) = view.corners((run.start, run.end))
            dashed.append(Line(x1=x1, y1=y1, x2=x2, y2=y2, width=thickness(run.wires), colour=WIRES, dash=DASH))
        else:
            runs.setdefault(run.wires, []).append(view.corners((run.start, run.end)))
    for bend in bundles.bends:
        runs.setdefault(bend.wires, []).append(view.corners(bend.corners))
    for wires in sorted(runs, reverse=True):
        yield Outline(runs=tuple(runs[wires]), stroke=WIRES, stroke_width=thickness(wires), round_ends=True)
    yield from dashed


def strip_shapes(strip: PlacedStrip, cells: Cells, view: View) -> Iterator[Shape]:
    """At its true size: each way's colour in its place, or all that its marker says where there is room."""
    body = view.box(view.area_on_paper(strip.body))
    full = written_in_place(strip, view.scale)
    yield Box(x=body.x, y=body.y, width=body.width, height=body.height, fill="#ffffff")
    seen: dict[Point, None] = {}
    for way, at in zip(strip.plan.ways, strip.ways, strict=True):
        if at in seen:
            continue  # of a further row, above the first one
        seen[at] = None
        cell = _cell(strip, at, view)
        yield from cells.full(way, cell, upright=strip.upright) if full else cells.small(way, _inner(cell, strip))
    if not full:
        yield from (_divider(_cell(strip, at, view), strip) for at in seen)
    yield Box(x=body.x, y=body.y, width=body.width, height=body.height, stroke=INK, stroke_width=0.3)
    yield rule(body, seen_side(strip.plan.panel_side, below=view.below))
    if not full:
        yield _way_1(strip, view)


def _way_1(strip: PlacedStrip, view: View) -> Circle:
    """A dot at its screw that is not on the panel's side."""
    out = 0.375 * strip.depth
    at = view.point(view.on_paper(strip.ways[0] - Point(out * strip.panel_side.x, out * strip.panel_side.y)))
    return Circle(x=at.x, y=at.y, radius=min(0.8, 0.1 * strip.depth / view.scale), fill=INK)


def written_in_place(strip: PlacedStrip, scale: float) -> bool:
    return strip.plan.pitch / scale >= FULL_CELL_MM and strip.plan.tiers == 1


def _cell(strip: PlacedStrip, at: Point, view: View) -> Rectangle:
    pitch, depth = strip.plan.pitch, strip.depth
    width, height = (depth, pitch) if strip.upright else (pitch, depth)
    return view.box(view.area_on_paper(Rectangle(at.x - width / 2, at.y - height / 2, width, height)))


def _inner(cell: Rectangle, strip: PlacedStrip) -> Rectangle:
    """The middle of a way: its screws stay white."""
    if strip.upright:
        return Rectangle(cell.x + cell.width / 4, cell.y, cell.width / 2, cell.height)
    return Rectangle(cell.x, cell.y + cell.height / 4, cell.width, cell.height / 2)


def _divider(cell: Rectangle, strip: PlacedStrip) -> Line:
    if strip.upright:
        return Line(x1=cell.x, y1=cell.y, x2=cell.right, y2=cell.y, width=HAIR, colour=INK)
    return Line(x1=cell.x, y1=cell.y, x2=cell.x, y2=cell.bottom, width=HAIR, colour=INK)


def thing_shapes(things: Iterable[Thing], view: View) -> Iterator[Shape]:
    for thing in things:
        if thing.kind != "strip":
            at = view.point(view.on_paper(thing.at))
            yield from _symbol(thing.kind, at, reach_of(thing, view.scale), SOFT if thing.above else INK)


def _symbol(kind: ThingKind, at: Point, reach: float, ink: str) -> list[Shape]:
    x, y = at.x, at.y
    match kind:
        case "point":
            ring = Circle(x=x, y=y, radius=reach - 0.25, fill="#ffffff", stroke=ink, stroke_width=0.5)
            return [ring, Circle(x=x, y=y, radius=0.5, fill=ink)]
        case "device":
            side = 2 * reach - 0.5
            return [
                Box(
                    x=x - side / 2,
                    y=y - side / 2,
                    width=side,
                    height=side,
                    fill="#ffffff",
                    stroke=ink,
                    stroke_width=0.5,
                )
            ]
        case "hole":
            ring = Circle(x=x, y=y, radius=reach, fill="#ffffff", stroke=ink, stroke_width=0.3)
            return [ring, Circle(x=x, y=y, radius=0.55 * reach, fill=ink)]
        case "plug":
            box = Box(
                x=x - reach,
                y=y - 1.5,
                width=2 * reach,
                height=3,
                fill="#ffffff",
                stroke=ink,
                stroke_width=0.4,
                radius=0.8,
            )
            return [box, *(Circle(x=x + dx, y=y, radius=0.4, fill=ink) for dx in (-1.2, 0, 1.2))]
        case "supply":
            box = Box(x=x - reach, y=y - 2.1, width=2 * reach, height=4.2, fill=ink, radius=0.6)
            return [
                box,
                *(_sign(x + dx, y, upright=upright) for dx, upright in ((-1.2, False), (-1.2, True), (1.2, False))),
            ]
        case _:
            box = Box(
                x=x - reach,
                y=y - 2.1,
                width=2 * reach,
                height=4.2,
                fill="#ffffff",
                stroke=ink,
                stroke_width=0.5,
                radius=0.6,
            )
            lever = Line(x1=x, y1=y + 1.2, x2=x, y2=y - 1.3, width=0.6, colour=ink)
            return [
                box,
                lever,
                Circle(x=x, y=y - 1.0, radius=0.55, fill=ink),
                Line(x1=x - 1.5, y1=y + 1.2, x2=x + 1.5, y2=y + 1.2, width=0.4, colour=ink),
            ]


def _sign(x: float, y: float, *, upright: bool) -> Line:
    dx, dy = (0.0, 0.8) if upright else (0.8, 0.0)
    return Line(x1=x - dx, y1=y - dy, x2=x + dx, y2=y + dy, width=0.45, colour="#ffffff")
