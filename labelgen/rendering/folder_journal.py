"""Replaces some files of a folder that holds other people's files too: all of them or none.

Everything new is staged in a hidden folder inside, with second names of what it replaces. A mark `go` decides; from
then on the next run completes what a kill interrupted. After a fault the mark becomes `back`, and all is put back.
"""

import json
import os
from collections.abc import Iterable, Mapping
from contextlib import suppress
from filecmp import cmp
from pathlib import Path, PurePosixPath
from shutil import rmtree

from labelgen.rendering.made_list import (
    MADE_LIST,
    is_inside,
    is_plain_file,
    made_list_bytes,
    mark_of,
    remove_if_empty,
    second_name,
    sync_folders,
    write_durably,
)

PREFIX = ".labelgen-making-"
_GO, _BACK, _PLAN = "go", "back", "plan.json"


def replace_files(target: Path, files: Mapping[str, bytes], kept: Mapping[str, str], gone: Iterable[str]) -> None:
    """Writes `files`, removes `gone`, and lists the files and `kept`, names and marks, as ours.

    OSError: then everything is as before.
    """
    journal = target / f"{PREFIX}{os.getpid()}"
    journal.mkdir()
    try:
        made = {**kept, **{name: mark_of(content) for name, content in files.items()}}
        _stage(journal, target, {**files, MADE_LIST: made_list_bytes(made)}, tuple(gone))
    except BaseException:
        _clear(journal)
        raise
    try:
        write_durably(journal / _GO, b"")
        sync_folders(journal)
        _forward(target, journal)
    except BaseException:
        _undo(target, journal)
        raise
    with suppress(OSError):  # what is left over now, the next run clears
        _clear(journal)


def recover(target: Path, journal: Path) -> None:
    """Completes or undoes what an interrupted run left behind. OSError when that cannot be done now.

    A folder may come from somebody else: a journal that no run of ours can have written is cleared, and not followed.
    """
    if _is_ours(target, journal):
        if (journal / _BACK).exists():
            _back(target, journal)
        elif (journal / _GO).exists():
            if _somebody_came_between(target, journal):
                _back(target, journal)
            else:
                _forward(target, journal)
    _clear(journal)


def _stage(journal: Path, target: Path, files: Mapping[str, bytes], gone: tuple[str, ...]) -> None:
    for name, content in files.items():
        write_durably(journal / "new" / name, content)
    for name in (*files, *gone):
        if is_plain_file(target, name):
            second_name(target / name, journal / "old" / name)
    plan = {"new": list(files), "gone": list(gone)}
    write_durably(journal / _PLAN, json.dumps(plan).encode())
    sync_folders(journal)


def _plan(journal: Path) -> tuple[list[str], list[str]]:
    """The new names and those that go. ValueError: it is no plan, or leads out of the folder."""
    try:
        plan = json.loads((journal / _PLAN).read_bytes())
    except RecursionError:
        plan = None
    if not isinstance(plan, dict) or not all(_are_names(plan.get(key)) for key in ("new", "gone")):
        raise ValueError("not a plan")
    return plan["new"], plan["gone"]


def _are_names(value: object) -> bool:
    """True of a list of names of files in the folder."""
    return isinstance(value, list) and all(
        isinstance(name, str) and (name == MADE_LIST or is_inside(name)) for name in value
    )


def _is_ours(target: Path, journal: Path) -> bool:
    """True when there is a plan, and neither the journal nor the way to a file that it names leads over a link."""
    if not is_plain_file(journal, _PLAN):
        return False
    try:
        names = [name for some in _plan(journal) for name in some]
        "".join(names).encode()  # half of a pair of UTF-16 is in no name of a file
    except ValueError:
        return False
    above = {target / parent for name in names for parent in PurePosixPath(name).parents}
    return not any(path.is_symlink() for path in (*above, *journal.rglob("*")))


def _forward(target: Path, journal: Path) -> None:
    """Done twice, it does the same: what was already moved is no longer in the journal. Our list comes last."""
    new, gone = _plan(journal)
    for name in gone:
        if (target / name).is_file() and cmp(target / name, journal / "old" / name, shallow=False):
            (target / name).unlink()
    for name in new:
        staged = journal / "new" / name
        if staged.exists():
            (target / name).parent.mkdir(parents=True, exist_ok=True)
            staged.replace(target / name)
    remove_if_empty(target, gone)
    sync_folders(target)


def _undo(target: Path, journal: Path) -> None:
    """Puts all back after a fault; where even that fails, the next run will, by the mark."""
    if (journal / _GO).exists():
        (journal / _GO).rename(journal / _BACK)
        _back(target, journal)
    _clear(journal)


def _back(target: Path, journal: Path) -> None:
    """Done twice, it does the same: the second names of what was there stay in the journal until it is cleared."""
    new, gone = _plan(journal)
    for name in (*new, *gone):
        old = journal / "old" / name
        if old.exists():
            again = journal / "again"
            again.unlink(missing_ok=True)
            second_name(old, again)
            (target / name).parent.mkdir(parents=True, exist_ok=True)
            again.replace(target / name)
        elif not (journal / "new" / name).exists():
            (target / name).unlink(missing_ok=True)
    remove_if_empty(target, new)
    sync_folders(target)


def _somebody_came_between(target: Path, journal: Path) -> bool:
    """True when a file that is not ours stands where a new one was still to go."""
    return any(
        (journal / "new" / name).exists() and os.path.lexists(target / name) and not (journal / "old" / name).exists()
        for name in _plan(journal)[0]
    )


def _clear(journal: Path) -> None:
    """The marks first: without them a journal means nothing, however little is left of it."""
    for mark in (_GO, _BACK):
        (journal / mark).unlink(missing_ok=True)
    rmtree(journal, ignore_errors=True)
