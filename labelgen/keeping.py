"""What is kept beside a description: the as-built record, written after what was made is in place."""

from dataclasses import replace
from pathlib import Path

from labelgen.making import Checked, Request, Result
from labelgen.model.built.built_labels import STUCK_ON, MadeSheet
from labelgen.model.built.built_record import BuiltRecord, record_path
from labelgen.model.built.record_printing import MadeNow, Scope, with_made, with_printed, without_printed
from labelgen.places import Place
from labelgen.problems import Problem
from labelgen.rendering.built_record_file import RecordFile
from labelgen.rendering.built_record_text import built_record_bytes
from labelgen.rendering.output_folder import write_folder

CHANGED, AGAIN = "changed/", "again/"
"""Folders inside the output folder: what is new or changed, and what a jam has spoilt."""


def keep(file: Path, checked: Checked, request: Request, result: Result, folder: Path) -> list[Problem]:
    """Writes the files that were made into their folder, then the record of them.

    Both or neither, as far as this can be known beforehand. Reports not-our-file and cannot-write.
    """
    writer = RecordFile(record_path(file), checked.record_seen)
    if problems := writer.stage(built_record_bytes(record_after(checked, request, result.now))):
        return problems
    inside = inside_of(request)
    files = {f"{inside}{name}": content for name, content in result.files.items()}
    try:
        # After a jam of flags and one of tags both are wanted: only what is made once more gives way.
        whole = request.changed or not (request.again or request.only or request.board)
        return write_folder(folder, files, whole=whole, inside=inside) or writer.put_in_place()
    finally:
        writer.discard()


def inside_of(request: Request) -> str:
    """Where in the output folder it goes: `changed/`, `again/`, or "", the folder itself."""
    return CHANGED if request.changed else AGAIN if request.again else ""


def record_after(checked: Checked, request: Request, now: MadeNow) -> BuiltRecord:
    """The record that says what was made. Cells that are printed once more are only taken off their sheet."""
    if not request.again:
        return with_made(checked.built, request.scope, now)
    sheets: dict[tuple[str, str], MadeSheet] = {(one.use, one.stock): one for one in checked.before.made_sheets}
    sheets |= {(one.use, one.stock): one for one in now.sheets}
    return replace(checked.before, made_sheets=tuple(sheets.values()))


def printed_or_not(
    file: Path, record: BuiltRecord | None, request: Request, *, undo: bool
) -> tuple[BuiltRecord | None, list[Problem]]:
    """The record in which what was last made is printed (or, undone, is not). Reports nothing-made."""
    made = set(record.made_only if record is not None and record.made_only else STUCK_ON)
    kinds = [kind for kind in STUCK_ON if kind in made and (not request.only or kind in request.only)]
    other_board = record is not None and record.made_board and request.board not in {None, record.made_board}
    if record is None or not kinds or (other_board and not undo):
        return None, [_nothing_made(file, record, request)]
    scope = Scope(only=request.only, board=request.board or "")
    if not undo:
        return with_printed(record, scope), []
    back = without_printed(record, scope)
    return back, [] if back is not None else [_nothing_to_take_back(file)]


def write_record(file: Path, record: BuiltRecord, seen: bytes | None) -> list[Problem]:
    """The record alone. Reports cannot-write."""
    writer = RecordFile(record_path(file), seen)
    try:
        return writer.stage(built_record_bytes(record)) or writer.put_in_place()
    finally:
        writer.discard()


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


def _nothing_to_take_back(file: Path) -> Problem:
    return Problem(
        code="nothing-made",
        message="nothing of that was recorded as printed since it was made, so there is nothing to take back",
        hint="What was printed before stays so until it is made again.",
        place=Place(file=str(file)),
    )
