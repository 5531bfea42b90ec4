"""Strips way by way: who holds each way, and which wires land in each of its two entries."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from labelgen.model.description import Description
from labelgen.model.netlist import Diode, EndKind, Side, StripPlan, WayPlan, WayState, Wire
from labelgen.model.strip_geometry import panel_side_of, pitch_of
from labelgen.natural_order import natural
from labelgen.wiring.bridges import joined
from labelgen.wiring.marks import Head


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """What a circuit put on a way."""

    function: str
    head: Head
    supply: str
    swap: str = ""
    swap_with: int = 0
    """The other way of the pair."""


class StripPlanner:
    """Makes the plans of all strips of one description."""

    def __init__(
        self,
        description: Description,
        held: Mapping[tuple[str, int], Held],
        wires: list[Wire],
        recorded: Mapping[tuple[str, int], str],
        diodes: Iterable[Diode] = (),
    ) -> None:
        """`held`: (strip, way): what a circuit put there. `recorded`: the head of what was there by the record."""
        self._diodes: dict[tuple[str, int], list[Diode]] = {}
        for diode in diodes:
            for end in (diode.anode, diode.cathode):
                self._diodes.setdefault((end.thing, int(end.terminal)), []).append(diode)
        self._recorded = recorded
        self._description = description
        self._held = held
        self._entries: dict[tuple[str, int, Side], list[Wire]] = {}
        for wire in wires:
            for end in wire.ends:
                if end.kind is EndKind.WAY and end.side is not None:
                    self._entries.setdefault((end.thing, int(end.terminal), end.side), []).append(wire)

    def plans(self, boards: Mapping[str, str | None]) -> tuple[StripPlan, ...]:
        """Every strip, in natural order of id."""
        ids = sorted(self._description.strips, key=natural)
        return tuple(self._plan(id_, boards[id_], self._supplies(id_)) for id_ in ids)

    def _supplies(self, strip: str) -> tuple[str, ...]:
        ways = range(1, self._description.strips[strip].ways + 1)
        found = {self._held[strip, way].supply for way in ways if (strip, way) in self._held}
        return tuple(self._description.supplies[id_].shown or id_ for id_ in sorted(found, key=natural))

    def _plan(self, id_: str, board: str | None, supplies: tuple[str, ...]) -> StripPlan:
        strip = self._description.strips[id_]
        return StripPlan(
            id=id_,
            shown=strip.shown or id_,
            board=board,
            pitch=pitch_of(strip),
            measured=strip.pitch is not None or strip.measured is not None,
            way_1=strip.way_1,
            panel_side=panel_side_of(strip),
            ways=_live([self._way(id_, way) for way in range(1, strip.ways + 1)], strip.bridges),
            supplies=supplies,
            bridges=strip.bridges,
            tiers=strip.tiers,
            fixing=strip.fixing,
        )

    def _way(self, strip: str, way: int) -> WayPlan:
        panel = tuple(self._entries.get((strip, way, Side.PANEL), ()))
        layout = tuple(self._entries.get((strip, way, Side.LAYOUT), ()))
        given = self._description.strips[strip]
        held = self._held.get((strip, way))
        extra = next(iter((*panel, *layout)), None)
        state: WayState = "kept" if way in given.keep else "spare"
        function, head, words = "", Head(stem="", painted="", code=""), ""
        if held is not None:
            state, function, head = "used", held.function, held.head
        elif way in given.taken:
            state, words = "taken", given.taken[way]
        elif extra is not None:
            state, function = "used", extra.function
            head = Head(stem=extra.stem, painted=extra.stem, code=extra.code, mark=extra.mark)
        return WayPlan(
            number=way,
            state=state,
            function=function,
            head=words or f"{head.painted}{head.code}{head.mark}",
            stem=head.painted,
            code=head.code,
            mark=head.mark,
            swap=held.swap if held is not None else "",
            swap_with=held.swap_with if held is not None else 0,
            was=self._recorded.get((strip, way), "") if state in ("spare", "kept") else "",
            panel=panel,
            layout=layout,
            test=way in given.test_points,
            diodes=tuple(self._diodes.get((strip, way), ())),
        )


def _live(ways: list[WayPlan], bridges: Iterable[Iterable[int]]) -> tuple[WayPlan, ...]:
    """With what a bridge brings to ways on which nothing lands: they are live, though they have no wire of their own.

    Each says what the nearest way of its bridge says.
    """
    brought: dict[int, WayPlan] = {}
    for piece in joined(bridges):
        own = [way for way in ways if way.number in piece and way.state in ("used", "taken")]
        bare = [way for way in ways if way.number in piece and way.state in ("spare", "kept")]
        brought |= {way.number: min(own, key=lambda one: abs(one.number - way.number)) for way in bare if own}
    return tuple(_brought(way, brought[way.number]) if way.number in brought else way for way in ways)


def _brought(way: WayPlan, source: WayPlan) -> WayPlan:
    return replace(
        way,
        state=source.state,
        function=source.function,
        head=source.head,
        stem=source.stem,
        code=source.code,
        mark=source.mark,
        bridged_to=source.number,
    )
