"""Writes the files that were made into their folder: all of them or none, and over nobody else's."""

import errno
import os
from collections.abc import Iterator, Mapping, Set
from contextlib import contextmanager
from pathlib import Path, PurePosixPath

from labelgen.places import Place
from labelgen.problems import Problem
from labelgen.rendering.folder_exchange import discard, make_new, staging_prefix, try_exchange
from labelgen.rendering.folder_journal import PREFIX, recover, replace_files
from labelgen.rendering.made_list import MADE_LIST, is_inside, is_plain_file, listed_in, made_in

_REASONS = {
    errno.ENOSPC: "there is no room left on the disk",
    errno.EDQUOT: "your share of the disk is full",
    errno.EACCES: "you are not allowed to write there",
    errno.EPERM: "you are not allowed to write there",
    errno.EROFS: "it is on a disk that can only be read",
    errno.ENOENT: "the folder in which it should stand does not exist",
    errno.ENOTDIR: "there is a file of that name, or one above it, where a folder should be",
    errno.ENAMETOOLONG: "its name is too long",
    errno.EBUSY: "another run is writing there at this moment",
}


def write_folder(folder: Path, files: Mapping[str, bytes], *, whole: bool = True, inside: str = "") -> list[Problem]:
    """Writes the files (relative names with `/`) into a folder, which is made if its parent is there.

    A kill at any moment leaves the earlier files or the new ones, complete; where other files share the folder, the
    next run completes what was interrupted. Only files that an earlier run made are replaced, and only as it left them;
    `whole`: those that are made no longer are removed, of names that begin with `inside`. Codes: not-our-file,
    cannot-write. ValueError: a name that leads out of the folder.
    """
    bad = [name for name in files if not is_inside(name)]
    if bad:
        raise ValueError(f"not a name inside of a folder: {bad[0]!r}")
    target = Path(os.path.realpath(folder))
    try:
        with _locked(target.parent) as alone:
            _clear_left_behind(target, alone=alone)
            made, listed = made_in(target), listed_in(target)
            problems = [_not_ours(folder, name, changed=name in listed) for name in _in_the_way(target, files, made)]
            if not problems:
                gone = {name for name in made if whole and name.startswith(inside)}
                _write(target, files, made, gone)
    except OSError as error:
        return [_cannot_write(folder, error)]
    return problems


def _write(target: Path, files: Mapping[str, bytes], made: Mapping[str, str], replaced: Set[str]) -> None:
    """`replaced`: what is removed, unless it is made again."""
    if not os.path.lexists(target):
        make_new(target, files)
        return
    if not target.is_dir():
        raise NotADirectoryError(errno.ENOTDIR, os.strerror(errno.ENOTDIR))
    if not os.access(target, os.W_OK | os.X_OK):
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES))
    earlier = sorted(name for name in made.keys() - files.keys() if is_plain_file(target, name))
    kept, gone = ({name: made[name] for name in earlier if (name in replaced) is out} for out in (False, True))
    if _holds_only(target, made.keys()) and not _stands_in(target) and try_exchange(target, files, kept):
        return
    replace_files(target, files, kept, gone)


@contextmanager
def _locked(parent: Path) -> Iterator[bool]:
    """Holds back other runs that write beside or into the same folder; True when that is sure."""
    try:
        import fcntl

        number = os.open(parent, os.O_RDONLY)
    except (ImportError, OSError):
        yield False
        return
    try:
        try:
            fcntl.flock(number, fcntl.LOCK_EX)
            sure = True
        except OSError:
            sure = False
        yield sure
    finally:
        os.close(number)


def _clear_left_behind(target: Path, *, alone: bool) -> None:
    """Completes, undoes or clears what killed runs left in and beside the folder."""
    for journal in _of_other_runs(target, PREFIX):
        if not alone and _is_alive(journal):
            raise OSError(errno.EBUSY, os.strerror(errno.EBUSY))
        recover(target, journal)
    for staging in _of_other_runs(target.parent, staging_prefix(target)):
        if alone or not _is_alive(staging):
            discard(staging, target)


def _of_other_runs(folder: Path, prefix: str) -> list[Path]:
    try:
        named = [path for path in folder.iterdir() if path.name.startswith(prefix)]
    except OSError:
        return []
    return sorted(
        path for path in named if path.name.removeprefix(prefix).isdecimal() and path.is_dir() and not path.is_symlink()
    )


def _is_alive(staging: Path) -> bool:
    """True when the process that a staging folder is named after is another one that still runs."""
    number = int(staging.name.rpartition("-")[2])
    try:
        os.kill(number, 0)
    except ProcessLookupError:
        return False
    except OSError:
        return True
    return number != os.getpid()


def _in_the_way(target: Path, files: Mapping[str, bytes], made: Mapping[str, str]) -> list[str]:
    """Names of what stands where a file of ours should go, and was not made by us."""
    listed = target / MADE_LIST
    found = [MADE_LIST] if listed.is_symlink() or listed.is_dir() else []
    for name in files:
        path = PurePosixPath(name)
        for above in reversed(path.parents[:-1]):
            step = target / above
            if os.path.lexists(step) and (step.is_symlink() or not step.is_dir()):
                found.append(str(above))
        if os.path.lexists(target / name) and not (name in made and is_plain_file(target, name)):
            found.append(name)
    return list(dict.fromkeys(found))


def _holds_only(target: Path, made: Set[str]) -> bool:
    """True when a folder holds nothing but what we made: no other file, link or folder."""
    folders = {str(above) for name in made for above in PurePosixPath(name).parents if above.name}
    for path in target.rglob("*"):
        name = path.relative_to(target).as_posix()
        is_folder = path.is_dir() and not path.is_symlink()
        if name not in folders if is_folder else name not in made | {MADE_LIST}:
            return False
    return True


def _stands_in(target: Path) -> bool:
    """True when we were started from inside the folder: exchanged, it would vanish from under the builder's shell."""
    try:
        return Path.cwd().is_relative_to(target)
    except OSError:
        return False


def _not_ours(folder: Path, name: str, *, changed: bool) -> Problem:
    why = "it was changed since labelgen made it" if changed else "labelgen did not make it"
    return Problem(
        code="not-our-file",
        message=f"{folder / name} is in the way: {why}, and so will not replace it",
        hint="Move it away or give it another name, or choose another folder with --into. Nothing was written.",
        place=Place(file=str(folder / name)),
    )


def _cannot_write(folder: Path, error: OSError) -> Problem:
    reason = _REASONS.get(error.errno or 0) or (error.strerror or "the system gave no reason").lower()
    return Problem(
        code="cannot-write",
        message=f"the folder {folder} cannot be written: {reason}",
        hint="Put that right and make it again, or choose another folder with --into.",
        place=Place(file=str(folder)),
    )
