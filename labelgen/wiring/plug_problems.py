"""What goes wrong between wires and plugs, said once for each two boards."""

from collections.abc import Iterable, Mapping, Sequence

from labelgen.model.description import Description, Plug
from labelgen.model.netlist import End, EndKind
from labelgen.natural_order import natural
from labelgen.places import Path
from labelgen.problems import Problem
from labelgen.wiring.crossings import Hop
from labelgen.wiring.draft_wires import DraftWire
from labelgen.wiring.plug_pins import PlugPins
from labelgen.wiring.plug_ways import Pair, PlugWays


class PlugProblems:
    """Gathers plug-full, no-way-by-plugs and no-board. Nothing is said of ways while a plug itself is wrong."""

    def __init__(self, description: Description, plugs: Mapping[str, Plug], ways: PlugWays, pins: PlugPins) -> None:
        self._description = description
        self._plugs = plugs
        self._ways = ways
        self._pins = pins
        self._missing: dict[Pair, int] = {}
        self._stranded: dict[Pair, list[tuple[DraftWire, str, str]]] = {}
        self._unknown: dict[Path, str] = {}

    def unknown_board(self, end: End) -> None:
        """Notes an end of which it is not said on which board it is; of other ends that is told elsewhere."""
        if end.kind is EndKind.SUPPLY:
            self._unknown.setdefault(("supplies", end.thing), end.thing)
        elif end.kind is EndKind.LEVER:
            without = [id_ for id_, panel in self._description.panels.items() if panel.board is None]
            self._unknown |= {("panels", id_): f"panel {id_}" for id_ in without}

    def no_way(self, wire: DraftWire, start: str, finish: str) -> None:
        """Notes a wire to a board to which no plugs lead."""
        self._stranded.setdefault(frozenset((start, finish)), []).append((wire, start, finish))

    def full(self, hops: Iterable[Hop], count: int) -> None:
        """Notes so many pins that are missing between each two boards."""
        for hop in hops:
            pair = frozenset((hop.start, hop.finish))
            self._missing[pair] = self._missing.get(pair, 0) + count

    def all(self) -> list[Problem]:
        problems = [self._no_board(path, called) for path, called in self._unknown.items()]
        if self._plugs.keys() < self._description.plugs.keys():
            return problems
        return [
            *problems,
            *(self._full(pair, count) for pair, count in self._missing.items()),
            *(self._no_way(wires) for wires in self._stranded.values()),
        ]

    def _no_board(self, path: Path, called: str) -> Problem:
        return Problem(
            code="no-board",
            message=f"{called} does not say on which board it is, so it is not known which plugs its wires run through",
            hint=f"Write `board:` with one of {_listed(self._description.boards)}.",
            place=self._description.place_of_key(*path),
        )

    def _full(self, pair: Pair, count: int) -> Problem:
        full = self._ways.between[pair]
        count = max(1, count - max(self._pins.room(plug) for plug in full))
        more = "1 more pin is" if count == 1 else f"{count} more pins are"
        return Problem(
            code="plug-full",
            message=f"{' and '.join(full)} {'is' if len(full) == 1 else 'are'} full: {more} needed between "
            f"{' and '.join(sorted(pair, key=natural))}",
            hint=f"Give {full[-1]} more `pins:`, or describe another plug there. "
            f"{self._with_room(pair)}{self._freed(full)}",
            place=self._description.place_of("plugs", full[-1], "pins"),
        )

    def _with_room(self, pair: Pair) -> str:
        """Which plugs have room: of these boards, else of any."""
        others = [id_ for id_ in sorted(self._plugs, key=natural) if {*self._plugs[id_].boards} != pair]
        others = [id_ for id_ in others if self._pins.room(id_)]
        near = [id_ for id_ in others if {*self._plugs[id_].boards} & pair] or others
        if not near:
            return "No other plug has a free pin."
        said = [f"{id_} ({' to '.join(self._plugs[id_].boards)}) has {self._pins.room(id_)} free" for id_ in near[:4]]
        return f"{', '.join(said)}."

    def _freed(self, plugs: Iterable[str]) -> str:
        """Which pins of full plugs were freed, and are kept spare."""
        pins = [f"{plug}.{pin}" for plug in plugs for pin in self._pins.freed(plug)]
        if not pins:
            return ""
        more = f" and {len(pins) - 4} more" if len(pins) > 4 else ""
        return f" {', '.join(pins[:4])}{more} were freed: name one under `wires:` to use it again."

    def _no_way(self, wires: Sequence[tuple[DraftWire, str, str]]) -> Problem:
        wire, start, finish = wires[0]
        run = f"a wire runs from {wire.start.name} on {start} to {wire.finish.name} on {finish}"
        if len(wires) > 1:
            run = (
                f"{len(wires)} wires run between {start} and {finish} (the first is {_called(wire.start, wire.finish)})"
            )
        return Problem(
            code="no-way-by-plugs",
            message=f"{run}, and no plugs lead there",
            hint=f"Describe a plug with `boards: [{start}, {finish}]`. Once one plug is described, no boards are taken "
            "as fixed together.",
            place=self._description.place_of_key(*wire.path),
        )


def _called(start: End, finish: End) -> str:
    return f"{start.name} to {finish.name}"


def _listed(names: Iterable[str]) -> str:
    return ", ".join(sorted(names, key=natural))
