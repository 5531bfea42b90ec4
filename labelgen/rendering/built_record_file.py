"""Writes the as-built record: whole or not at all, after what was made is in place, and over no other run's."""

import os
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from labelgen.places import Place
from labelgen.problems import Problem
from labelgen.rendering.made_list import sync_folder, write_durably


@contextmanager
def alone(path: Path) -> Iterator[None]:
    """Holds back other runs with the same description (or folder), as far as the system can; reading is enough."""
    try:
        import fcntl

        number = os.open(path, os.O_RDONLY | os.O_NONBLOCK)
    except (ImportError, OSError):
        yield
        return
    try:
        with suppress(OSError):
            fcntl.flock(number, fcntl.LOCK_EX)
        yield
    finally:
        os.close(number)


class RecordFile:
    """One record that is about to be written: first staged beside its place, then moved there.

    A kill at any moment leaves the old record or the new one; what it leaves besides, the next run clears.
    """

    def __init__(self, path: Path, seen: bytes | None) -> None:
        """`seen`: what the file held when it was read; None when there was none."""
        self._shown = path
        self._path = Path(os.path.realpath(path))
        self._seen = seen
        self._staged = self._path.with_name(f"{self._prefix}{os.getpid()}")
        self._content = b""

    @property
    def _prefix(self) -> str:
        return f".{self._path.name}."

    def stage(self, content: bytes) -> list[Problem]:
        """Makes sure that it can be written, before anything else is. Reports cannot-write."""
        self._content = content
        if content == self._seen:
            return []
        try:
            self._clear_left_behind()
            write_durably(self._staged, content)
        except OSError as error:
            self.discard()
            return [self._cannot(error.strerror or "the system gave no reason")]
        return []

    def put_in_place(self) -> list[Problem]:
        """Reports cannot-write: also when another run has written the record since it was read."""
        if self._content == self._seen:
            return []
        try:
            with alone(self._path.parent):
                if self._now() not in (self._seen, self._content):
                    return [self._cannot("another run has written it in the meantime")]
                self._staged.replace(self._path)
                sync_folder(self._path.parent)
        except OSError as error:
            return [self._cannot(error.strerror or "the system gave no reason")]
        return []

    def discard(self) -> None:
        """Takes away what was staged and not put in place."""
        with suppress(OSError):
            self._staged.unlink(missing_ok=True)

    def _now(self) -> bytes | None:
        try:
            return self._path.read_bytes()
        except FileNotFoundError:
            return None

    def _clear_left_behind(self) -> None:
        for path in self._path.parent.iterdir():
            number = path.name.removeprefix(self._prefix)
            if path.name.startswith(self._prefix) and number.isdecimal() and not _runs(int(number)):
                path.unlink(missing_ok=True)

    def _cannot(self, reason: str) -> Problem:
        return Problem(
            code="cannot-write",
            message=f"the as-built record {self._shown} cannot be written: {reason.lower()}",
            hint="It stands beside the description. Put that right, and make it again.",
            place=Place(file=str(self._shown)),
        )


def _runs(process: int) -> bool:
    """True of another process that is still there: what it has staged is its own."""
    if process == os.getpid():
        return False
    try:
        os.kill(process, 0)
    except (ProcessLookupError, OverflowError):
        return False
    except OSError:
        return True
    return True
