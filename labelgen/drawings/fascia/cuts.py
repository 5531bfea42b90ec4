"""How much of each chain of track is left out at its ends: at points, breaks, bridges, turntables and fans."""

from collections.abc import Mapping, Sequence
from itertools import pairwise
from math import pi, sin

from labelgen.drawings.clearances import point_to_segment
from labelgen.drawings.fascia.chains import Chain
from labelgen.drawings.fascia.forms import DrawnForms, beyond_cover
from labelgen.drawings.fascia.polylines import line_length, place_at
from labelgen.drawings.fascia.style import BREAK_GAP_MM, SET_OFF_MM
from labelgen.lengths import Point
from labelgen.model.panel.form import Panel
from labelgen.model.panel.hole_room import Room
from labelgen.model.tracks.forms import Junction
from labelgen.model.tracks.graph import TrackGraph
from labelgen.model.tracks.roads import angle_between

_STEP_MM = 0.05
_MOST_CUT = 0.8
"""At least a fifth of a short road is drawn, however close its two ends are."""
_LEAST_SLANT = 0.25
"""Radians: tracks that pass at a smaller angle are left out no further."""


class Cuts:
    """Works out how much of a chain is left out at either end, in mm."""

    def __init__(
        self,
        panel: Panel,
        graph: TrackGraph,
        forms: Mapping[int, Junction],
        chains: Sequence[Chain],
        drawn: DrawnForms,
        *,
        width: float,
        holes: tuple[Room, ...],
    ) -> None:
        self.at = [Point(node.x * panel.grid, node.y * panel.grid) for node in graph.nodes]
        self._graph, self._width, self._holes, self._drawn = graph, width, holes, drawn
        self._broken = set(graph.breaks.values())
        self._over = dict(graph.bridges.values())
        of_edge = {edge: chain for chain in chains for edge in chain.edges}
        self._through = {
            (form.node, edge): (of_edge[form.straight[0][1]], of_edge[toe])
            for form in forms.values()
            for toe, edge in (() if form.is_slip else form.curved)
        }

    def of(self, chain: Chain) -> tuple[float, float]:
        """Lengths to leave out at its start and at its end."""
        places = [self.at[node] for node in chain.nodes]
        first = self._cut(places, chain.nodes[0], chain.edges[0])
        last = self._cut(places[::-1], chain.nodes[-1], chain.edges[-1])
        room = _MOST_CUT * line_length(places)
        shrink = min(1.0, room / (first + last)) if first + last else 1.0
        return first * shrink, last * shrink

    def _cut(self, places: Sequence[Point], node: int, edge: int) -> float:
        cuts = [(BREAK_GAP_MM + self._width) / 2 if node in self._broken else 0.0]
        if (node, edge) in self._through:
            cuts.append(self._set_off(places, self._through[node, edge]))
        if node in self._over:
            cuts.append(self._under(node, edge))
        cuts.append(self._drawn.left_out(node, edge, self._width))
        return max(cuts)

    def _under(self, node: int, edge: int) -> float:
        """How far from a bridge the lower track is clear of the upper one."""
        way, upper = self._graph.towards(node, edge), self._over[node]
        slants = [angle_between(way, self._graph.towards(upper, over)) for over in self._graph.edges_at[upper]]
        return (self._width + SET_OFF_MM) / sin(max(_LEAST_SLANT, min(pi / 2, *slants)))

    def _set_off(self, places: Sequence[Point], chains: Sequence[Chain]) -> float:
        """How far from its point a reverse road first is clear of the other two, and of the lever's nut."""
        others = [(self.at[a], self.at[b]) for chain in dict.fromkeys(chains) for a, b in pairwise(chain.nodes)]
        clear = self._width + SET_OFF_MM
        beyond = SET_OFF_MM + self._width / 2
        own = [hole for hole in self._holes if beyond_cover(hole, places[0]) < 0]
        whole = line_length(places)
        for step in range(1, int(whole / _STEP_MM)):
            place = place_at(places, step * _STEP_MM)
            if all(beyond_cover(hole, place) >= beyond for hole in own) and all(
                point_to_segment(place, a, b) >= clear for a, b in others
            ):
                return step * _STEP_MM
        return whole / 2
