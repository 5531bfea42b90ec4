"""The list, inside an output folder, of the files that labelgen made there: no others are replaced or removed."""

import os
from collections.abc import Iterable
from contextlib import suppress
from pathlib import Path, PurePosixPath

MADE_LIST = ".labelgen-made"
_HEAD = "# Made by labelgen, which replaces and removes these files here and no others.\n"


def made_list_bytes(names: Iterable[str]) -> bytes:
    """The list as it is written: one name a line, with `/` between folders, sorted."""
    return (_HEAD + "".join(f"{name}\n" for name in sorted(names))).encode()


def made_in(folder: Path) -> frozenset[str]:
    """The names on a folder's list; none when there is no list that can be read. Names that lead out are left out."""
    listed = folder / MADE_LIST
    if listed.is_symlink() or not listed.is_file():
        return frozenset()
    lines = listed.read_bytes().decode("utf-8", "replace").split("\n")
    return frozenset(line for line in lines if not line.startswith("#") and is_inside(line))


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
