"""The as-built record as text: YAML that a person can read, one thing a line, with a checksum over it."""

from collections.abc import Iterable
from typing import Any

from labelgen.model.built.built_labels import MadeLabel, PrintedLabel
from labelgen.model.built.built_record import BuiltGroup, BuiltRecord, BuiltWire
from labelgen.model.built.built_record_form import FORMAT, HEADER, checksum, written


def built_record_bytes(record: BuiltRecord) -> bytes:
    """UTF-8. Reading it back gives the same record."""
    sections = {
        "groups": [_group(group) for group in record.groups],
        "spare": [{"strip": one.strip, "way": one.way, "head": one.head} for one in record.spare],
        "wires": [_wire(wire) for wire in record.wires],
        "pins": [
            {"from": one.start, "to": one.finish, "circuit": one.circuit, "pins": one.pins} for one in record.pins
        ],
        "spare_pins": [{"plug": one.plug, "pin": one.pin, "head": one.head} for one in record.spare_pins],
        "matrices": [{"id": one.id, "panel": one.panel, "supply": one.supply} for one in record.matrices],
        "routes": [{"name": one.name, "number": one.number, "matrix": one.matrix} for one in record.routes],
        "retired": [_wire(wire) for wire in record.retired],
        "made": [{"only": record.made_only, "board": record.made_board, "changed": int(record.made_changed)}],
        "made_labels": [_made(one) for one in record.made],
        "made_sheets": [
            {"use": one.use, "stock": one.stock, "first": one.first, "following": one.following}
            for one in record.made_sheets
        ],
        "sheets": [{"use": one.use, "stock": one.stock, "following": one.following} for one in record.sheets],
        "printed": [_label(label) for label in record.printed],
    }
    body = "".join(_section(name, items) for name, items in sections.items())
    head = f"railway: {written(record.railway)}\nformat: {FORMAT}\nchecksum: {checksum(body)}\n"
    return f"{HEADER}{head}{body}".encode()


def _section(name: str, items: Iterable[dict[str, Any]]) -> str:
    lines = "".join(f"- {written(item)}\n" for item in items)
    return f"{name}:\n{lines}" if lines else f"{name}: []\n"


def _group(group: BuiltGroup) -> dict[str, Any]:
    owner = "lever" if group.by_lever else "device"
    return {owner: group.circuit, "strip": group.strip, "devices": group.devices, "ways": group.ways}


def _wire(wire: BuiltWire) -> dict[str, Any]:
    return {
        "number": wire.number,
        "head": wire.head,
        "from": wire.start,
        "to": wire.finish,
        "circuit": wire.circuit,
        "function": wire.function,
    }


def _made(one: MadeLabel) -> dict[str, Any]:
    """What is new as it is, and behind it what it was; of a label that is no more the latter alone."""
    was = {"was": _label(one.was)} if one.was is not None else {}
    return {**(_label(one.now) if one.now is not None else {}), **was}


def _label(label: PrintedLabel) -> dict[str, Any]:
    more = {
        "fingerprint": label.fingerprint,
        "issue": label.issue,
        "board": label.board,
        "says": label.says,
        "holes": label.holes,
        "pieces": label.pieces,
    }
    return {"kind": label.kind, "label": label.label, **{key: said for key, said in more.items() if said}}
