"""Circuits: a lever with the devices it works, or a device with no lever; and the groups of ways each needs."""

from dataclasses import dataclass

from labelgen.model.built.built_record import BuiltGroup
from labelgen.model.description import Description
from labelgen.model.kinds import LEVER_CONTACTS, ChainRow, GroupRow, Kind
from labelgen.natural_order import natural
from labelgen.problems import Problem
from labelgen.wiring.recorded_groups import Homes, circuit_of
from labelgen.wiring.resolving import ResolvedDevice

SWAP_PAIRS = {"normal": "reverse", "reverse": "normal", "drive-a": "drive-b", "drive-b": "drive-a"}
"""Functions that change places at a motor with `swapped: yes`."""

CircuitKey = tuple[bool, str]
"""Whether a lever works it; the id of the lever, else of the device."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WantedGroup:
    """The ways that a circuit needs on one strip, before they are found."""

    board: str | None
    strip: str | None
    """The strip that its devices name."""
    devices: tuple[ResolvedDevice, ...]
    rows: tuple[int, ...]
    """Which rows of the kind's group it carries."""
    home: BuiltGroup | None = None
    """What the as-built record says of it; a group that is recorded keeps the ways that it has there."""

    @property
    def pinned_by(self) -> list[ResolvedDevice]:
        """The devices that name the ways of this group."""
        return [device for device in self.devices if device.pins(len(self.rows)) is not None]

    @property
    def pins(self) -> tuple[int, ...] | None:
        """The ways that the builder named, in row order; the first device that names any decides."""
        return self.pinned_by[0].pins(len(self.rows)) if self.pinned_by else None


@dataclass(frozen=True, slots=True, kw_only=True)
class WantedCircuit:
    id: str
    lever: str | None
    lever_type: str | None
    devices: tuple[ResolvedDevice, ...]
    groups: tuple[WantedGroup, ...]

    @property
    def key(self) -> CircuitKey:
        """A lever and a device may have the same id."""
        return (self.lever is not None, self.id)

    def rows(self) -> list[tuple[int, GroupRow]]:
        """The rows of the kind's group that this lever needs, with their positions in the kind."""
        return [(n, row) for n, row in enumerate(self.kind.group) if row.needed_with(self.lever_type)]

    def chain_rows(self) -> list[tuple[int, ChainRow]]:
        return [(n, row) for n, row in enumerate(self.kind.chain) if row.needed_with(self.lever_type)]

    @property
    def first(self) -> ResolvedDevice:
        return self.devices[0]

    @property
    def kind(self) -> Kind:
        return self.first.kind


def wanted_circuits(
    description: Description, devices: list[ResolvedDevice], homes: Homes
) -> tuple[list[WantedCircuit], list[Problem]]:
    """Circuits with a lever in natural order of lever, then those without in natural order of device.

    Reports lever-works-two-kinds, lever-lacks-contact and cannot-swap.
    """
    by_lever: dict[str, list[ResolvedDevice]] = {}
    for device in devices:
        if device.lever is not None:
            by_lever.setdefault(device.lever, []).append(device)
    problems: list[Problem] = []
    circuits = []
    for lever in sorted(by_lever, key=natural):
        problems += _lever_problems(description, lever, by_lever[lever])
        alike = tuple(device for device in by_lever[lever] if _alike(device, by_lever[lever][0]))
        circuits.append(_circuit(description, lever, lever, alike, homes))
    without = [device for device in devices if device.lever is None]
    circuits += [_circuit(description, device.id, None, (device,), homes) for device in without]
    problems += [problem for device in devices for problem in _swap_problems(description, device)]
    return circuits, problems


def _alike(device: ResolvedDevice, other: ResolvedDevice) -> bool:
    return (device.kind_name, device.supplies) == (other.kind_name, other.supplies)


def _circuit(
    description: Description,
    id_: str,
    lever: str | None,
    devices: tuple[ResolvedDevice, ...],
    homes: Homes,
) -> WantedCircuit:
    lever_type = _lever_type(description, lever, devices[0])
    groups = _groups(description, devices, lever_type, homes)
    return WantedCircuit(id=id_, lever=lever, lever_type=lever_type, devices=devices, groups=groups)


def _lever_type(description: Description, lever: str | None, device: ResolvedDevice) -> str | None:
    """As the lever says, else as the kind does."""
    given = description.levers.get(lever or "")
    return ((given.type if given else None) or device.kind.lever_type) if lever else None


def _groups(
    description: Description,
    devices: tuple[ResolvedDevice, ...],
    lever_type: str | None,
    homes: Homes,
) -> tuple[WantedGroup, ...]:
    """One group for each strip that devices name, and for each board; only the first carries the chained rows.

    Where each device switches something of its own, one group for each: crossings must not be joined.
    """
    groups: list[WantedGroup] = []
    members = _members(devices, homes) if devices[0].kind.shares_ways else _one_each(devices, homes)
    for (board, strip, number), together in members:
        rows = _rows(description, devices[0], lever_type, first=not groups)
        if rows:
            home = homes.groups[number] if number is not None else None
            groups.append(WantedGroup(board=board, strip=strip, devices=tuple(together), rows=rows, home=home))
    return tuple(groups)


GroupPlace = tuple[str | None, str | None, int | None]
"""Board, strip, position in the record."""


def _members(devices: tuple[ResolvedDevice, ...], homes: Homes) -> list[tuple[GroupPlace, list[ResolvedDevice]]]:
    """The devices that share a group. Recorded groups come first, the circuit's own before others; newcomers join."""
    places = _recorded_places(devices, homes)
    recorded = list(dict.fromkeys(places.values()))
    named = [device.given.strip for device in devices if device.given.strip]
    named_on = {homes.boards.get(strip): strip for strip in reversed(named)}
    members: dict[GroupPlace, list[ResolvedDevice]] = {place: [] for place in recorded}
    for device in devices:
        strip_named = device.given.strip
        joined = (p for p in recorded if p[1] == strip_named or (strip_named is None and p[0] == device.board))
        if (known := places.get(device.id) or next(joined, None)) is not None:
            members[known].append(device)
            continue
        strip_chosen = strip_named or named_on.get(device.board)
        board = homes.boards.get(strip_chosen) if strip_chosen else device.board
        members.setdefault((board, strip_chosen, None), []).append(device)
    return list(members.items())


def _one_each(devices: tuple[ResolvedDevice, ...], homes: Homes) -> list[tuple[GroupPlace, list[ResolvedDevice]]]:
    """A group for each device. Recorded groups come first here too: the first one carries the chained rows."""
    places = _recorded_places(devices, homes)
    by_id = {device.id: device for device in devices}
    found: list[tuple[GroupPlace, list[ResolvedDevice]]] = [(place, [by_id[id_]]) for id_, place in places.items()]
    for device in devices:
        if device.id not in places:
            strip = device.given.strip
            found.append(((homes.boards.get(strip) if strip else device.board, strip, None), [device]))
    return found


def _recorded_places(devices: tuple[ResolvedDevice, ...], homes: Homes) -> dict[str, GroupPlace]:
    """Device: where the record has its group; those of the circuit's own groups first, in the order of the record."""
    own = circuit_of(devices[0])
    known = [(homes.of[device.id], device.id) for device in devices if device.id in homes.of]
    known.sort(key=lambda one: (homes.groups[one[0]].key != own, one[0]))
    strips = {number: homes.groups[number].strip for number, _ in known}
    return {id_: (homes.boards.get(strips[number]), strips[number], number) for number, id_ in known}


def _rows(description: Description, device: ResolvedDevice, lever_type: str | None, *, first: bool) -> tuple[int, ...]:
    chosen = []
    for number, row in enumerate(device.kind.group):
        if not row.needed_with(lever_type):
            continue
        if row.chain is None or device.kind.is_own(row) or (first and not _fed_behind_panel(description, device, row)):
            chosen.append(number)
    return tuple(chosen)


def _fed_behind_panel(description: Description, device: ResolvedDevice, row: GroupRow) -> bool:
    """Whether a chained row serves the lever alone, and its supply feeds the levers behind the panel."""
    assert row.chain is not None
    supply, _ = device.fed_from(row.chain)
    return description.supplies[supply].feed_at == "panel" and row.contact is not None and row.terminal is None


def _lever_problems(description: Description, lever: str, devices: list[ResolvedDevice]) -> list[Problem]:
    first = devices[0]
    problems = [
        Problem(
            code="lever-works-two-kinds",
            message=f"lever {lever} works {first.id} ({_what(first)}) and {other.id} ({_what(other)})",
            hint="One lever works devices of one kind on one supply: give one of them another lever.",
            place=description.place_of_key(*other.path),
        )
        for other in devices[1:]
        if not _alike(other, first)
    ]
    lever_type = _lever_type(description, lever, first)
    contacts = LEVER_CONTACTS.get(lever_type or "")
    rows: list[GroupRow | ChainRow] = [*first.kind.group, *first.kind.chain]
    needed = [row.contact for row in rows if row.contact is not None and row.needed_with(lever_type)]
    missing = [contact for contact in needed if contacts is not None and contact not in contacts]
    if missing:
        problems.append(
            Problem(
                code="lever-lacks-contact",
                message=f"lever {lever} is {lever_type}, which has no contact {missing[0]}; "
                f"{first.id} ({first.kind_name}) needs {', '.join(needed)}",
                hint=f"The contacts of {lever_type} are {', '.join(contacts or ())}. "
                f"Write `type: {first.kind.lever_type}`, or leave `type` out.",
                place=description.place_of("levers", lever, "type"),
            )
        )
    return problems


def _what(device: ResolvedDevice) -> str:
    return f"{device.kind_name} on {', '.join(device.supplies.values())}"


def _swap_problems(description: Description, device: ResolvedDevice) -> list[Problem]:
    if not device.given.swapped or any(terminal_for(device, row) != row.terminal for row in device.kind.group):
        return []
    return [
        Problem(
            code="cannot-swap",
            message=f"{device.id} is of the kind {device.kind_name}, which has no pair of terminals to change places",
            hint="Take `swapped: yes` away.",
            place=description.place_of(*device.path, "swapped"),
        )
    ]


def terminal_for(device: ResolvedDevice, row: GroupRow) -> str | None:
    """The terminal of a row; of a swapped device, that of the row whose function changes places with it."""
    partner = SWAP_PAIRS.get(row.function)
    if device.given.swapped and row.terminal is not None:
        for other in device.kind.group:
            if other.function == partner and other.mark == row.mark and other.terminal is not None:
                return other.terminal
    return row.terminal
