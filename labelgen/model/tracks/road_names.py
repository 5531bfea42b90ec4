"""What the lies of a lever mean, by the tracks of the panel that draws its points."""

from dataclasses import dataclass

from labelgen.model.description import Description
from labelgen.model.netlist import LeverPlan
from labelgen.model.tracks.forms import panel_roads
from labelgen.model.tracks.graph import TrackGraph, track_graph
from labelgen.model.tracks.roads import Roads
from labelgen.natural_order import natural


@dataclass(frozen=True, slots=True, kw_only=True)
class RoadsOfPoint:
    """The tracks to which a point leads."""

    point: str
    normal: str
    reverse: str
    """Of a three-way its left road."""
    third: str = ""
    """Of a three-way its right road."""


class RoadNames:
    """The tracks to which points lead, for all panels of a description."""

    def __init__(self, description: Description) -> None:
        self._names: dict[str, RoadsOfPoint] = {}
        for id_ in sorted(description.panels, key=natural):
            panel = description.panels[id_]
            graph = track_graph(panel)
            for point, roads in panel_roads(panel, graph).items():
                found = _names(graph, point, roads)
                if found is not None:
                    self._names.setdefault(point, found)

    def of_lever(self, lever: LeverPlan) -> list[RoadsOfPoint]:
        """Where each of its points leads; without those whose roads bear one name or none."""
        return [self._names[device] for device in sorted(lever.devices, key=natural) if device in self._names]


def _names(graph: TrackGraph, point: str, roads: Roads) -> RoadsOfPoint | None:
    toe = set(graph.edges[roads.toe].tracks)
    legs = [graph.edges[edge].tracks for edge in roads.legs]
    first = next((track for track in legs[0] if not any(track in other for other in legs[1:])), "")
    others = [next((track for track in leg if track not in (*legs[0], *toe)), "") for leg in legs[1:]]
    if not first or not all(others):
        return None
    return RoadsOfPoint(point=point, normal=first, reverse=others[0], third=others[1] if len(others) > 1 else "")
