"""Which ways of which strip each circuit takes: section 5.2 of the format."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import inf

from labelgen.model.description import Description, Strip
from labelgen.natural_order import natural
from labelgen.places import Place
from labelgen.problems import Problem
from labelgen.wiring.circuits import CircuitKey, WantedCircuit, WantedGroup
from labelgen.wiring.resolving import ResolvedDevice
from labelgen.wiring.strip_geometry import TIE_DECIMALS, Ground, Spot


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedGroup:
    wanted: WantedGroup
    board: str | None
    """The board of the strip."""
    strip: str
    ways: Mapping[int, int]
    """Row of the kind: way."""


class FreeWays:
    """What is still free on one strip."""

    def __init__(self, strip: Strip) -> None:
        self.count = strip.ways
        self.held: dict[int, str] = {way: f"taken for {words}" for way, words in strip.taken.items()}
        self.held |= dict.fromkeys(strip.keep, "kept free by `keep`")
        self._longest: int | None = None

    def first_run(self, length: int) -> int | None:
        """The first way of the first run of that many free consecutive ways."""
        if self._longest is not None and self._longest < length:
            return None
        run = longest = 0
        for way in range(1, self.count + 1):
            run = 0 if way in self.held else run + 1
            longest = max(longest, run)
            if run == length:
                return way - length + 1
        self._longest = longest
        return None

    def hold(self, ways: Iterable[int], what: str) -> None:
        self.held |= dict.fromkeys(ways, what)
        self._longest = None


class GroupPlacer:
    """Places the groups of all circuits. Reports way-taken, bad-ways, strip-full and no-strip."""

    def __init__(self, description: Description, ground: Ground, strip_boards: Mapping[str, str | None]) -> None:
        self.description = description
        self.problems: list[Problem] = []
        self._ground = ground
        self._boards = strip_boards
        self._free = {id_: FreeWays(strip) for id_, strip in description.strips.items()}
        spots = {id_: ground.spot(strip_boards[id_], strip.at) for id_, strip in description.strips.items()}
        self._spots = {id_: spot for id_, spot in spots.items() if spot is not None}
        self._on_board: dict[str | None, list[str]] = {}
        for id_ in sorted(description.strips, key=natural):
            self._on_board.setdefault(strip_boards[id_], []).append(id_)
        self._open = {board: list(strips) for board, strips in self._on_board.items()}

    def place(self, circuits: list[WantedCircuit]) -> dict[CircuitKey, list[PlacedGroup]]:
        """Circuit: its groups, in the circuit's own order. Pinned ways first, then named strips, then the rest."""
        found: dict[tuple[CircuitKey, int], PlacedGroup] = {}
        for turn in (self._pinned, self._named, self._anywhere):
            for circuit in circuits:
                for number, group in enumerate(circuit.groups):
                    key = (circuit.key, number)
                    if key not in found and (placed := turn(circuit, group)) is not None:
                        found[key] = placed
        return {
            circuit.key: [found[circuit.key, n] for n in range(len(circuit.groups)) if (circuit.key, n) in found]
            for circuit in circuits
        }

    def _pinned(self, circuit: WantedCircuit, group: WantedGroup) -> PlacedGroup | None:
        pins = group.pins
        if pins is None:
            return None
        device = group.pinned_by[0]
        place = self.description.place_of(*device.path, "ways" if device.given.ways else "way")
        strip = group.strip or self._only_strip(group, device.id, place)
        if strip is None or strip not in self._free:
            return None
        if (problem := self._pin_problem(device.id, strip, pins, group, place)) is not None:
            self.problems.append(problem)
            return None
        return self._take(circuit, group, strip, pins)

    def _only_strip(self, group: WantedGroup, device: str, place: Place) -> str | None:
        strips = self._on_board.get(group.board, [])
        if len(strips) == 1:
            return strips[0]
        message = f"{device} names ways, but not on which strip"
        hint = f"Write `strip:` with one of {', '.join(strips)}." if strips else "Describe a strip under `strips:`."
        self.problems.append(Problem(code="bad-ways", message=message, hint=hint, place=place))
        return None

    def _pin_problem(
        self, device: str, strip: str, pins: tuple[int, ...], group: WantedGroup, place: Place
    ) -> Problem | None:
        free = self._free[strip]
        if len(pins) != len(group.rows) or len(set(pins)) != len(pins):
            message = f"{device} takes {_count(len(group.rows))} on {strip}, but {_count(len(set(pins)))} are named"
            hint = f"Name {len(group.rows)} different ways, in the order of the device's rows."
            return Problem(code="bad-ways", message=message, hint=hint, place=place)
        others = [d for d in group.pinned_by if d.pins(len(group.rows)) != pins]
        if others:
            message = f"{others[0].id} shares its ways with {device}, but names others"
            return Problem(code="bad-ways", message=message, hint="Name the ways at one of them only.", place=place)
        if max(pins) > free.count:
            message = f"{device} asks for way {max(pins)} of {strip}, which has {_count(free.count)}"
            return Problem(code="bad-ways", message=message, hint="Name ways that the strip has.", place=place)
        for way in pins:
            if way in free.held:
                message = f"{device} asks for {strip}.{way}, which is {free.held[way]}"
                hint = "Name another way, or free that one."
                return Problem(code="way-taken", message=message, hint=hint, place=place)
        return None

    def _named(self, circuit: WantedCircuit, group: WantedGroup) -> PlacedGroup | None:
        if group.pins is not None or group.strip is None or group.strip not in self._free:
            return None
        first = self._free[group.strip].first_run(len(group.rows))
        if first is not None:
            return self._take(circuit, group, group.strip, tuple(range(first, first + len(group.rows))))
        device = next(d for d in group.devices if d.given.strip == group.strip)
        self._full(device.id, group, f"strip {group.strip}", self.description.place_of(*device.path, "strip"))
        return None

    def _anywhere(self, circuit: WantedCircuit, group: WantedGroup) -> PlacedGroup | None:
        if group.pins is not None or group.strip is not None:
            return None
        for strip in self._nearest(group):
            first = self._free[strip].first_run(len(group.rows))
            if first is not None:
                return self._take(circuit, group, strip, tuple(range(first, first + len(group.rows))))
        device = group.devices[0]
        place = self.description.place_of_key(*device.path)
        where = "this railway" if group.board is None else f"board {group.board}"
        if self._on_board.get(group.board):
            self._full(device.id, group, f"any strip of {where}", place)
        else:
            message = f"{device.id} needs {_count(len(group.rows))} of a strip, and {where} has no strip"
            hint = "Describe a strip there under `strips:`."
            self.problems.append(Problem(code="no-strip", message=message, hint=hint, place=place))
        return None

    def _nearest(self, group: WantedGroup) -> list[str]:
        """The strips of the group's board, nearest first; those without a place last, by natural order."""
        strips = self._open.get(group.board, [])
        here = self._here(group.devices[0])
        if here is None:
            return list(strips)
        away = [self._spots[strip].to(here) if strip in self._spots else None for strip in strips]
        rounded = [inf if mm is None else round(mm, TIE_DECIMALS) for mm in away]
        return [strips[number] for number in sorted(range(len(strips)), key=rounded.__getitem__)]

    def _here(self, device: ResolvedDevice) -> Spot | None:
        """Where a device is; of one on a panel, where the panel's wires go down."""
        panel = self.description.panels.get(device.given.panel or "") if device.given.board is None else None
        return self._ground.spot(device.board, panel.at if panel else device.given.at)

    def _take(self, circuit: WantedCircuit, group: WantedGroup, strip: str, ways: tuple[int, ...]) -> PlacedGroup:
        owner = f"lever {circuit.id}" if circuit.lever else circuit.id
        self._free[strip].hold(ways, f"taken by {owner}")
        if self._free[strip].first_run(1) is None:
            self._open[self._boards[strip]].remove(strip)
        ways_by_row = dict(zip(group.rows, ways, strict=True))
        return PlacedGroup(wanted=group, board=self._boards[strip], strip=strip, ways=ways_by_row)

    def _full(self, device: str, group: WantedGroup, where: str, place: Place) -> None:
        needed = _count(len(group.rows), "free way")
        together, them = (" side by side", "them") if len(group.rows) > 1 else ("", "it")
        message = f"{device} needs {needed}{together}, and there is no room for {them} on {where}"
        hint = "Give the strip more `ways:`, free some, or describe another strip."
        self.problems.append(Problem(code="strip-full", message=message, hint=hint, place=place))


def _count(number: int, what: str = "way") -> str:
    return f"{number} {what}" if number == 1 else f"{number} {what}s"
