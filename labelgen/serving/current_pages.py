"""The schedule pages of a description, made again when one of its files has changed."""

from collections.abc import Callable
from dataclasses import dataclass, field
from html import escape
from pathlib import Path
from threading import Lock

FOLDER = "schedule/"
_NEVER = -2
"""A length that no file has, be it there or missing."""
Seen = tuple[tuple[str, int, int], ...]
"""Of each file: its name, when it was written, and how long it is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Edition:
    """What could be made of the files as they were."""

    pages: dict[str, bytes] = field(default_factory=dict)
    """Path below the schedule's folder: the page."""
    trouble: str = ""
    """Why there are no pages."""
    files: tuple[Path, ...] = ()
    """What it was made from, the description first."""
    address: str = ""
    """Under which the pages will be published, as the description says."""


class CurrentPages:
    """Hands out pages; keeps the last good ones while the description has an error, and says so on them."""

    def __init__(self, file: Path, edition_of: Callable[[Path], Edition]) -> None:
        self._file = file
        self._edition_of = edition_of
        self._making = Lock()
        self._seen: Seen | None = None
        self._good = Edition()
        self._last = Edition(files=(file,))

    def page(self, path: str) -> bytes | None:
        """The page at a path below the schedule's folder; None where there is none."""
        found = self._good.pages.get(path)
        return found if found is None or not self._last.trouble else with_notice(found, self._last.trouble)

    @property
    def address(self) -> str:
        return self._good.address

    @property
    def trouble(self) -> str:
        return self._last.trouble

    def refresh(self) -> None:
        """Looks at the files; one request at a time makes the pages, meanwhile the others get those that are there."""
        if seen_of(self._last.files) == self._seen or not self._making.acquire(blocking=self._seen is None):
            return
        try:
            seen = seen_of(self._last.files)
            if seen != self._seen:
                self._last = self._edition_of(self._file)
                self._good = self._last if not self._last.trouble else self._good
                self._seen = _as_before(seen, self._last.files)
        finally:
            self._making.release()


def _as_before(seen: Seen, files: tuple[Path, ...]) -> Seen:
    """What was seen of files before something was made of them; one that nobody looked at then is looked at anew.

    What is saved in the meantime is so never taken for what the pages were made from.
    """
    known = {one[0]: one for one in seen}
    return tuple(known.get(str(file), (str(file), 0, _NEVER)) for file in files)


def seen_of(files: tuple[Path, ...]) -> Seen:
    """What tells whether a file has been written since; a file that is missing counts as well."""
    return tuple(_seen(file) for file in files)


def _seen(file: Path) -> tuple[str, int, int]:
    try:
        status = file.stat()
    except OSError:
        return (str(file), 0, -1)
    return (str(file), status.st_mtime_ns, status.st_size)


def with_notice(page: bytes, trouble: str) -> bytes:
    """The page with a line at its head that it is not of today."""
    words = f"The description has an error now, so this page is as it was before it. {trouble}"
    notice = f'<p role="status" class="stale">{escape(words)}</p>'
    head, body, rest = page.partition(b"<body>")
    return head + body + notice.encode() + rest if body else page
