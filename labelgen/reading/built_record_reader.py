"""Reads the as-built record beside a description: section 8 of the format. What is wrong with it is never mended."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from labelgen.model.built.built_labels import MadeLabel, MadeSheet, PartSheet, PrintedLabel
from labelgen.model.built.built_record import (
    ENDING,
    BuiltGroup,
    BuiltMatrix,
    BuiltPins,
    BuiltRecord,
    BuiltRoute,
    BuiltWire,
    SparePin,
    SpareWay,
    record_path,
)
from labelgen.model.built.built_record_form import FORMAT, SECTIONS, checksum, read_back
from labelgen.places import Place
from labelgen.problems import Problem

_HEAD = re.compile(
    r"(?:#.*\n)*railway: (?P<railway>.*)\nformat: (?P<format>[0-9]{1,9})\nchecksum: (?P<checksum>\w+)\n(?P<body>.*)",
    re.DOTALL,
)
_RAILWAY = re.compile(r"^railway: (.*)$", re.MULTILINE)
_LATER = re.compile(r"^format: ([0-9]{1,9})$", re.MULTILINE)
"""More digits than these no version has: then the record was edited."""
_MERGE = re.compile(r"^(?:<{7}|\|{7}|={7}|>{7})(?: .*)?$", re.MULTILINE)
_ENOUGH = 4096
"""Bytes in which the name of the railway surely stands."""

AS_IT_WAS = (
    "Take it back as it was from version control or a copy, and make again. With no copy left, move it away: then all"
    " ways and numbers are given anew."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadRecord:
    record: BuiltRecord | None = None
    """None when there is none, or when something is wrong with it."""
    seen: bytes | None = None
    """What the file holds; None when there is none."""
    problems: tuple[Problem, ...] = ()


def read_built_record(description: Path, railway: str) -> ReadRecord:
    """The record of a description's railway.

    Reports record-unreadable, record-edited, record-of-another-railway and record-under-another-name.
    """
    path = record_path(description)
    strangers = _under_other_names(path, railway)
    try:
        data = path.read_bytes()
    except FileNotFoundError:
        return ReadRecord(problems=strangers)
    except OSError as error:
        reason = (error.strerror or "the system gave no reason").lower()
        wrong = _problem("record-unreadable", path, f"it cannot be read: {reason}", "See whether you may open it.")
        return ReadRecord(problems=(wrong, *strangers))
    found = read_record_bytes(data, path)
    if isinstance(found, BuiltRecord) and found.railway != railway:
        found = _of_another(path, found.railway, railway)
    if isinstance(found, Problem):
        return ReadRecord(seen=data, problems=(found, *strangers))
    return ReadRecord(record=found, seen=data, problems=strangers)


def read_record_bytes(data: bytes, path: Path) -> BuiltRecord | Problem:
    """The record that a file's bytes hold, or what is wrong with them. Line ends may have been changed on the way."""
    try:
        text = data.decode("utf-8").replace("\r\n", "\n")
    except UnicodeDecodeError:
        return _problem("record-unreadable", path, "it is not saved as UTF-8", AS_IT_WAS)
    if (mark := _MERGE.search(text)) is not None:
        message = "two versions of it were merged into one"
        hint = f"Keep one of the two versions whole. {AS_IT_WAS}"
        return _problem("record-edited", path, message, hint, _place(path, text, mark.start()))
    later = _LATER.search(text)
    if later is not None and int(later[1]) > FORMAT:
        message = f"it was written by a later version (format {later[1]}; this one knows {FORMAT})"
        return _problem("record-unreadable", path, message, "Use that version, or take an older copy of the record.")
    head = _HEAD.fullmatch(text)
    if head is None or checksum(head["body"]) != head["checksum"]:
        return _problem("record-edited", path, "it is no longer as labelgen wrote it", AS_IT_WAS)
    try:
        return _record(read_back(head["railway"]), _sections(head["body"], int(head["format"])))
    except (ValueError, KeyError, TypeError):
        return _problem("record-edited", path, "it is no longer as labelgen wrote it", AS_IT_WAS)


def _sections(body: str, form: int) -> dict[str, list[Any]]:
    found: dict[str, list[Any]] = {}
    items: list[Any] = []
    for line in body.splitlines():
        if line.startswith("- "):
            items.append(read_back(line[2:]))
        else:
            items = found.setdefault(line.partition(":")[0], [])
    if tuple(found) != SECTIONS[form]:
        raise ValueError(f"the sections are {', '.join(found)}")
    return {name: found.get(name, []) for name in SECTIONS[FORMAT]}


def _record(railway: str, sections: Mapping[str, list[Any]]) -> BuiltRecord:
    (made,) = sections["made"]
    return BuiltRecord(
        railway=railway,
        groups=tuple(_group(item) for item in sections["groups"]),
        spare=tuple(SpareWay(**item) for item in sections["spare"]),
        wires=tuple(_wire(item) for item in sections["wires"]),
        pins=tuple(
            BuiltPins(start=item["from"], finish=item["to"], circuit=item["circuit"], pins=tuple(item["pins"]))
            for item in sections["pins"]
        ),
        spare_pins=tuple(SparePin(**item) for item in sections["spare_pins"]),
        matrices=tuple(BuiltMatrix(**item) for item in sections["matrices"]),
        routes=tuple(BuiltRoute(**item) for item in sections["routes"]),
        retired=tuple(_wire(item) for item in sections["retired"]),
        made_only=tuple(made["only"]),
        made_board=made["board"],
        made_changed=bool(made.get("changed")),
        made=tuple(_made(item) for item in sections["made_labels"]),
        made_sheets=tuple(MadeSheet(**item) for item in sections["made_sheets"]),
        sheets=tuple(PartSheet(**item) for item in sections["sheets"]),
        printed=tuple(_label(item) for item in sections["printed"]),
    )


def _made(item: dict[str, Any]) -> MadeLabel:
    was = item.pop("was", None)
    return MadeLabel(now=_label(item) if item else None, was=None if was is None else _label(was))


def _label(item: dict[str, Any]) -> PrintedLabel:
    holes = {hole: tuple(numbers) for hole, numbers in item.pop("holes", {}).items()}
    return PrintedLabel(**item, holes=holes)


def _group(item: Mapping[str, Any]) -> BuiltGroup:
    by_lever = "lever" in item
    return BuiltGroup(
        by_lever=by_lever,
        circuit=item["lever" if by_lever else "device"],
        strip=item["strip"],
        devices=tuple(item["devices"]),
        ways=item["ways"],
    )


def _wire(item: Mapping[str, Any]) -> BuiltWire:
    return BuiltWire(
        number=item["number"],
        head=item["head"],
        start=item["from"],
        finish=item["to"],
        circuit=item["circuit"],
        function=item["function"],
    )


def _under_other_names(path: Path, railway: str) -> tuple[Problem, ...]:
    """Other records of the same railway in the folder: the description was probably saved under a new name."""
    try:
        others = sorted(one for one in path.parent.iterdir() if one.name.endswith(ENDING) and one.name != path.name)
    except OSError:
        return ()
    return tuple(_another_name(path, one) for one in others if _railway_of(one) == railway)


def _railway_of(path: Path) -> str | None:
    """The name of the railway that a record is of; None of what is not a record of ours."""
    try:
        with path.open("rb") as file:
            named = _RAILWAY.search(file.read(_ENOUGH).decode("utf-8", "replace").replace("\r\n", "\n"))
        found = read_back(named[1]) if named else None
    except (OSError, ValueError):
        return None
    return found if isinstance(found, str) else None


def _another_name(path: Path, other: Path) -> Problem:
    return Problem(
        code="record-under-another-name",
        message=f"{other.name} is a record of this railway too, under another name",
        hint=f"If the description was saved under a new name, rename the record to {path.name} as well. If the other"
        " is of an older railway or a copy, move it into a folder of its own.",
        place=Place(file=str(other)),
    )


def _of_another(path: Path, there: str, here: str) -> Problem:
    return Problem(
        code="record-of-another-railway",
        message=f"{path.name} is the record of the railway {there}, and the description is of {here}",
        hint="If it came here by mistake, move it away. If the railway only got another name, write that name into the"
        " record's line `railway:` too.",
        place=Place(file=str(path)),
    )


def _place(path: Path, text: str, index: int) -> Place:
    line = text.count("\n", 0, index) + 1
    source = text.split("\n")[line - 1]
    return Place(file=str(path), line=line, length=len(source), source=source)


def _problem(code: str, path: Path, message: str, hint: str, place: Place | None = None) -> Problem:
    message = f"the as-built record {path.name} cannot be used: {message}"
    return Problem(code=code, message=message, hint=hint, place=place or Place(file=str(path)))
