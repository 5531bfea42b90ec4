"""The list, inside an output folder, of the files that labelgen made there: no others are replaced or removed."""

import os
import re
from collections.abc import Iterable, Mapping
from contextlib import suppress
from hashlib import sha256
from pathlib import Path, PurePosixPath

MADE_LIST = ".labelgen-made"
_HEAD = "# Made by labelgen, which replaces and removes these files, while they are as it made them, and no others.\n"
_MARK = re.compile(r"([0-9a-f]{64})  (.+)", re.DOTALL)
"""A line with the file's SHA-256 before its name, in the form that `sha256sum` writes."""


def made_list_bytes(files: Mapping[str, str]) -> bytes:
    """The list as it is written: name (with `/` between folders) and mark of each file, one a line, sorted by name.

    A mark of "": the file is still being written, and is ours whatever is in it.
    """
    lines = (f"{mark}  {name}\n" if mark else f"{name}\n" for name, mark in sorted(files.items()))
    return (_HEAD + "".join(lines)).encode()


def mark_of(content: bytes) -> str:
    """By which a file is known again. Line ends may have been changed on the way through version control."""
    return sha256(content.replace(b"\r\n", b"\n")).hexdigest()


def listed_in(folder: Path) -> dict[str, str]:
    """Names on a folder's list, and their marks ("": none); nothing when there is no list that can be read.

    Names that lead out are left out.
    """
    listed = folder / MADE_LIST
    if listed.is_symlink() or not listed.is_file():
        return {}
    found: dict[str, str] = {}
    for line in listed.read_bytes().decode("utf-8", "replace").split("\n"):
        marked = _MARK.fullmatch(line)
        mark, name = (marked[1], marked[2]) if marked else ("", line)
        if not line.startswith("#") and is_inside(name):
            found[name] = mark
    return found


def made_in(folder: Path) -> dict[str, str]:
    """Those of the list that are still as we made them, or gone: a file that was changed since is the builder's."""
    return {name: mark for name, mark in listed_in(folder).items() if _is_as_made(folder, name, mark)}


def _is_as_made(folder: Path, name: str, mark: str) -> bool:
    return not mark or not is_plain_file(folder, name) or mark_of((folder / name).read_bytes()) == mark


def is_inside(name: str) -> bool:
    """True when a name stays in the folder that it is in, and is none of those that labelgen keeps for itself."""
    path = PurePosixPath(name)
    plain = str(path) == name and not path.is_absolute() and ".." not in path.parts and name != "."
    return plain and not path.parts[0].startswith(".labelgen-") and not set(name) & {"\0", "\n", "\r", "\\"}


def is_plain_file(folder: Path, name: str) -> bool:
    """True for a file that is reached through no symbolic link and is none itself."""
    steps = [folder.joinpath(*PurePosixPath(name).parts[:i]) for i in range(1, len(PurePosixPath(name).parts) + 1)]
    return not any(step.is_symlink() for step in steps) and steps[-1].is_file()


def write_durably(path: Path, content: bytes) -> None:
    """A new file that is on the disk, not only on its way there, when this returns."""
    path.parent.mkdir(parents=True, exist_ok=True)
    with path.open("xb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())


def sync_folders(folder: Path) -> None:
    """Puts the entries of a folder, and of the folders in it, on the disk."""
    for each in (folder, *(path for path in folder.rglob("*") if path.is_dir() and not path.is_symlink())):
        sync_folder(each)


def sync_folder(folder: Path) -> None:
    """Puts a folder's entries on the disk; not every system can, and that is no fault of the builder's."""
    with suppress(OSError):
        number = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(number)
        finally:
            os.close(number)


def second_name(existing: Path, new: Path) -> None:
    """The same file under a second name; a copy where the disk knows no second names."""
    new.parent.mkdir(parents=True, exist_ok=True)
    try:
        new.hardlink_to(existing)
    except OSError:
        write_durably(new, existing.read_bytes())


def remove_if_empty(folder: Path, names: Iterable[str]) -> None:
    """Removes the folders in which the names were, deepest first, where nothing is left in them."""
    parents = {parent for name in names for parent in PurePosixPath(name).parents if parent.name}
    for parent in sorted(parents, key=lambda p: -len(p.parts)):
        with suppress(OSError):
            folder.joinpath(parent).rmdir()
