"""What each device, strip and lever belongs to, once the defaults have been worked out.

A thing that refers to something unknown is left out here without a word: the reading stage has said so already.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from labelgen.model.description import Description, Device, Supply
from labelgen.model.kinds import DEFAULT_POINT_KIND, SUPPLY_TERMINALS, Kind, SupplyKind
from labelgen.model.worked_levers import lever_of
from labelgen.natural_order import natural
from labelgen.places import Path
from labelgen.problems import Problem


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedDevice:
    """A device whose kind and board are known."""

    id: str
    given: Device
    path: Path
    kind_name: str
    kind: Kind
    lever: str | None
    board: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class ResolvedDevice(PlacedDevice):
    """A device with everything filled in that it left to the defaults."""

    supplies: Mapping[str, str]
    """What it is for (as the kind says): the supply."""

    @property
    def supply(self) -> str:
        """Its only supply, or the first that its kind names."""
        return next(iter(self.supplies.values()))

    def fed_from(self, reference: str) -> tuple[str, str]:
        """The supply and its terminal that a row of the kind names."""
        role, terminal = self.kind.reference(reference)
        return self.supplies[role], terminal

    @property
    def above(self) -> bool:
        """Whether it stands on the board's upper side."""
        return self.kind.above if self.given.above is None else self.given.above

    def pins(self, rows: int) -> tuple[int, ...] | None:
        """The ways that the builder named for a group of so many rows."""
        if self.given.ways:
            return self.given.ways
        return None if self.given.way is None else tuple(range(self.given.way, self.given.way + rows))


@dataclass(frozen=True, slots=True, kw_only=True)
class Boards:
    """The board on which each strip, panel and supply is; None where no boards are described or it is not said."""

    strips: Mapping[str, str | None]
    panels: Mapping[str, str | None]
    supplies: Mapping[str, str | None]


def only(things: Mapping[str, object]) -> str | None:
    """The id of the only thing there is, else None."""
    return next(iter(things)) if len(things) == 1 else None


def supplies_given(description: Description, kinds: Mapping[str, Kind]) -> dict[str, Supply]:
    """Devices that serve as a supply themselves (`gives` of their kind), each as the supply that it makes.

    It gives what it takes: the kind of that of its own supplies which has such terminals, else dc. On a digital
    railway rails are digital. Nothing is fed from it by default: it has to be named.
    """
    there = {supply.kind for supply in description.supplies.values()}
    found: dict[str, Supply] = {}
    for id_, device in {**description.points, **description.devices}.items():
        kind = kinds.get(device.kind or "")
        if kind is None or not kind.gives:
            continue
        alike = [name for name in kind.supply.values() if set(kind.gives) <= set(SUPPLY_TERMINALS[name])]
        named = description.supplies.get(device.supply or "")
        if "track" in alike[:1] and (named.kind == "digital" if named else "digital" in there and "track" not in there):
            alike = ["digital"]
        board = device.board or (description.strips[device.strip].board if device.strip in description.strips else None)
        found[id_] = Supply(kind=alike[0] if alike else "dc", board=board, at=device.at, shown=device.shown)
    return found


class Resolver:
    """Works out the defaults of one description."""

    def __init__(self, description: Description, kinds: Mapping[str, Kind]) -> None:
        given_by_devices = supplies_given(description, {**kinds, **description.kinds})
        description = description.with_supplies(given_by_devices)
        self.description = description
        self.kinds = {**kinds, **description.kinds}
        self.problems: list[Problem] = []
        self._unfed: dict[SupplyKind, dict[str, PlacedDevice]] = {}
        """By the kind of supply that is nowhere described: the devices that need one."""
        self.boards = Boards(
            strips={id_: self._strip_board(id_) for id_ in description.strips},
            panels={id_: panel.board or only(description.boards) for id_, panel in description.panels.items()},
            supplies={id_: supply.board or only(description.boards) for id_, supply in description.supplies.items()},
        )
        self._supplies_in_order = sorted((s for s in description.supplies if s not in given_by_devices), key=natural)

    def devices(self) -> list[ResolvedDevice]:
        """Every device in natural order of id; those with problems left out and reported."""
        ids = sorted([*self.description.points, *self.description.devices], key=natural)
        found = [self._device(id_) for id_ in ids]
        self.problems += [self._no_supply(needed, list(unfed.values())) for needed, unfed in self._unfed.items()]
        return [device for device in found if device is not None]

    def _device(self, id_: str) -> ResolvedDevice | None:
        is_point = id_ in self.description.points
        given = self.description.points[id_] if is_point else self.description.devices[id_]
        known, board = self._device_board(id_, given)
        if not known:
            return None
        board_kind = self.description.boards[board].kind if board in self.description.boards else None
        kind_name = given.kind or board_kind or (DEFAULT_POINT_KIND if is_point else None)
        kind = self.kinds.get(kind_name or "")
        if kind_name is None or kind is None:
            return None
        placed = PlacedDevice(
            id=id_,
            given=given,
            path=self.description.device_path(id_),
            kind_name=kind_name,
            kind=kind,
            lever=lever_of(id_, given, is_point=is_point),
            board=board,
        )
        supplies = self._supplies(placed)
        if supplies is None:
            return None
        return ResolvedDevice(**{name: getattr(placed, name) for name in placed.__slots__}, supplies=supplies)

    def _device_board(self, id_: str, given: Device) -> tuple[bool, str | None]:
        """Whether the board is known, and which; None where no boards are described at all."""
        boards = self.description.boards
        if given.board is not None:
            return given.board in boards, given.board
        if given.strip is not None:
            return given.strip in self.boards.strips, self.boards.strips.get(given.strip)
        if given.panel is not None:
            return given.panel in self.boards.panels, self.boards.panels.get(given.panel)
        if len(boards) > 1:
            self.problems.append(
                Problem(
                    code="no-board",
                    message=f"{id_} does not say on which board it is",
                    hint=f"Write `board:` with one of {_listed(boards)}.",
                    place=self.description.place_of_key(*self.description.device_path(id_)),
                )
            )
            return False, None
        return True, only(boards)

    def _strip_board(self, id_: str) -> str | None:
        given = self.description.strips[id_].board
        if given is None and len(self.description.boards) > 1:
            self.problems.append(
                Problem(
                    code="no-board",
                    message=f"strip {id_} does not say on which board it is",
                    hint=f"Write `board:` with one of {_listed(self.description.boards)}.",
                    place=self.description.place_of_key("strips", id_),
                )
            )
        return given or only(self.description.boards)

    def _supplies(self, device: PlacedDevice) -> dict[str, str] | None:
        """The supply for each of the kind's roles; None when one is missing or unknown."""
        needed, named = set(device.kind.supply.values()), device.given.supply
        if named is not None and not self._fits(named, needed):
            self._wrong(device, needed, named, "supply")
            return None
        found = {role: self._supply(device, role) for role in device.kind.supply}
        known = {role: supply for role, supply in found.items() if supply is not None}
        return known if len(known) == len(found) else None

    def _fits(self, supply: str, kinds: set[SupplyKind]) -> bool:
        """Whether a supply is of one of those kinds; an unknown one has been reported, and fits.

        Rails that a controller can feed, a digital supply can feed as well.
        """
        named = self.description.supplies.get(supply)
        return named is None or named.kind in kinds or (named.kind == "digital" and "track" in kinds)

    def _supply(self, device: PlacedDevice, role: str) -> str | None:
        supplies, needed = self.description.supplies, device.kind.supply[role]
        if (named := device.given.supplies.get(role)) is not None:
            if self._fits(named, {needed}):
                return named if named in supplies else None
            self._wrong(device, {needed}, named, "supplies", role)
            return None
        if (named := device.given.supply) is not None and self._fits(named, {needed}):
            return named if named in supplies else None
        default = self.description.boards[device.board].supply if device.board in self.description.boards else None
        if default in supplies and self._fits(default, {needed}):
            return default
        return self._only_supply_that_fits(device, needed)

    def _wrong(self, device: PlacedDevice, needed: set[SupplyKind], named: str, *key: str) -> None:
        given, wanted = self.description.supplies[named].kind, " or ".join(sorted(needed))
        self.problems.append(
            Problem(
                code="wrong-supply",
                message=f"{device.id} is of the kind {device.kind_name}, which needs a {wanted} supply, "
                f"but {named} is a {given} supply",
                hint=f"Name a {wanted} supply, or another kind of device.",
                place=self.description.place_of(*device.path, *key),
            )
        )

    def _only_supply_that_fits(self, device: PlacedDevice, needed: SupplyKind) -> str | None:
        alike = [name for name in self._supplies_in_order if self.description.supplies[name].kind == needed]
        fitting = alike or [name for name in self._supplies_in_order if self._fits(name, {needed})]
        if len(fitting) == 1:
            return fitting[0]
        place = self.description.place_of_key(*device.path)
        if fitting:
            self.problems.append(
                Problem(
                    code="several-supplies-fit",
                    message=f"{device.id} does not say which supply feeds it: {_listed(fitting)} would fit",
                    hint=f"Write `supply: {fitting[0]}` (or another of them) at {device.id}, or at its board.",
                    place=place,
                )
            )
        else:
            self._unfed.setdefault(needed, {})[device.id] = device
        return None

    def _no_supply(self, needed: SupplyKind, unfed: list[PlacedDevice]) -> Problem:
        """Once for all devices that need it: one forgotten line is one mistake."""
        first, names = unfed[0], _listed([device.id for device in unfed])
        what = f"{first.id} is of the kind {first.kind_name}, which needs a {needed} supply; none is described"
        if len(unfed) > 1:
            what = f"{len(unfed)} devices need a {needed} supply, and none is described: {names}"
        return Problem(
            code="no-supply-fits",
            message=what,
            hint=f"Describe one under `supplies:`, with `kind: {needed}`.",
            place=self.description.place_of_key(*first.path),
        )


def _listed(names: Mapping[str, object] | list[str]) -> str:
    ordered = sorted(names, key=natural)
    shown = ", ".join(ordered[:8])
    return shown if len(ordered) <= 8 else f"{shown} and {len(ordered) - 8} more"
