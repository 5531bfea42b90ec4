"""Which page shows a thing, and where on it each end of a wire stands: paths below the schedule's folder."""

import re
from functools import cache, cached_property

from labelgen.model.description import Description
from labelgen.model.netlist import End, EndKind, Netlist

INDEX = "index.html"
FOLDERS = {EndKind.LEVER: "lever/", EndKind.PIN: "plug/", EndKind.WAY: ""}
Thing = tuple[EndKind, str]


class PageAddresses:
    """Answers for one railway. Ids alone stand in paths; what has no page of its own is on its board's or panel's."""

    def __init__(self, description: Description, netlist: Netlist) -> None:
        self._description, self._netlist = description, netlist
        strips = {strip.id.casefold() for strip in netlist.strips}
        self.work, self.trace = (_free(name, strips) for name in ("work", "trace"))

    def of_thing(self, kind: EndKind, thing: str) -> str:
        if kind in FOLDERS:
            return f"{FOLDERS[kind]}{thing}/{INDEX}"
        home = self.home(kind, thing)
        return f"{home}/{INDEX}" if home else INDEX

    def of_end(self, end: End) -> str:
        return f"{self.of_thing(end.kind, end.thing)}#{anchor(end.kind, end.thing, end.terminal)}"

    def of_panel(self, panel: str | None) -> str:
        return f"panel/{panel}/{INDEX}" if panel in self._description.panels else ""

    def of_board(self, board: str | None) -> str:
        return f"board/{board}/{INDEX}" if board in self._description.boards else ""

    def home(self, kind: EndKind, thing: str) -> str:
        """`board/B1`, `panel/HARBOUR`; "" for the index."""
        return self._homes.get((kind, thing), "")

    def things_at(self, home: str, *kinds: EndKind) -> list[Thing]:
        """In the order of the description, then in that of the wires."""
        return [thing for thing, at in self._homes.items() if at == home and thing[0] in kinds]

    @cached_property
    def _homes(self) -> dict[Thing, str]:
        boards = self._boards_of_things()
        homes = {thing: f"board/{board}" if self.of_board(board) else "" for thing, board in boards.items()}
        for matrix in self._netlist.matrices:
            home = (
                f"panel/{matrix.panel}" if self.of_panel(matrix.panel) else homes.get((EndKind.MATRIX, matrix.id), "")
            )
            homes |= dict.fromkeys([(EndKind.ROUTE, row.number) for row in matrix.rows], home)
            homes[EndKind.MATRIX, matrix.id] = home
        return homes

    def _boards_of_things(self) -> dict[Thing, str | None]:
        """Devices and supplies: where they were put; else where their first wire runs."""
        description = self._description
        only = next(iter(description.boards)) if len(description.boards) == 1 else None
        found: dict[Thing, str | None] = {
            (EndKind.SUPPLY, id_): supply.board or only for id_, supply in description.supplies.items()
        }
        groups = {
            device: group.board for circuit in self._netlist.circuits for group in circuit.groups
            for device in group.devices
        }  # fmt: skip
        for id_, device in {**description.points, **description.devices}.items():
            found[EndKind.DEVICE, id_] = groups.get(id_) or device.board or only
        for wire in self._netlist.wires:
            for end in wire.ends:
                if end.kind not in FOLDERS and found.get((end.kind, end.thing)) is None:
                    found[end.kind, end.thing] = wire.board or only
        return found


def anchor(kind: EndKind, thing: str, terminal: str) -> str:
    """Of one end; unique on its page."""
    if kind in (EndKind.WAY, EndKind.PIN):
        return f"{'way' if kind is EndKind.WAY else 'pin'}-{slug(terminal)}"
    return f"{kind.value}-{slug(thing)}.{slug(terminal)}"


@cache
def slug(text: str) -> str:
    """Fit for an id and for a link as it stands; no two texts give the same."""
    return re.sub(r"[^A-Za-z0-9_-]", lambda found: f".{ord(found[0]):x}.", text)


def _free(name: str, strips: set[str]) -> str:
    """A folder's name that no strip's page has."""
    while name in strips:
        name += "-"
    return name
