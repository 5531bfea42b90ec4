"""Everything that a description names: what others may refer to, and how an unknown name is reported."""

from collections.abc import Collection, Iterator

from labelgen.model.description import Description, Device
from labelgen.model.kinds import DEFAULT_POINT_KIND
from labelgen.model.worked_levers import lever_of
from labelgen.places import Path, Place
from labelgen.problems import Problem
from labelgen.reading.data_readers import built_in_hardware, built_in_kinds
from labelgen.reading.near_names import did_you_mean, listed
from labelgen.standards.functions import DEFAULT_FUNCTIONS

SEVERAL = {
    "supply": "supplies",
    "point on this panel": "points on this panel",
    "role of a supply": "roles of a supply",
    "section, device, supply or road of a point": "sections, devices, supplies and roads of points",
    "road or terminal": "roads and terminals",
}

CALLED = {
    "boards": "board",
    "panels": "panel",
    "supplies": "supply",
    "strips": "strip",
    "levers": "lever",
    "points": "point",
    "devices": "device",
    "plugs": "plug",
    "routes": "route",
    "kinds": "kind",
    "functions": "function",
    "hardware": "part",
}
GUESSED_AT_MOST = 200
"""Looking for what was meant takes a while; of so many unknown names, nobody reads the hints."""


class Known:
    """The names of a description by table; `unsure` are paths of what was taken out for mistakes of its own."""

    def __init__(self, description: Description, unsure: Collection[Path] = ()) -> None:
        self.description = description
        self.unsure = frozenset(unsure)
        self._told = 0
        self._unsure_tables = {path[0] for path in unsure if len(path) == 1}
        taken_out = [path for path in unsure if len(path) == 2]
        self.names: dict[str, set[str]] = {}
        for table in CALLED:
            lost = {str(id_) for owner, id_ in taken_out if owner == table}
            self.names[table] = {*getattr(description, table), *lost}
        self.names["kinds"] |= built_in_kinds().keys()
        self.names["supplies"] |= self._giving_devices()
        self.names["hardware"] |= built_in_hardware().keys()
        self.names["functions"] |= DEFAULT_FUNCTIONS.keys()
        self.names["levers"] |= {lever for _, _, lever in self.worked_levers()}

    def _giving_devices(self) -> set[str]:
        """Devices that serve as a supply themselves."""
        kinds = {**built_in_kinds(), **self.description.kinds}
        devices = {**self.description.points, **self.description.devices}
        return {id_ for id_, device in devices.items() if device.kind in kinds and kinds[device.kind].gives}

    def worked_levers(self) -> Iterator[tuple[str, str, str]]:
        """(table, device, lever) of every device that a lever works."""
        for table, devices in (("points", self.description.points), ("devices", self.description.devices)):
            for id_, device in devices.items():
                lever = lever_of(id_, device, is_point=table == "points")
                if lever is not None:
                    yield table, id_, lever

    def unknown(self, table: str, name: str | None, path: Path, *, key: bool = False) -> list[Problem]:
        """A problem unknown-name when there is no such thing. `key`: it is named by the last key of the path."""
        if name is None or name in self.names[table] or table in self._unsure_tables:
            return []
        place = (self.description.place_of_key if key else self.description.place_of)(*path)
        self._told += 1
        if self._told > GUESSED_AT_MOST:
            hint = "See how it is spelled where it is described."
            return [
                Problem(code="unknown-name", message=f"there is no {CALLED[table]} `{name}`", hint=hint, place=place)
            ]
        return [unknown_name(CALLED[table], name, self.names[table], place)]

    def _board_of(self, device: Device) -> str | None:
        """Its own, that of its strip or panel, or the only one there is."""
        given = self.description
        holder = given.strips.get(device.strip or "") or given.panels.get(device.panel or "")
        board = device.board or (holder.board if holder is not None else None)
        return next(iter(given.boards)) if board is None and len(given.boards) == 1 else board

    def kind_of(self, device: Device, table: str) -> str | None:
        """The kind of a device: its own, its board's default, and for a point the built-in one."""
        board = self._board_of(device)
        default = self.description.boards[board].kind if board in self.description.boards else None
        return device.kind or default or (DEFAULT_POINT_KIND if table == "points" else None)


def unknown_name(called: str, name: str, known: Collection[str], place: Place) -> Problem:
    """Something is named that is described nowhere; the hint says what is near, and what there is."""
    several = SEVERAL.get(called, f"{called}s")
    there = f"The {several} here: {listed(known)}." if known else f"No {called} is described in this file."
    return Problem(
        code="unknown-name",
        message=f"there is no {called} `{name}`",
        hint=f"{did_you_mean(name, known)}{there}",
        place=place,
    )
