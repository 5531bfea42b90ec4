"""What is kept beside a description: the as-built record, written after what was made is in place."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from pathlib import Path

from labelgen.making import Checked, Request, Result
from labelgen.model.built_record import STUCK_ON, BuiltRecord, PrintedLabel, record_path
from labelgen.model.netlist import EndKind, Netlist, Wire
from labelgen.model.threaded_holes import threaded_holes
from labelgen.places import Place
from labelgen.problems import Problem
from labelgen.rendering.built_record_file import RecordFile
from labelgen.rendering.built_record_text import built_record_bytes
from labelgen.rendering.output_folder import write_folder


def keep(file: Path, checked: Checked, request: Request, result: Result, folder: Path) -> list[Problem]:
    """Writes the files that were made into their folder, then the record of them.

    Both or neither, as far as this can be known beforehand. Reports not-our-file and cannot-write.
    """
    record = replace(checked.built, made_only=tuple(sorted(request.only)), made_board=request.board or "")
    writer = RecordFile(record_path(file), checked.record_seen)
    if problems := writer.stage(built_record_bytes(record)):
        return problems
    try:
        whole = not request.only and request.board is None
        return write_folder(folder, result.files, whole=whole) or writer.put_in_place()
    finally:
        writer.discard()


def with_printed(
    file: Path, checked: Checked, record: BuiltRecord | None, request: Request, *, undo: bool
) -> tuple[BuiltRecord | None, list[Problem]]:
    """The record in which what was last made is printed (or, undone, is not). Reports nothing-made."""
    made = set(record.made_only if record is not None and record.made_only else STUCK_ON)
    kinds = [kind for kind in STUCK_ON if kind in made and (not request.only or kind in request.only)]
    other_board = record is not None and record.made_board and request.board not in {None, record.made_board}
    if record is None or not kinds or (other_board and not undo):
        return None, [_nothing_made(file, record, request)]
    board = request.board or (None if undo else record.made_board or None)
    if undo:
        kinds = [kind for kind in STUCK_ON if not request.only or kind in request.only]
    chosen = dict.fromkeys((kind, label) for kind in kinds for label in _labels(kind, checked, record, board))
    earlier = {label.key: label for label in record.printed}
    if undo:
        left = [one for key, one in earlier.items() if key not in chosen and (board is not None or key[0] not in kinds)]
        return replace(record, printed=tuple(left)), []
    now = earlier | {key: earlier.get(key, PrintedLabel(kind=key[0], label=key[1])) for key in chosen}
    return replace(record, printed=tuple(now.values())), []


def write_record(file: Path, record: BuiltRecord, seen: bytes | None) -> list[Problem]:
    """The record alone. Reports cannot-write."""
    writer = RecordFile(record_path(file), seen)
    try:
        return writer.stage(built_record_bytes(record)) or writer.put_in_place()
    finally:
        writer.discard()


def _labels(kind: str, checked: Checked, record: BuiltRecord, board: str | None) -> Iterable[str]:
    """The labels of one kind, on one board or all: of what is recorded, not of what the description has become."""
    netlist = checked.netlist
    if kind == "flags":
        boards = {str(wire.number): set(_boards(wire, netlist)) for wire in netlist.wires}
        numbers = (str(wire.number) for wire in record.wires)
        return (number for number in numbers if board is None or board in boards.get(number, ()))
    if kind in ("markers", "tags"):
        return (strip.id for strip in netlist.strips if board in (None, strip.board))
    if kind == "places":
        return (label for label, its_board in _places(checked) if board in (None, its_board))
    if kind == "plates":
        worked = {group.circuit for group in record.groups if group.by_lever}
        levers = (lever for lever in netlist.levers if lever.id in worked or not lever.devices)
        return (lever.id for lever in levers if board in (None, lever.board))
    panels = {lever.panel: lever.board for lever in netlist.levers if lever.panel is not None}
    return (panel for panel, its_board in panels.items() if board in (None, its_board))


def _places(checked: Checked) -> Iterator[tuple[str, str]]:
    """(label, board): a plug has labels on both of its boards, a hole on its own."""
    for plug in checked.netlist.plugs:
        yield from ((f"{plug.id} on {board}", board) for board in plug.boards)
    yield from ((hole.id, hole.board) for hole in threaded_holes(checked.description, checked.netlist))


def _boards(wire: Wire, netlist: Netlist) -> Iterator[str | None]:
    yield wire.board
    for end in wire.ends:
        if end.kind is EndKind.WAY:
            yield netlist.strip_by_id[end.thing].board


def _nothing_made(file: Path, record: BuiltRecord | None, request: Request) -> Problem:
    if record is None:
        message = "nothing was made of this description yet, so nothing can be printed and stuck on"
    else:
        wanted = " and ".join([*sorted(request.only), *([f"board {request.board}"] if request.board else [])])
        last = ", ".join(record.made_only) or "everything"
        message = f"what was made last was {last}{f' of board {record.made_board}' * bool(record.made_board)}"
        message += f", not {wanted}" if wanted else ", and nothing of that is stuck on"
    hint = "Make it first, with `labelgen make`, and print it."
    return Problem(code="nothing-made", message=message, hint=hint, place=Place(file=str(file)))
