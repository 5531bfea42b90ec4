"""What the two lies of a lever mean, by the tracks of the panel that draws its point."""

from labelgen.model.description import Description
from labelgen.model.netlist import LeverPlan
from labelgen.model.tracks.forms import panel_roads
from labelgen.model.tracks.graph import TrackGraph, track_graph
from labelgen.model.tracks.roads import Roads
from labelgen.natural_order import natural


class RoadNames:
    """The tracks to which points lead, for all panels of a description."""

    def __init__(self, description: Description) -> None:
        self._names: dict[str, tuple[str, str]] = {}
        for id_ in sorted(description.panels, key=natural):
            panel = description.panels[id_]
            graph = track_graph(panel)
            for point, roads in panel_roads(panel, graph).items():
                self._names.setdefault(point, _names(graph, roads))

    def of_lever(self, lever: LeverPlan) -> tuple[str, str]:
        """Where its first point leads when normal, and when reverse; "" where both bear one name or none."""
        drawn = [device for device in sorted(lever.devices, key=natural) if device in self._names]
        return self._names[drawn[0]] if drawn else ("", "")


def _names(graph: TrackGraph, roads: Roads) -> tuple[str, str]:
    toe = set(graph.edges[roads.toe].tracks)
    normal, reverse = (graph.edges[edge].tracks for edge in (roads.normal, roads.reverse))
    first = next((track for track in normal if track not in reverse), "")
    second = next((track for track in reverse if track not in (*normal, *toe)), "")
    return (first, second) if first and second else ("", "")
