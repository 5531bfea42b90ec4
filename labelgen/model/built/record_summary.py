"""What is to come, in one line, before anything is written: what is new, what moves, how many sheets it takes."""

from collections.abc import Iterator, Sequence

from labelgen.model.built.built_labels import MadeLabel
from labelgen.model.built.built_record import BuiltRecord, BuiltWire

NOTHING = "nothing is new or changed since it was printed"


def what_is_to_come(before: BuiltRecord, after: BuiltRecord, pages: int) -> str:
    """`24 wires new, 0 of 172 move, 2 sheets, from cell 17`; `before`: the record as it was, `after`: with that made.

    A wire moves when it comes off under one number and goes on, for the same purpose, under another.
    """
    if not after.made:
        return NOTHING
    return ", ".join([*_wires(before, after), *_others(after.made), *_sheets(after, pages)])


def _wires(before: BuiltRecord, after: BuiltRecord) -> Iterator[str]:
    flags = [one for one in after.made if one.either.kind == "flags"]
    printed = {_number(one.label) for one in before.printed if one.kind == "flags"}
    new = {_number(one.either.label) for one in flags if one.was is None} - printed
    gone = {_number(one.either.label) for one in flags if one.now is None}
    wires = {str(wire.number): wire for wire in (*after.wires, *after.retired)}
    came = [_purpose(wires[number]) for number in new if number in wires]
    moved = {number for number in gone if number in wires and _purpose(wires[number]) in came}
    if len(new) > len(moved):
        yield _counted(len(new) - len(moved), "wire") + " new"
    if gone - moved:
        yield _counted(len(gone - moved), "wire") + " gone"
    if printed:
        yield f"{len(moved)} of {len(printed)} move"


def _number(label: str) -> str:
    return label.partition(" on ")[0]


def _purpose(wire: BuiltWire) -> tuple[str, str, str]:
    return (wire.circuit, wire.function, wire.head)


def _others(made: Sequence[MadeLabel]) -> Iterator[str]:
    said = {
        "changed": sum(one.now is not None and one.was is not None for one in made),
        "new": sum(one.was is None and one.either.kind not in ("flags", "blanks") for one in made),
        "gone": sum(one.now is None and one.either.kind != "flags" for one in made),
    }
    for what, number in said.items():
        if number:
            yield f"{_counted(number, 'label' if what == 'changed' else 'other label')} {what}"


def _sheets(after: BuiltRecord, pages: int) -> Iterator[str]:
    yield _counted(pages, "sheet")
    begun = [(one.use, one.first) for one in after.made_sheets if one.first > 1]
    if len(after.made_sheets) == len(begun) == 1:
        yield f"from cell {begun[0][1]}"
    else:
        yield from (f"{use} from cell {first}" for use, first in begun)


def _counted(number: int, what: str) -> str:
    return f"{number} {what}" if number == 1 else f"{number} {what}s"
