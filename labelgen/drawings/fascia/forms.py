"""What a fascia shows where tracks end in something that moves, or slip from one to the other. Millimetres."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import pairwise
from math import cos, pi, sin

from labelgen.drawings.clearances import Obstacle, Stroke, disc, point_to_segment
from labelgen.drawings.fascia.polylines import apart, onward, turned, unit
from labelgen.drawings.fascia.style import SET_OFF_MM
from labelgen.lengths import Point
from labelgen.model.panel.form import Panel
from labelgen.model.panel.hole_room import Room
from labelgen.model.tracks.forms import Junction
from labelgen.model.tracks.graph import TrackGraph
from labelgen.model.tracks.roads import Way, angle_between, turn

RIM_MM = 0.7
"""How thick the line of a turntable's rim is, and of a fan's edge."""
CLEAR_OF_RIM_MM = 0.9
_SLIP_WIDTH = 0.55
"""Of the tracks' width: a slip is a lighter line, so that the two tracks stay the main thing."""
_STEP_MM, _PLACES = 0.5, 20
_MOST_OF_ROAD = 0.6
"""A form takes no more than this of the shortest stretch that meets it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnTable:
    """A turntable: a ring, and across it the deck, in line with its first road."""

    middle: Point
    radius: float
    deck: tuple[Point, Point]
    edge: int
    """The track of which the deck is drawn as a part."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnFan:
    """A sector with its point at the fan's place, over which a piece of track moves from road to road."""

    middle: Point
    radius: float
    corners: tuple[Point, ...]
    """The point, and along the arc."""
    toe: int | None
    """The road that runs to its point."""
    deck: tuple[Point, Point]
    edge: int


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnForms:
    tables: Mapping[str, DrawnTable]
    fans: Mapping[str, DrawnFan]
    ends: Mapping[tuple[int, int], float]
    """(node, edge): how much of the edge is inside of a table's rim or a fan's sector."""

    def left_out(self, node: int, edge: int, width: float) -> float:
        """How much of a line of a width is left out, so that it ends clear of the rim."""
        inside = self.ends.get((node, edge))
        return 0.0 if inside is None else max(0.0, inside + RIM_MM / 2 + CLEAR_OF_RIM_MM + width / 2)


def drawn_forms(panel: Panel, graph: TrackGraph, width: float) -> DrawnForms:
    """The turntables and fans of a panel on which roads end."""
    tables, fans, ends = {}, {}, {}
    mm = partial(_mm, panel)
    for name, nodes in graph.turntables.items():
        if not nodes:
            continue
        middle, radius = mm(Point(*panel.turntables[name].at)), panel.turntables[name].radius * panel.grid
        edge = graph.edges_at[nodes[0]][0]
        out = unit(
            mm(graph.nodes[nodes[0]]) - middle
            if apart(mm(graph.nodes[nodes[0]]), middle) > 1
            else graph.towards(nodes[0], edge)
        )
        reach = radius - RIM_MM / 2 - CLEAR_OF_RIM_MM - width / 2
        deck = (onward(middle, out, -reach), onward(middle, out, reach))
        tables[name] = DrawnTable(middle=middle, radius=radius, deck=deck, edge=edge)
        for node in nodes:
            for road in graph.edges_at[node]:
                ends[node, road] = radius - apart(mm(graph.nodes[node]), middle)
    for name, node in graph.fans.items():
        fan = _fan(panel, graph, node, width)
        if fan is not None:
            fans[name] = fan
            ends |= {(node, edge): fan.radius for edge in graph.edges_at[node] if edge != fan.toe}
    return DrawnForms(tables=tables, fans=fans, ends=ends)


def _fan(panel: Panel, graph: TrackGraph, node: int, width: float) -> DrawnFan | None:
    """None where fewer than two roads meet: there is nothing to choose."""
    edges = graph.edges_at[node]
    if len(edges) < 2:
        return None
    first, *others = _from_gap(graph, node, edges)
    toe = first if len(edges) > 2 and _nearest(graph, node, first) > pi / 2 - 1e-6 else None
    legs = others if toe is not None else [first, *others]
    middle = _mm(panel, graph.nodes[node])
    ways = [unit(graph.towards(node, leg)) for leg in legs]
    spread = [angle_between(a, b) for a, b in pairwise(ways)] or [pi / 2]
    room = min(_length(panel, graph, edge) for edge in legs)
    radius = min(
        max((width + SET_OFF_MM) / (2 * sin(min(*spread, pi / 2, pi) / 2)), 2 * panel.grid), _MOST_OF_ROAD * room
    )
    edge = legs[len(legs) // 2]
    pad = min(0.22, width / radius)
    total = sum(spread) if len(legs) > 1 else 0.0
    steps = max(2, round((total + 2 * pad) / 0.05))
    arc = [
        onward(middle, turned(ways[0], -pad + (total + 2 * pad) * step / steps), radius) for step in range(steps + 1)
    ]
    way = unit(graph.towards(node, edge))
    reach = radius - RIM_MM / 2 - CLEAR_OF_RIM_MM - width / 2
    deck = (middle, onward(middle, way, max(reach, width / 2)))
    return DrawnFan(middle=middle, radius=radius, corners=(middle, *arc), toe=toe, deck=deck, edge=edge)


def _from_gap(graph: TrackGraph, node: int, edges: Sequence[int]) -> list[int]:
    """The roads clockwise: the one that stands most alone first, else from behind the widest gap."""
    alone = max(edges, key=lambda edge: (_nearest(graph, node, edge), -edge))
    if len(edges) > 2 and _nearest(graph, node, alone) > pi / 2 - 1e-6:
        return sorted(edges, key=lambda edge: turn(graph, node, alone, edge) if edge != alone else -1.0)
    return min(
        (sorted(edges, key=lambda edge: turn(graph, node, start, edge) if edge != start else 0.0) for start in edges),
        key=lambda order: (turn(graph, node, order[0], order[-1]), order),
    )


def _nearest(graph: TrackGraph, node: int, edge: int) -> float:
    way = graph.towards(node, edge)
    return min(angle_between(way, graph.towards(node, other)) for other in graph.edges_at[node] if other != edge)


def deck_lines(drawn: DrawnForms, width: float) -> Iterator[tuple[int, tuple[Point, Point]]]:
    """The pieces of track that move, and the edge of which each is a part."""
    decks = [
        *((table.edge, table.deck) for table in drawn.tables.values()),
        *((fan.edge, fan.deck) for fan in drawn.fans.values()),
    ]
    yield from ((edge, deck) for edge, deck in decks if apart(*deck) > width / 4)


def form_obstacles(drawn: DrawnForms) -> list[Obstacle]:
    """What texts must keep clear of: the whole of each table and fan."""
    found: list[Obstacle] = [disc(t.middle, t.radius + RIM_MM / 2, f"turntable {n}") for n, t in drawn.tables.items()]
    for name, fan in drawn.fans.items():
        point, *arc = fan.corners
        found += [Stroke(start=point, end=end, reach=RIM_MM / 2, what=f"fan {name}") for end in arc]
    return found


def slip_lines(
    at: Sequence[Point], graph: TrackGraph, forms: Mapping[int, Junction], *, width: float, holes: Sequence[Room]
) -> Iterator[tuple[Way, tuple[Point, Point], float]]:
    """For each curve of a slip a lighter line across the corner, clear of the crossing and of a lever's nut there."""
    light = _SLIP_WIDTH * width
    for form in forms.values():
        middle = at[form.node]
        for a, b in form.curved if form.is_slip else ():
            ways = [unit(graph.towards(form.node, edge)) for edge in (a, b)]
            room = _MOST_OF_ROAD * min(apart(at[graph.edges[edge].other(form.node)], middle) for edge in (a, b))
            least = (width + light) / 2 + SET_OFF_MM
            first = min(least / max(cos(angle_between(*ways) / 2), 0.1), room)
            outs = [first, *(first + _STEP_MM * n for n in range(1, int((room - first) / _STEP_MM) + 1))]
            lines = [(onward(middle, ways[0], out), onward(middle, ways[1], out)) for out in outs]
            # Where the nuts leave no room at all, the line that they cover least.
            yield (a, b), max(lines, key=lambda line: min(SET_OFF_MM, _bare(line, light, holes))), light


def _bare(line: tuple[Point, Point], width: float, holes: Sequence[Room]) -> float:
    """How much paper is between a line and the next nut; less than 0 where they overlap."""
    places = [onward(line[0], line[1] - line[0], step / _PLACES) for step in range(_PLACES + 1)]
    return min((beyond_cover(hole, place) for hole in holes for place in places), default=SET_OFF_MM) - width / 2


def beyond_cover(hole: Room, place: Point) -> float:
    """How far a place is from what a part covers; less than 0 under it."""
    start, end, reach = hole.spine
    return point_to_segment(place, start, end) - reach


def _length(panel: Panel, graph: TrackGraph, edge: int) -> float:
    a, b = graph.edges[edge].ends
    return apart(_mm(panel, graph.nodes[a]), _mm(panel, graph.nodes[b]))


def _mm(panel: Panel, place: Point) -> Point:
    return Point(place.x * panel.grid, place.y * panel.grid)
