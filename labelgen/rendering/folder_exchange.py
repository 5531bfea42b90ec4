"""Makes a whole folder beside the one that it replaces, and then lets the two change names in one step."""

import ctypes
import errno
import os
import stat
import sys
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

from labelgen.rendering.made_list import (
    MADE_LIST,
    is_plain_file,
    made_in,
    made_list_bytes,
    mark_of,
    remove_if_empty,
    second_name,
    sync_folder,
    sync_folders,
    write_durably,
)

_MARKED = f"{MADE_LIST}-marked"
"""The list with the marks, until it takes its place."""
_AT_FDCWD, _RENAME_EXCHANGE = -100, 2
"""Linux renameat2(2)."""
_CANNOT_HERE = {
    errno.EACCES,
    errno.EPERM,
    errno.EROFS,
    errno.ENOSYS,
    errno.EINVAL,
    errno.EBUSY,
    errno.EXDEV,
    errno.EOPNOTSUPP,
    errno.ENAMETOOLONG,
}
"""Faults that say: this way does not work here, another may."""


def staging_beside(target: Path) -> Path:
    return target.with_name(f"{staging_prefix(target)}{os.getpid()}")


def staging_prefix(target: Path) -> str:
    return f".{target.name}.making-"


def make_new(target: Path, files: Mapping[str, bytes]) -> None:
    """A folder that was not there, whole or not at all. OSError when it cannot be made."""
    staging = staging_beside(target)
    staging.mkdir()
    try:
        _stage(staging, files, target, {})
        staging.rename(target)
    except BaseException:
        discard(staging, target)
        raise
    sync_folder(target.parent)


def try_exchange(target: Path, files: Mapping[str, bytes], kept: Mapping[str, str]) -> bool:
    """Replaces a folder that holds nothing but our files, in one step; False, and nothing done, where that cannot be.

    `kept`: names and marks of files that the new folder takes over from the old one.
    """
    staging = staging_beside(target)
    try:
        staging.mkdir()
    except OSError:
        return False
    try:
        _stage(staging, files, target, kept)
        able = _take_owner_and_mode(staging, target) and _exchange_if_able(staging, target)
    finally:
        discard(staging, target)
    sync_folder(target.parent)
    return able


def _exchange_if_able(staging: Path, target: Path) -> bool:
    try:
        exchange(staging, target)
    except OSError as error:
        if error.errno in _CANNOT_HERE:
            return False
        raise
    return True


def exchange(one: Path, other: Path) -> None:
    """Two folders change names in one step that nothing can interrupt. OSError where the system cannot."""
    swap = getattr(ctypes.CDLL(None, use_errno=True), "renameat2", None) if sys.platform == "linux" else None
    if swap is None:
        raise OSError(errno.ENOSYS, os.strerror(errno.ENOSYS))
    if swap(_AT_FDCWD, os.fsencode(one), _AT_FDCWD, os.fsencode(other), _RENAME_EXCHANGE):
        number = ctypes.get_errno()
        raise OSError(number, os.strerror(number), str(other))


def _stage(staging: Path, files: Mapping[str, bytes], target: Path, kept: Mapping[str, str]) -> None:
    """A list of what is made comes first, so that what an interrupted run leaves behind can be cleared by it.

    The list with the marks takes its place when all is there: until then a file is ours however little is in it.
    """
    write_durably(staging / MADE_LIST, made_list_bytes(dict.fromkeys([*files, *kept], "")))
    for name, content in files.items():
        write_durably(staging / name, content)
    for name in kept:
        second_name(target / name, staging / name)
    marked = staging / _MARKED
    write_durably(marked, made_list_bytes({**kept, **{name: mark_of(content) for name, content in files.items()}}))
    marked.replace(staging / MADE_LIST)
    sync_folders(staging)


def _take_owner_and_mode(staging: Path, target: Path) -> bool:
    ours, theirs = staging.stat(), target.stat()
    if (ours.st_uid, ours.st_gid) != (theirs.st_uid, theirs.st_gid):
        return False
    staging.chmod(stat.S_IMODE(theirs.st_mode))
    return True


def discard(staging: Path, target: Path) -> None:
    """Clears a folder that was staged, or exchanged: what its list names, and no other file.

    What somebody put into the old folder in the instant before the exchange goes over into the new one.
    """
    with suppress(OSError):
        made = made_in(staging)
        for name in made:
            if is_plain_file(staging, name):
                (staging / name).unlink()
        remove_if_empty(staging, made)
        _hand_over(staging, target)
        remove_if_empty(staging, (str(path.relative_to(staging) / "x") for path in staging.rglob("*")))
        lists = [left for left in staging.iterdir() if left.name in (MADE_LIST, _MARKED)]
        if len(lists) == len(list(staging.iterdir())):
            for left in lists:
                left.unlink()
        staging.rmdir()


def _hand_over(staging: Path, target: Path) -> None:
    """Moves what is not ours to the same place of the folder that is there now, unless something stands there."""
    for left in sorted(path for path in staging.rglob("*") if path.is_symlink() or not path.is_dir()):
        there = target / left.relative_to(staging)
        if left.name not in (MADE_LIST, _MARKED) and target.is_dir() and not os.path.lexists(there):
            there.parent.mkdir(parents=True, exist_ok=True)
            left.rename(there)
