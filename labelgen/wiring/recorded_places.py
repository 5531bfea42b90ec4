"""Places the groups that the as-built record knows, where they are: before all others, and never elsewhere."""

from collections.abc import Hashable, Mapping

from labelgen.model.built.built_record import BuiltRecord
from labelgen.model.description import Description
from labelgen.problems import Problem
from labelgen.wiring.bridges import nets_of
from labelgen.wiring.circuits import WantedCircuit, WantedGroup
from labelgen.wiring.placed_groups import FreeWays, PlacedGroup, owner_of
from labelgen.wiring.recorded_groups import moved, row_labels


class RecordedPlacer:
    """Gives recorded groups their ways. Reports moved and way-taken."""

    def __init__(
        self,
        description: Description,
        record: BuiltRecord | None,
        free: Mapping[str, FreeWays],
        strip_boards: Mapping[str, str | None],
    ) -> None:
        """Reserves every way of the record: what is not kept below stays spare until somebody names it."""
        self.problems: list[Problem] = []
        self._description = description
        self._free = free
        self._boards = strip_boards
        self._let_go: set[int] = set()
        """Groups (by identity) that were accepted to move to the ways that they name."""
        for strip, way in record.spare_heads if record else ():
            if strip in free:
                free[strip].reserved.add(way)

    def keeps(self, group: WantedGroup) -> bool:
        """Whether a group stays where the record says that it is."""
        return group.home is not None and id(group) not in self._let_go

    def hold(self, circuit: WantedCircuit, group: WantedGroup) -> PlacedGroup | None:
        """Holds the ways that the record gives to a group; the group itself, when that is all that it needs."""
        if group.home is None:
            return None
        ways = recorded_ways(circuit, group)
        if self._goes_elsewhere(group, ways):
            self._let_go.add(id(group))
            return None
        self._free[group.home.strip].hold(_nets(circuit, group, ways), f"taken by {owner_of(circuit)}")
        return self._placed(group, ways) if len(ways) == len(group.rows) else None

    def _goes_elsewhere(self, group: WantedGroup, ways: Mapping[int, int]) -> bool:
        """Whether the devices name other ways than the record, and that is accepted."""
        for device in group.pinned_by:
            named = device.pins(len(group.rows)) or ()
            pins = dict(zip(group.rows, named, strict=False))
            if all(pins.get(row, way) == way for row, way in ways.items()):
                continue
            if "moved" in device.given.accepted:
                return True
            message = f"{device.id} is wired to {_listed(group, ways)}, and is now to have {_listed(group, pins)}"
            path = (*device.path, "ways" if device.given.ways else "way")
            self.problems.append(moved(self._description, device, message, path))
        return False

    def complete(self, circuit: WantedCircuit, group: WantedGroup) -> tuple[PlacedGroup | None, int]:
        """A group with more rows than it had: those get the ways that are named, else the first run; and how many.

        None: there is no room for them; or what is named is taken, which is reported.
        """
        ways = recorded_ways(circuit, group)
        missing = [row for row in group.rows if row not in ways]
        free = self._free[group.strip or ""]
        named = dict(zip(group.rows, group.pins or (), strict=False))
        if group.pins is None:
            nets = dict(zip(group.rows, nets_of(circuit, group), strict=True))
            first = free.first_run([nets[row] for row in missing])
            named = dict(zip(missing, range(first, first + len(missing)), strict=True)) if first is not None else {}
        new = {row: named[row] for row in missing if row in named}
        if len(new) < len(missing) or self._is_taken(group, new, free):
            return None, len(missing)
        free.hold(_nets(circuit, group, new), f"taken by {owner_of(circuit)}")
        return self._placed(group, {row: {**ways, **new}[row] for row in group.rows}), len(missing)

    def _is_taken(self, group: WantedGroup, new: Mapping[int, int], free: FreeWays) -> bool:
        taken = [way for way in new.values() if way in free.held]
        for way in taken[:1]:
            device = group.pinned_by[0]
            message = f"{device.id} asks for {group.strip}.{way}, which is {free.held[way]}"
            place = self._description.place_of(*device.path, "ways" if device.given.ways else "way")
            hint = "Name another way, or free that one."
            self.problems.append(Problem(code="way-taken", message=message, hint=hint, place=place))
        return bool(taken)

    def _placed(self, group: WantedGroup, ways: Mapping[int, int]) -> PlacedGroup:
        strip = group.strip or ""
        return PlacedGroup(wanted=group, board=self._boards[strip], strip=strip, ways=ways)


def recorded_ways(circuit: WantedCircuit, group: WantedGroup) -> dict[int, int]:
    """Row of the kind: the way that the record gives to it, in row order."""
    labels = row_labels(circuit.kind)
    known = group.home.ways if group.home is not None else {}
    return {row: known[labels[row]] for row in group.rows if labels[row] in known}


def _nets(circuit: WantedCircuit, group: WantedGroup, ways: Mapping[int, int]) -> dict[int, Hashable]:
    """Way: the net on which its row lies. `ways`: by row."""
    return {ways[row]: net for row, net in zip(group.rows, nets_of(circuit, group), strict=True) if row in ways}


def _listed(group: WantedGroup, ways: Mapping[int, int]) -> str:
    return ", ".join(f"{group.strip}.{way}" for way in ways.values())
