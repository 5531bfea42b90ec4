"""An independent judge of track plans: shapely cuts the lines, networkx says what hangs together."""

from collections.abc import Iterable
from itertools import combinations, pairwise
from math import hypot
from typing import Any

import networkx as nx
import yaml
from shapely.geometry import LineString, MultiPoint
from shapely.geometry import Point as Dot
from shapely.ops import split, unary_union

from labelgen.model.panel.form import Panel

Place = tuple[float, float]


def panel_of(text: str) -> Panel:
    (panel,) = yaml.safe_load(text)["panels"].values()
    return Panel.model_validate(panel)


def rounded(place: Iterable[float]) -> Place:
    x, y = place
    return round(x, 6), round(y, 6)


def lines_of(panel: Panel) -> list[LineString]:
    at = {point: placed.at for point, placed in panel.points.items()}
    return [LineString([at[c] if isinstance(c, str) else c for c in corners]) for corners in panel.tracks.values()]


def plain_graph(panel: Panel) -> Any:
    """Places, joined by straight pieces of track with nothing on them but their ends."""
    graph = nx.Graph()
    stops = [Dot(at) for at in [*(p.at for p in panel.points.values()), *panel.breaks]]
    for line in unary_union(lines_of(panel)).geoms:
        on_it = MultiPoint([stop for stop in stops if line.distance(stop) < 1e-9])
        for piece in split(line, on_it).geoms if not on_it.is_empty else [line]:
            for a, b in pairwise(piece.coords):
                graph.add_edge(rounded(a), rounded(b))
    return graph


def bend(a: Place, node: Place, b: Place) -> float:
    """The cosine of the turn that a train makes that comes from a and goes on to b: 1 straight on."""
    ax, ay, bx, by = node[0] - a[0], node[1] - a[1], b[0] - node[0], b[1] - node[1]
    return (ax * bx + ay * by) / (hypot(ax, ay) * hypot(bx, by))


def train_graph(panel: Panel) -> Any:
    """Pieces of track, joined where a train passes from one to the other: it never turns by a right angle or more,
    goes straight on where no point stands, and not over a break.
    """
    plain, trains = plain_graph(panel), nx.Graph()
    points = {rounded(p.at) for p in panel.points.values()}
    breaks = {rounded(at) for at in panel.breaks}
    trains.add_nodes_from(frozenset(edge) for edge in plain.edges)
    for node in set(plain.nodes) - breaks:
        crossed = plain.degree(node) > 2 and node not in points
        for a, b in combinations(plain.neighbors(node), 2):
            if bend(a, node, b) > (0.999 if crossed else 1e-6):
                trains.add_edge(frozenset((a, node)), frozenset((node, b)))
    return trains
