"""What each device, strip and lever belongs to, once the defaults have been worked out.

A thing that refers to something unknown is left out here without a word: the reading stage has said so already.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from labelgen.model.description import Description, Device
from labelgen.model.kinds import Kind
from labelgen.model.worked_levers import lever_of
from labelgen.natural_order import natural
from labelgen.places import Path
from labelgen.problems import Problem

DEFAULT_POINT_KIND = "twin-coil"


@dataclass(frozen=True, slots=True, kw_only=True)
class ResolvedDevice:
    """A device with everything filled in that it left to the defaults."""

    id: str
    given: Device
    path: Path
    kind_name: str
    kind: Kind
    lever: str | None
    board: str | None
    supply: str

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


class Resolver:
    """Works out the defaults of one description."""

    def __init__(self, description: Description, kinds: Mapping[str, Kind]) -> None:
        self.description = description
        self.kinds = {**kinds, **description.kinds}
        self.problems: list[Problem] = []
        self.boards = Boards(
            strips={id_: self._strip_board(id_) for id_ in description.strips},
            panels={id_: panel.board or only(description.boards) for id_, panel in description.panels.items()},
            supplies={id_: supply.board or only(description.boards) for id_, supply in description.supplies.items()},
        )
        self._supplies_in_order = sorted(description.supplies, key=natural)

    def devices(self) -> list[ResolvedDevice]:
        """Every device in natural order of id; those with problems left out and reported."""
        ids = sorted([*self.description.points, *self.description.devices], key=natural)
        found = (self._device(id_) for id_ in ids)
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
        supply = self._supply(id_, given, kind_name, kind, board)
        if supply is None:
            return None
        return ResolvedDevice(
            id=id_,
            given=given,
            path=self.description.device_path(id_),
            kind_name=kind_name,
            kind=kind,
            lever=lever_of(id_, given, is_point=is_point),
            board=board,
            supply=supply,
        )

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

    def _supply(self, id_: str, given: Device, kind_name: str, kind: Kind, board: str | None) -> str | None:
        supplies = self.description.supplies
        path = self.description.device_path(id_)
        if given.supply is not None:
            named = supplies.get(given.supply)
            if named is not None and named.kind != kind.supply:
                self.problems.append(
                    Problem(
                        code="wrong-supply",
                        message=f"{id_} is a {kind_name}, which needs a {kind.supply} supply, "
                        f"but {given.supply} is a {named.kind} supply",
                        hint=f"Name a {kind.supply} supply, or another kind of device.",
                        place=self.description.place_of(*path, "supply"),
                    )
                )
                return None
            return given.supply if named else None
        default = self.description.boards[board].supply if board in self.description.boards else None
        if default in supplies and supplies[default].kind == kind.supply:
            return default
        return self._only_supply_that_fits(id_, kind_name, kind)

    def _only_supply_that_fits(self, id_: str, kind_name: str, kind: Kind) -> str | None:
        fitting = [name for name in self._supplies_in_order if self.description.supplies[name].kind == kind.supply]
        if len(fitting) == 1:
            return fitting[0]
        place = self.description.place_of_key(*self.description.device_path(id_))
        if fitting:
            self.problems.append(
                Problem(
                    code="several-supplies-fit",
                    message=f"{id_} does not say which supply feeds it: {_listed(fitting)} would fit",
                    hint=f"Write `supply: {fitting[0]}` (or another of them) at {id_}, or at its board.",
                    place=place,
                )
            )
        else:
            self.problems.append(
                Problem(
                    code="no-supply-fits",
                    message=f"{id_} is a {kind_name}, which needs a {kind.supply} supply, and none is described",
                    hint=f"Describe one under `supplies:`, with `kind: {kind.supply}`.",
                    place=place,
                )
            )
        return None


def _listed(names: Mapping[str, object] | list[str]) -> str:
    ordered = sorted(names, key=natural)
    shown = ", ".join(ordered[:8])
    return shown if len(ordered) <= 8 else f"{shown} and {len(ordered) - 8} more"
