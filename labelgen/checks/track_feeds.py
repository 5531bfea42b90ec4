"""Feeds on the diagram of a panel: behind a crossing, on no stretch, from two supplies; and gaps of loops and blocks.

Where feeds reach the rails is known only where the panel has `feeds`; that a break cuts one rail only, where it
stands under `one_rail`.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from labelgen.checks.detectors import is_detector
from labelgen.checks.panel_words import at_square
from labelgen.lengths import Point
from labelgen.model.description import Description
from labelgen.model.kinds import Kind
from labelgen.model.netlist import Netlist
from labelgen.model.panel.form import Panel
from labelgen.model.tracks.cutting import same_place
from labelgen.model.tracks.forms import junctions, panel_roads, ways_over
from labelgen.model.tracks.graph import TrackGraph, edge_at, track_graph
from labelgen.model.tracks.sections import TrackSections, track_sections
from labelgen.problems import Problem

REVERSERS = frozenset({"changeover"})


@dataclass(frozen=True, kw_only=True)
class Diagram:
    """One panel, and what its devices are."""

    id: str
    panel: Panel
    graph: TrackGraph
    sections: TrackSections
    kinds: Mapping[str, Kind]
    """Of every device."""
    supplies: Mapping[str, str]
    """Device: the supply of its rails."""

    def on_stretch(self, index: int, places: Mapping[str, tuple[tuple[float, float], ...]]) -> list[str]:
        """The devices that have a place on a stretch."""
        edges = self.sections.stretches[index].edges
        return [id_ for id_, spots in places.items() if any(edge_at(self.graph, Point(*at)) in edges for at in spots)]

    def breaks_around(self, index: int) -> list[int]:
        """Positions in the panel's list of the breaks that lie between a stretch and another."""
        edges = set(self.sections.stretches[index].edges)
        return [n for n, node in self.graph.breaks.items() if 0 < len(edges & {*self.graph.edges_at[node]}) < 2]

    def rail_of(self, number: int) -> str:
        """Which rail alone a break cuts; "" for both."""
        at = Point(*self.panel.breaks[number])
        cuts = (rail for rail, spots in self.panel.one_rail.items() if any(same_place(at, Point(*s)) for s in spots))
        return next(cuts, "")


def track_feed_problems(description: Description, netlist: Netlist) -> list[Problem]:
    """Reports feed-at-crossing, stretch-unfed, feeds-differ, loop-not-isolated and gaps-in-both-rails.

    And detector-passed-by, where one of two feeds that differ is behind a detector.
    """
    problems: list[Problem] = []
    for id_, panel in description.panels.items():
        if not panel.feeds and not panel.one_rail:
            continue
        diagram = _diagram(id_, panel, netlist)
        for found in (_behind_crossings, _unfed, _fed_twice, _open_loops, _mixed_gaps):
            problems += found(description, diagram)
    return problems


def _diagram(id_: str, panel: Panel, netlist: Netlist) -> Diagram:
    graph = track_graph(panel)
    kinds = {device: circuit.kind for circuit in netlist.circuits for device in circuit.devices}
    supplies = {
        device: circuit.supplies[role]
        for circuit in netlist.circuits
        for role, kind in circuit.kind.supply.items()
        if kind in ("track", "digital")
        for device in circuit.devices
    }
    sections = track_sections(panel, graph)
    return Diagram(id=id_, panel=panel, graph=graph, sections=sections, kinds=kinds, supplies=supplies)


def _behind_crossings(description: Description, diagram: Diagram) -> Iterator[Problem]:
    """Feeds that reach the far end of a live crossing without a break between."""
    for point, roads in panel_roads(diagram.panel, diagram.graph).items():
        kind = diagram.kinds.get(point)
        if kind is None or not any(row.function == "frog" for row in kind.group):
            continue
        legs = [leg for leg in (roads.normal, roads.reverse, roads.third) if leg is not None]
        reached = _reached(diagram, roads.node, legs)
        for feed, spots in diagram.panel.feeds.items():
            if any(edge_at(diagram.graph, Point(*at)) in reached for at in spots):
                yield Problem(
                    code="feed-at-crossing",
                    message=f"{feed} feeds the rails behind the live crossing of {point}, and no gap lies between",
                    hint="Feed at the toe of the point, or cut both rails behind its crossing and add that under the"
                    " panel's `breaks:`.",
                    place=description.place_of_key("panels", diagram.id, "feeds", feed),
                )


def _reached(diagram: Diagram, start: int, legs: list[int]) -> set[int]:
    """The edges to which rails lead on from some, away from a node, as far as the next breaks."""
    graph, forms = diagram.graph, junctions(diagram.panel, diagram.graph)
    broken = {*graph.breaks.values(), start}
    found, ahead = set(legs), list(legs)
    while ahead:
        edge = ahead.pop()
        for node in graph.edges[edge].ends:
            if node in broken:
                continue
            ways = ways_over(graph, node, forms.get(node))
            beyond = {other for way in ways if edge in way for other in way} - found
            found |= beyond
            ahead += beyond
    return found


def _unfed(description: Description, diagram: Diagram) -> Iterator[Problem]:
    panel = diagram.panel
    if not panel.feeds:
        return
    sections = {id_: (at,) for id_, at in panel.sections.items()}
    for index, stretch in enumerate(diagram.sections.stretches):
        if not diagram.on_stretch(index, panel.feeds) and not diagram.on_stretch(index, sections):
            edge = diagram.graph.edges[stretch.edges[0]]
            where = " and ".join(at_square(diagram.graph.nodes[node]) for node in edge.ends)
            yield Problem(
                code="stretch-unfed",
                message=f"nothing feeds the stretch of track {edge.tracks[0]} between {where}",
                hint="Add what feeds it under the panel's `feeds:` or `sections:`; or take the break away.",
                place=description.place_of_key("panels", diagram.id, "tracks", edge.tracks[0]),
            )


def _fed_twice(description: Description, diagram: Diagram) -> Iterator[Problem]:
    panel = diagram.panel
    places = {**{id_: (at,) for id_, at in panel.sections.items()}, **panel.feeds}
    for index in range(len(diagram.sections.stretches)):
        feeds = [feed for feed in diagram.on_stretch(index, places) if feed in diagram.supplies]
        first, *others = feeds or [""]
        other = next((one for one in others if diagram.supplies[one] != diagram.supplies[first]), None)
        if other is not None:
            table = "feeds" if other in panel.feeds else "sections"
            place = description.place_of_key("panels", diagram.id, table, other)
            code, message, hint = _of_two_supplies(diagram, first, other)
            yield Problem(code=code, message=message, hint=hint, place=place)


def _of_two_supplies(diagram: Diagram, first: str, other: str) -> tuple[str, str, str]:
    """What is wrong with a stretch that two devices feed from two supplies: its code, in words, and what to do."""
    for passing, behind in ((other, first), (first, other)):
        detector, supply = diagram.supplies[behind], diagram.supplies[passing]
        if is_detector(diagram.kinds.get(detector)) and not is_detector(diagram.kinds.get(supply)):
            message = f"{passing} feeds the stretch that {detector} watches from {supply}, past the detector"
            hint = f"Write `supply: {detector}` at {passing}, and wire it behind the detector; or put a break between."
            return "detector-passed-by", message, hint
    message = f"{first} feeds one and the same stretch from {diagram.supplies[first]}, and {other} from"
    hint = "Feed a stretch from one supply alone, or put a break between."
    return "feeds-differ", f"{message} {diagram.supplies[other]}", hint


def _turns_round(diagram: Diagram, device: str) -> bool:
    """Whether the two rails change places on what it feeds."""
    kind, source = diagram.kinds.get(device), diagram.kinds.get(diagram.supplies.get(device, ""))
    by_lever = (
        kind is not None
        and kind.lever_type in REVERSERS
        and not any(row.function.startswith("drive") for row in kind.group)
    )
    by_itself = source is not None and source.inside.get("normal") != source.inside.get("reverse")
    return by_lever or by_itself


def _open_loops(description: Description, diagram: Diagram) -> Iterator[Problem]:
    panel = diagram.panel
    places = {**{id_: (at,) for id_, at in panel.sections.items()}, **panel.feeds}
    for index in range(len(diagram.sections.stretches)):
        around = diagram.breaks_around(index)
        one_rail = [number for number in around if diagram.rail_of(number)]
        for device in diagram.on_stretch(index, places):
            if not _turns_round(diagram, device) or (around and not one_rail):
                continue
            gap = at_square(Point(*panel.breaks[one_rail[0]])) if one_rail else ""
            table = "feeds" if device in panel.feeds else "sections"
            yield Problem(
                code="loop-not-isolated",
                message=f"the rails of {device} are turned round, and "
                + (f"the break at {gap} cuts one of them only" if gap else "no break parts them from the others"),
                hint="Cut both rails at each end of what is turned round.",
                place=description.place_of_key("panels", diagram.id, table, device),
            )


def _mixed_gaps(description: Description, diagram: Diagram) -> Iterator[Problem]:
    """Blocks that are watched, whose gaps are not all in one rail."""
    panel = diagram.panel
    places = {**{id_: (at,) for id_, at in panel.sections.items()}, **panel.feeds}
    watching = [
        index
        for index in range(len(diagram.sections.stretches))
        if any(_watches(diagram, device) for device in diagram.on_stretch(index, places))
    ]
    cuts = {diagram.rail_of(number): number for index in watching for number in diagram.breaks_around(index)}
    cuts.pop("", None)
    if len(cuts) > 1:
        where = " and ".join(f"{at_square(Point(*panel.breaks[cuts[rail]]))} in rail {rail}" for rail in sorted(cuts))
        yield Problem(
            code="gaps-in-both-rails",
            message=f"the gaps of the blocks that are watched are not all in one rail: {where}",
            hint="Watch one rail everywhere, and put the gaps in that one.",
            place=description.place_of("panels", diagram.id, "breaks", max(cuts.values())),
        )


def _watches(diagram: Diagram, device: str) -> bool:
    """Whether it is a detector, or is fed by one."""
    return any(is_detector(diagram.kinds.get(one)) for one in (device, diagram.supplies.get(device, "")))
