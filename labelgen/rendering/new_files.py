"""Writes a file that must not be there yet: a description to begin with is never put over another."""

import os
from pathlib import Path

from labelgen.places import Place
from labelgen.problems import Problem
from labelgen.rendering.made_list import sync_folder, write_durably


def write_new(path: Path, content: bytes, *, same_is_fine: bool = False) -> list[Problem]:
    """Writes the file whole, with its folder; one that is there stays. Reports not-our-file and cannot-write.

    `same_is_fine`: a file that is there with that very content is no problem.
    """
    place = Place(file=str(path))
    try:
        if not os.path.lexists(path) and _put(path, content):
            return []
        if same_is_fine and path.is_file() and path.read_bytes() == content:
            return []
    except OSError as error:
        reason = error.strerror or str(error)
        message = f"{path} could not be written: {reason.lower()}"
        return [Problem(code="cannot-write", message=message, hint="Choose another folder.", place=place)]
    message = f"there is a {path.name} already, and it stays as it is"
    return [Problem(code="not-our-file", message=message, hint="Give another name or folder.", place=place)]


def _put(path: Path, content: bytes) -> bool:
    """False, and nothing done, when somebody else has made a file of that name in the meantime."""
    path.parent.mkdir(parents=True, exist_ok=True)
    beside = path.with_name(f".{path.name}.{os.getpid()}")
    try:
        write_durably(beside, content)
        took = _take_name(path, beside)
    finally:
        beside.unlink(missing_ok=True)
    sync_folder(path.parent)
    return took


def _take_name(path: Path, beside: Path) -> bool:
    """Gives a file a second name, which is never put over another file."""
    try:
        try:
            path.hardlink_to(beside)
        except FileExistsError:
            raise
        except OSError:  # a disk that knows no second names, as many a memory stick: the name is claimed first
            path.touch(exist_ok=False)
            beside.replace(path)
    except FileExistsError:
        return False
    return True
