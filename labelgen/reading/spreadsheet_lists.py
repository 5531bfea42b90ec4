"""Puts what `wire_list` and `device_list` name into a description, before its values are looked at.

A row becomes the entry that the builder could have written under `wires`, `points` or `devices`, and knows its cell.
So nothing after this needs to know of spreadsheets.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path, PurePosixPath
from typing import Any, Literal

from pydantic import ValidationError

from labelgen.model.paper_lists import DeviceFile, PaperList, WireFile
from labelgen.places import Path as Way
from labelgen.places import Place, Places
from labelgen.problems import Problem
from labelgen.reading.id_checks import ID_TABLES
from labelgen.reading.known_things import CALLED
from labelgen.reading.spreadsheet_columns import DEVICE_WORDS, WIRE_WORDS, Wanted, find_columns
from labelgen.reading.spreadsheet_entries import (
    Entries,
    Entry,
    Listed,
    SpreadsheetPlaces,
    device_entries,
    wire_entries,
)
from labelgen.reading.spreadsheet_file import Named, load, read_rows

POINT_KIND = "twin-coil"
SHOWN_IN: Mapping[str, str] = {"board": "boards", "panel": "panels", "supply": "supplies", "strip": "strips"}
"""Columns that name a thing, which may be called by what is painted on it, and the table of those things."""

Key = Literal["wire_list", "device_list"]


@dataclass(slots=True, kw_only=True)
class Merged:
    """A description with the entries of its spreadsheets."""

    value: dict[str, Any]
    places: Places
    papers: list[PaperList] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)
    unsure: set[Way] = field(default_factory=set)
    """Tables and things that are missing for a mistake that was reported, and that others may rightly refer to."""
    whole: bool = True
    """False when so much is missing that going on would only confuse."""


def with_spreadsheets(value: dict[str, Any], places: Places, folder: Path | None) -> Merged:
    """`folder`: the description's own; None: it is no file.

    Reports file-missing and its like, bad-spreadsheet, bad-cell, unknown-name, missing-key, not-utf8, odd-character,
    windows-1252, wire-without-end, repeated-id. What is wrong with the form of the two keys is not said here.
    """
    merged = Merged(value=value, places=places)
    if not value.get("wire_list") and not value.get("device_list"):
        return merged
    within = SpreadsheetPlaces(places)
    merged = Merged(value=dict(value), places=within)
    for key in ("device_list", "wire_list"):
        try:
            if value.get(key):
                given = (WireFile if key == "wire_list" else DeviceFile).model_validate(_as_file(value[key]))
                _add(merged, within, key, given, folder)
        except ValidationError:
            _devices_unknown(merged, key)
    return merged


def _as_file(value: Any) -> Any:
    return {"file": value} if isinstance(value, str) else value


def _devices_unknown(merged: Merged, key: str) -> None:
    if key == "device_list":
        merged.unsure |= {("points",), ("devices",), ("levers",)}


def _add(
    merged: Merged, within: SpreadsheetPlaces, key: Key, given: WireFile | DeviceFile, folder: Path | None
) -> None:
    path: Way = (key, "file") if isinstance(merged.value[key], dict) else (key,)
    places = merged.places
    named = Named(
        file=given.file,
        called=str(folder / given.file) if folder is not None else given.file,
        at=places.of_value(path),
        sheet=given.sheet,
        sheet_at=places.of_value((key, "sheet")),
    )
    data, problems = load(folder, named)
    merged.problems += problems
    listed = _listed(merged, key, given, named, data) if data is not None else None
    if data is None or listed is None:
        _devices_unknown(merged, key)
        merged.whole = merged.whole and key == "wire_list"
        return
    if key == "wire_list":
        entries = wire_entries(listed)
        rows = _add_wires(merged, within, listed, entries)
    else:
        entries = device_entries(listed)
        rows = _add_devices(merged, within, listed, entries)
    merged.problems += entries.problems
    merged.papers.append(
        PaperList(
            key=key,
            file=PurePosixPath(given.file).as_posix(),
            content=data,
            sheet=listed.grid.sheet,
            encoding=listed.grid.encoding,
            delimiter=listed.grid.delimiter,
            columns=listed.columns.of,
            rows=rows,
            one_ended=entries.one_ended,
            endless=entries.endless,
            in_place=given.in_place,
        )
    )


def _listed(merged: Merged, key: Key, given: WireFile | DeviceFile, named: Named, data: bytes) -> Listed | None:
    """The rows of a list whose columns are known; None when something is wrong with the whole of it."""
    grid, problems = read_rows(data, named)
    merged.problems += problems
    if grid is None:
        return None
    is_wires = key == "wire_list"
    wanted = Wanted(
        path=(key,),
        places=merged.places,
        given=given.columns,
        first_row=given.first_row,
        words=WIRE_WORDS if is_wires else DEVICE_WORDS,
        needed=("from", "to") if is_wires else ("id",),
    )
    columns, problems = find_columns(grid, wanted)
    merged.problems += problems
    return Listed(grid=grid, columns=columns, names=given.names) if columns is not None else None


def _add_wires(merged: Merged, within: SpreadsheetPlaces, listed: Listed, entries: Entries) -> dict[int, Way]:
    written = merged.value.get("wires", [])
    if not isinstance(written, list):
        return {}
    rows: dict[int, Way] = {}
    for number, entry in enumerate(entries.found, len(written)):
        within.add(("wires", number), listed.grid, entry)
        rows[entry.row] = ("wires", number)
    merged.value["wires"] = [*written, *(entry.value for entry in entries.found)]
    return rows


def _add_devices(merged: Merged, within: SpreadsheetPlaces, listed: Listed, entries: Entries) -> dict[int, Way]:
    taken = _ids(merged)
    drawn = _drawn_points(merged.value)
    shown = {key: _painted(merged.value, table) for key, table in SHOWN_IN.items()}
    rows: dict[int, Way] = {}
    for entry in entries.found:
        id_ = entry.value.pop("id")
        table = "points" if _is_point(id_, entry.value, drawn) else "devices"
        if id_.lower() in taken:
            merged.problems.append(_repeated(id_, taken[id_.lower()], listed, entry))
            merged.unsure.add((table, id_))
            continue
        taken[id_.lower()] = f"the {CALLED[table]} in row {entry.row} of this list"
        for key, painted in shown.items():
            if key in entry.value:
                entry.value[key] = painted.get(entry.value[key], entry.value[key])
        if not _put(merged.value, table, id_, entry.value):
            continue
        within.add((table, id_), listed.grid, entry)
        rows[entry.row] = (table, id_)
    return rows


def _put(value: dict[str, Any], table: str, id_: str, entry: dict[str, Any]) -> bool:
    """False when the description has something else than things in that table, which is said later."""
    written = value.get(table) or {}
    if not isinstance(written, dict):
        return False
    if value.get(table) is None or table not in value:
        value[table] = written
    written[id_] = entry
    return True


def _is_point(id_: str, entry: Mapping[str, Any], drawn: set[str]) -> bool:
    """A row is a point when its kind is that of points, or a panel draws it as one, or it is called P and a number."""
    called_so = id_[:1] == "P" and id_[1:2].isdecimal()
    return entry.get("kind", POINT_KIND) == POINT_KIND or id_ in drawn or called_so


def _drawn_points(value: Mapping[str, Any]) -> set[str]:
    panels = value.get("panels")
    every = panels.values() if isinstance(panels, dict) else ()
    drawn = [panel.get("points") for panel in every if isinstance(panel, dict)]
    return {str(point) for points in drawn if isinstance(points, dict) for point in points}


def _things(value: Mapping[str, Any]) -> Iterator[tuple[Way, str, str, Any]]:
    """(path, what it is, id, thing) of all that share one space of names."""
    for table in ID_TABLES:
        called, things = CALLED[table], value.get(table)
        for id_, thing in things.items() if isinstance(things, dict) else ():
            yield (table, id_), called, id_, thing
            holes = thing.get("holes") if table == "boards" and isinstance(thing, dict) else None
            for hole in holes if isinstance(holes, dict) else ():
                yield (table, id_, "holes", hole), "hole", hole, None


def _ids(merged: Merged) -> dict[str, str]:
    """Of every id in small letters: what bears it, and where."""
    found: dict[str, str] = {}
    for path, called, id_, _ in _things(merged.value):
        place: Place = merged.places.of_key(path)
        found.setdefault(id_.lower(), f"the {called} on line {place.line} of the description")
    return found


def _painted(value: Mapping[str, Any], wanted: str) -> dict[str, str]:
    """What is painted on a thing: its id."""
    return {
        str(thing["shown"]): id_
        for path, _, id_, thing in _things(value)
        if path[0] == wanted and isinstance(thing, dict) and thing.get("shown")
    }


def _repeated(id_: str, first: str, listed: Listed, entry: Entry) -> Problem:
    message = f"`{id_}` is taken: it is {first}"
    hint = "Call one of them something else, or take one out; capitals do not tell them apart."
    place = listed.grid.place(entry.row, entry.columns["id",])
    return Problem(code="repeated-id", message=message, hint=hint, place=place)
