"""Which recorded group each device belongs to: what the as-built record holds comes first and never moves."""

from collections.abc import Mapping

from labelgen.model.built.built_record import BuiltGroup, BuiltRecord
from labelgen.model.description import Description
from labelgen.model.kinds import Kind
from labelgen.natural_order import natural
from labelgen.places import Path
from labelgen.problems import Problem
from labelgen.wiring.resolving import ResolvedDevice

HINT = (
    "Put it back as it was. If it was really wired anew, write `accepted: {moved: why}` beside {device}: its old ways"
    " then become spare, and its new wires get new numbers."
)

LeverOrDevice = tuple[bool, str]


def row_labels(kind: Kind) -> list[str]:
    """How the record calls the rows of a kind: by function and mark, those that are called alike also by number."""
    seen: dict[str, int] = {}
    labels = []
    for row in kind.group:
        label = f"{row.function} {row.mark}".strip()
        seen[label] = seen.get(label, 0) + 1
        labels.append(label if seen[label] == 1 else f"{label} #{seen[label]}")
    return labels


def moved(description: Description, device: ResolvedDevice, message: str, path: Path) -> Problem:
    hint = HINT.replace("{device}", device.id)
    return Problem(code="moved", message=message, hint=hint, place=description.place_of(*path))


class Homes:
    """Device: the position of its group in the record. Reports moved."""

    def __init__(
        self,
        description: Description,
        record: BuiltRecord,
        devices: list[ResolvedDevice],
        strip_boards: Mapping[str, str | None],
    ) -> None:
        self.groups = record.groups
        self.problems: list[Problem] = []
        self._description = description
        self.boards = strip_boards
        self._of_device = {device: n for n, group in enumerate(record.groups) for device in group.devices}
        self._left: set[str] = set()
        """Devices that were accepted to have moved."""
        self._given_up: set[int] = set()
        """The groups that those left."""
        self.of: dict[str, int] = self._claimed(devices)
        self.of |= self._inherited(devices)

    def _claimed(self, devices: list[ResolvedDevice]) -> dict[str, int]:
        """Each device keeps its group; where devices of one group are now worked apart, the circuit that had it."""
        kinds = {device.id: device.kind for device in devices}
        claims: dict[int, dict[LeverOrDevice, list[str]]] = {}
        for device in devices:
            number = self._of_device.get(device.id)
            if number is not None and self._may_stay(device, number):
                claims.setdefault(number, {}).setdefault(circuit_of(device), []).append(device.id)
        found: dict[str, int] = {}
        for number, by_circuit in claims.items():
            first = min(by_circuit, key=lambda key: (not key[0], natural(key[1])))
            key = self.groups[number].key if self.groups[number].key in by_circuit else first
            found |= dict.fromkeys(self._sharing(by_circuit[key], kinds), number)
        return found

    @staticmethod
    def _sharing(devices: list[str], kinds: Mapping[str, Kind]) -> list[str]:
        """Of those that had a group together: the first alone, where each needs one of its own."""
        return devices if kinds[devices[0]].shares_ways else devices[:1]

    def _may_stay(self, device: ResolvedDevice, number: int) -> bool:
        group = self.groups[number]
        if (fault := self._fault(device, group)) is not None:
            if "moved" in device.given.accepted:
                self._left.add(device.id)
                self._given_up.add(number)
                return False
            message, path = fault
            self.problems.append(moved(self._description, device, message, path))
        return self._is_there(group) and bool(group.ways.keys() & set(row_labels(device.kind)))

    def _is_there(self, group: BuiltGroup) -> bool:
        strip = self._description.strips.get(group.strip)
        return strip is not None and max(group.ways.values(), default=0) <= strip.ways

    def _fault(self, device: ResolvedDevice, group: BuiltGroup) -> tuple[str, Path] | None:
        """What in the description differs from the record, and where that is written."""
        wired = f"{device.id} is wired to {_ways(group)} of strip {group.strip}"
        strip = self._description.strips.get(group.strip)
        if strip is None:
            return f"{wired}, and there is no strip {group.strip} any more", device.path
        if device.given.strip is not None and device.given.strip != group.strip:
            return f"{wired}, and is now to be on strip {device.given.strip}", (*device.path, "strip")
        if device.given.strip is None and self.boards[group.strip] != device.board:
            return f"{wired}, which is not on {device.id}'s board {device.board}", (*device.path, "board")
        if max(group.ways.values(), default=0) > strip.ways:
            return f"{wired}, which now has only {strip.ways}", ("strips", group.strip, "ways")
        other = next(
            ((way, key) for way in group.ways.values() for key in ("taken", "keep") if way in getattr(strip, key)), None
        )
        if other is not None:
            use = "to be kept free" if other[1] == "keep" else f"taken for {strip.taken[other[0]]}"
            return f"{wired}, and way {other[0]} is now {use}", ("strips", group.strip, other[1])
        return None

    def _inherited(self, devices: list[ResolvedDevice]) -> dict[str, int]:
        """A new device takes the place of those of its circuit that are gone, on a strip of its own board."""
        kept = {*self.of.values(), *self._given_up}
        orphans: dict[LeverOrDevice, list[int]] = {}
        for number, group in enumerate(self.groups):
            if number not in kept and self._is_there(group):
                orphans.setdefault(group.key, []).append(number)
        found: dict[str, int] = {}
        for device in devices:
            new = device.id not in self.of and device.id not in self._left
            left = orphans.get(circuit_of(device), []) if new else []
            fitting = [number for number in left if self._fits(device, self.groups[number])]
            for number in fitting[:1]:
                found[device.id] = number
                if not device.kind.shares_ways:
                    left.remove(number)
        return found

    def _fits(self, device: ResolvedDevice, group: BuiltGroup) -> bool:
        names_ways = device.given.way is not None or bool(device.given.ways)
        alike = bool(group.ways.keys() & set(row_labels(device.kind)))
        return alike and not names_ways and self._fault(device, group) is None


def circuit_of(device: ResolvedDevice) -> LeverOrDevice:
    """The key of the circuit that a device belongs to."""
    return (device.lever is not None, device.lever or device.id)


def _ways(group: BuiltGroup) -> str:
    ways = sorted(group.ways.values())
    return f"way {ways[0]}" if len(ways) == 1 else f"the ways {', '.join(map(str, ways))}"
