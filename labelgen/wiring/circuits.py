"""Circuits: a lever with the devices it works, or a device with no lever; and the groups of ways each needs."""

from collections.abc import Mapping
from dataclasses import dataclass

from labelgen.model.description import Description
from labelgen.model.kinds import LEVER_CONTACTS, GroupRow, Kind
from labelgen.natural_order import natural
from labelgen.problems import Problem
from labelgen.wiring.resolving import ResolvedDevice

SWAP_PAIRS = {"normal": "reverse", "reverse": "normal", "drive-a": "drive-b", "drive-b": "drive-a"}
"""Functions that change places at a motor with `swapped: yes`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WantedGroup:
    """The ways that a circuit needs on one strip, before they are found."""

    board: str | None
    strip: str | None
    """The strip that its devices name."""
    devices: tuple[ResolvedDevice, ...]
    rows: tuple[int, ...]
    """Which rows of the kind's group it carries."""

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
    devices: tuple[ResolvedDevice, ...]
    groups: tuple[WantedGroup, ...]

    @property
    def first(self) -> ResolvedDevice:
        return self.devices[0]

    @property
    def kind(self) -> Kind:
        return self.first.kind


def wanted_circuits(
    description: Description, devices: list[ResolvedDevice], strip_boards: Mapping[str, str | None]
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
        groups = _groups(description, alike, strip_boards)
        circuits.append(WantedCircuit(id=lever, lever=lever, devices=alike, groups=groups))
    for device in devices:
        if device.lever is None:
            groups = _groups(description, (device,), strip_boards)
            circuits.append(WantedCircuit(id=device.id, lever=None, devices=(device,), groups=groups))
    problems += [problem for device in devices for problem in _swap_problems(description, device)]
    return circuits, problems


def _alike(device: ResolvedDevice, other: ResolvedDevice) -> bool:
    return (device.kind_name, device.supply) == (other.kind_name, other.supply)


def _groups(
    description: Description, devices: tuple[ResolvedDevice, ...], strip_boards: Mapping[str, str | None]
) -> tuple[WantedGroup, ...]:
    """One group for each strip that devices name, and for each board; only the first carries the chained rows."""
    named = [device.given.strip for device in devices if device.given.strip]
    named_on = {strip_boards.get(strip): strip for strip in reversed(named)}
    members: dict[tuple[str | None, str | None], list[ResolvedDevice]] = {}
    for device in devices:
        strip = device.given.strip or named_on.get(device.board)
        board = strip_boards.get(strip) if strip else device.board
        members.setdefault((board, strip), []).append(device)
    groups: list[WantedGroup] = []
    for (board, strip), together in members.items():
        rows = _rows(description, devices[0], first=not groups)
        if rows:
            groups.append(WantedGroup(board=board, strip=strip, devices=tuple(together), rows=rows))
    return tuple(groups)


def _rows(description: Description, device: ResolvedDevice, *, first: bool) -> tuple[int, ...]:
    supply = description.supplies[device.supply]
    chosen = []
    for number, row in enumerate(device.kind.group):
        fed_behind_panel = supply.feed_at == "panel" and row.contact is not None and row.terminal is None
        if row.chain is None or (first and not fed_behind_panel):
            chosen.append(number)
    return tuple(chosen)


def _lever_problems(description: Description, lever: str, devices: list[ResolvedDevice]) -> list[Problem]:
    first = devices[0]
    problems = [
        Problem(
            code="lever-works-two-kinds",
            message=f"lever {lever} works {first.id} ({first.kind_name} on {first.supply}) "
            f"and {other.id} ({other.kind_name} on {other.supply})",
            hint="One lever works devices of one kind on one supply: give one of them another lever.",
            place=description.place_of_key(*other.path),
        )
        for other in devices[1:]
        if not _alike(other, first)
    ]
    given = description.levers.get(lever)
    lever_type = (given.type if given else None) or first.kind.lever_type
    contacts = LEVER_CONTACTS.get(lever_type or "")
    needed = [row.contact for row in first.kind.group if row.contact is not None]
    missing = [contact for contact in needed if contacts is not None and contact not in contacts]
    if missing:
        problems.append(
            Problem(
                code="lever-lacks-contact",
                message=f"lever {lever} is {lever_type}, which has no contact {missing[0]}; "
                f"{first.id} ({first.kind_name}) needs {', '.join(needed)}",
                hint=f"The contacts of {lever_type} are {', '.join(contacts or ())}. Choose another `type:`.",
                place=description.place_of("levers", lever, "type"),
            )
        )
    return problems


def _swap_problems(description: Description, device: ResolvedDevice) -> list[Problem]:
    if not device.given.swapped or any(terminal_for(device, row) != row.terminal for row in device.kind.group):
        return []
    return [
        Problem(
            code="cannot-swap",
            message=f"{device.id} is a {device.kind_name}, which has no pair of terminals to change places",
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
