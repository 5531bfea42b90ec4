"""Which ways of which strip each circuit takes: section 5.2 of the format."""

from collections.abc import Iterable, Mapping
from math import inf

from labelgen.model.built.built_record import BuiltRecord
from labelgen.model.description import Description
from labelgen.model.strip_geometry import TIE_DECIMALS, Ground, Spot
from labelgen.natural_order import natural
from labelgen.places import Place
from labelgen.problems import Problem
from labelgen.wiring.bridges import nets_of
from labelgen.wiring.circuits import CircuitKey, WantedCircuit, WantedGroup
from labelgen.wiring.placed_groups import FreeWays, PlacedGroup, counted, owner_of
from labelgen.wiring.recorded_places import RecordedPlacer
from labelgen.wiring.resolving import ResolvedDevice


class GroupPlacer:
    """Places the groups of all circuits. Reports way-taken, bad-ways, strip-full, no-strip and moved."""

    def __init__(
        self,
        description: Description,
        ground: Ground,
        strip_boards: Mapping[str, str | None],
        record: BuiltRecord | None = None,
    ) -> None:
        self.description = description
        self.problems: list[Problem] = []
        self._ground = ground
        self._boards = strip_boards
        self._free = {id_: FreeWays(strip) for id_, strip in description.strips.items()}
        self._at_home = RecordedPlacer(description, record, self._free, strip_boards)
        spots = {id_: ground.spot(strip_boards[id_], strip.at) for id_, strip in description.strips.items()}
        self._spots = {id_: spot for id_, spot in spots.items() if spot is not None}
        self._on_board: dict[str | None, list[str]] = {}
        for id_ in sorted(description.strips, key=natural):
            self._on_board.setdefault(strip_boards[id_], []).append(id_)
        self._open = {board: list(strips) for board, strips in self._on_board.items()}

    def place(self, circuits: list[WantedCircuit]) -> dict[CircuitKey, list[PlacedGroup]]:
        """Circuit: its groups, in the circuit's own order.

        What is recorded comes first, then pinned ways, then named strips, then the rest.
        """
        found: dict[tuple[CircuitKey, int], PlacedGroup] = {}
        for turn in (self._recorded, self._pinned, self._completed, self._named, self._anywhere):
            for circuit in circuits:
                for number, group in enumerate(circuit.groups):
                    key = (circuit.key, number)
                    if key not in found and (placed := turn(circuit, group)) is not None:
                        found[key] = placed
        self.problems += self._at_home.problems
        return {
            circuit.key: [found[circuit.key, n] for n in range(len(circuit.groups)) if (circuit.key, n) in found]
            for circuit in circuits
        }

    def _recorded(self, circuit: WantedCircuit, group: WantedGroup) -> PlacedGroup | None:
        """Where the as-built record has it."""
        if group.home is not None and group.pins is not None:
            device, free = group.pinned_by[0], self._free[group.home.strip]
            problem = _form_problem(device.id, group.home.strip, group.pins, group, free.count)
            self._tell(problem, self._pin_place(device))
        return self._at_home.hold(circuit, group)

    def _completed(self, circuit: WantedCircuit, group: WantedGroup) -> PlacedGroup | None:
        """A recorded group with more rows than it had: only those are given ways, on its own strip."""
        if not self._at_home.keeps(group):
            return None
        placed, missing = self._at_home.complete(circuit, group)
        if placed is None and group.pins is None:
            device = group.devices[0]
            place = self.description.place_of_key(*device.path)
            self._full(device.id, missing, f"strip {group.strip}", place, [group.strip or ""])
        return placed

    def _pin_place(self, device: ResolvedDevice) -> Place:
        return self.description.place_of(*device.path, "ways" if device.given.ways else "way")

    def _tell(self, problem: tuple[str, str, str] | None, place: Place) -> None:
        """Adds a problem from its code, message and hint."""
        if problem is not None:
            code, message, hint = problem
            self.problems.append(Problem(code=code, message=message, hint=hint, place=place))

    def _pinned(self, circuit: WantedCircuit, group: WantedGroup) -> PlacedGroup | None:
        pins = group.pins
        if pins is None or self._at_home.keeps(group):
            return None
        device = group.pinned_by[0]
        place = self._pin_place(device)
        strip = group.strip or self._only_strip(group, device.id, place)
        if strip is None or strip not in self._free:
            return None
        free = self._free[strip]
        problem = _form_problem(device.id, strip, pins, group, free.count) or _held_problem(
            device.id, strip, pins, free
        )
        self._tell(problem, place)
        return self._take(circuit, group, strip, pins) if problem is None else None

    def _only_strip(self, group: WantedGroup, device: str, place: Place) -> str | None:
        strips = self._on_board.get(group.board, [])
        if len(strips) == 1:
            return strips[0]
        message = f"{device} names ways, but not on which strip"
        hint = f"Write `strip:` with one of {', '.join(strips)}." if strips else "Describe a strip under `strips:`."
        self.problems.append(Problem(code="bad-ways", message=message, hint=hint, place=place))
        return None

    def _named(self, circuit: WantedCircuit, group: WantedGroup) -> PlacedGroup | None:
        if group.pins is not None or group.strip is None or group.strip not in self._free or self._at_home.keeps(group):
            return None
        first = self._free[group.strip].first_run(nets_of(circuit, group))
        if first is not None:
            return self._take(circuit, group, group.strip, tuple(range(first, first + len(group.rows))))
        device = next(d for d in group.devices if d.given.strip == group.strip)
        place = self.description.place_of(*device.path, "strip")
        self._full(device.id, len(group.rows), f"strip {group.strip}", place, [group.strip])
        return None

    def _anywhere(self, circuit: WantedCircuit, group: WantedGroup) -> PlacedGroup | None:
        if group.pins is not None or group.strip is not None:
            return None
        nets = nets_of(circuit, group)
        for strip in self._nearest(group):
            first = self._free[strip].first_run(nets)
            if first is not None:
                return self._take(circuit, group, strip, tuple(range(first, first + len(group.rows))))
        device = group.devices[0]
        place = self.description.place_of_key(*device.path)
        where = "this railway" if group.board is None else f"board {group.board}"
        if strips := self._on_board.get(group.board):
            self._full(device.id, len(group.rows), f"any strip of {where}", place, strips)
        else:
            message = f"{device.id} needs {counted(len(group.rows))} of a strip, and {where} has no strip"
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
        nets = dict(zip(ways, nets_of(circuit, group), strict=True))
        self._free[strip].hold(nets, f"taken by {owner_of(circuit)}")
        if self._free[strip].is_full:
            self._open[self._boards[strip]].remove(strip)
        ways_by_row = dict(zip(group.rows, ways, strict=True))
        return PlacedGroup(wanted=group, board=self._boards[strip], strip=strip, ways=ways_by_row)

    def _full(self, device: str, ways: int, where: str, place: Place, strips: Iterable[str]) -> None:
        needed = counted(ways, "free way")
        together, them = (" side by side", "them") if ways > 1 else ("", "it")
        message = f"{device} needs {needed}{together}, and there is no room for {them} on {where}"
        freed = [f"{strip}.{way}" for strip in strips for way in self._free[strip].freed()]
        hint = "Give the strip more `ways:`, free some, or describe another strip."
        if len(freed) >= ways:
            more = f" and {len(freed) - 6} more" if len(freed) > 6 else ""
            hint += f" {', '.join(freed[:6])}{more} were freed: name them with `strip:` and `way:` or `ways:`."
        self.problems.append(Problem(code="strip-full", message=message, hint=hint, place=place))


def _form_problem(
    device: str, strip: str, pins: tuple[int, ...], group: WantedGroup, ways: int
) -> tuple[str, str, str] | None:
    """Code, message and hint of what is wrong with the ways that a device names, whoever has them. bad-ways."""
    if len(pins) != len(group.rows) or len(set(pins)) != len(pins):
        message = f"{device} takes {counted(len(group.rows))} on {strip}, but {counted(len(set(pins)))} are named"
        return "bad-ways", message, f"Name {len(group.rows)} different ways, in the order of the device's rows."
    others = [d for d in group.pinned_by if d.pins(len(group.rows)) != pins]
    if others:
        message = f"{others[0].id} shares its ways with {device}, but names others"
        return "bad-ways", message, "Name the ways at one of them only."
    if max(pins) > ways:
        message = f"{device} asks for way {max(pins)} of {strip}, which has {counted(ways)}"
        return "bad-ways", message, "Name ways that the strip has."
    return None


def _held_problem(device: str, strip: str, pins: tuple[int, ...], free: FreeWays) -> tuple[str, str, str] | None:
    """The same where one of them is held by another. way-taken."""
    for way in pins:
        if way in free.held:
            message = f"{device} asks for {strip}.{way}, which is {free.held[way]}"
            return "way-taken", message, "Name another way, or free that one."
    return None
