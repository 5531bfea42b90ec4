"""A file's text, with the place of any stretch of it; and drafts of it with single characters put in.

A draft is what is read after a mistake was mended (quotes or a blank put in), so that one mistake does not hide the
others. Nothing that a draft holds is ever written; its places are those of the builder's own text.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable
from functools import cached_property
from itertools import accumulate

from labelgen.places import Place


class SourceText:
    """Text whose lines end with a line feed; `shown` is the same text, length for length, as the builder typed it."""

    def __init__(self, text: str, file: str, shown: str | None = None) -> None:
        self.text = text
        self.file = file
        self._shown = text if shown is None else shown
        self._last_line = (-1, "")

    def replaced(self, text: str) -> "SourceText":
        """Another text of the same length to be read, shown as this one is."""
        return SourceText(text, self.file, shown=self._shown)

    @cached_property
    def _line_starts(self) -> list[int]:
        return [0, *accumulate(len(line) + 1 for line in self.text.split("\n"))]

    def line_of(self, index: int) -> int:
        """The number of the line, from 0, in which a character stands."""
        return min(bisect_right(self._line_starts, index), len(self._line_starts) - 1) - 1

    def bounds(self, line: int) -> tuple[int, int]:
        """Where a line, counted from 0, starts and ends (before its line feed)."""
        return self._line_starts[line], self._line_starts[line + 1] - 1

    def index_of(self, place: Place) -> int | None:
        """Where a place begins; None for one of another file, or of none of these lines."""
        line = place.line - 1
        if place.file != self.file or place.mark is not None or line + 1 >= len(self._line_starts):
            return None
        return self._line_starts[line] + place.column - 1

    def place(self, start: int, end: int) -> Place:
        """The place of a stretch of characters, as far as it lies on its first line."""
        line = self.line_of(start)
        first, last = self.bounds(line)
        return Place(
            file=self.file,
            line=line + 1,
            column=start - first + 1,
            length=max(1, min(end, last) - start),
            source=self._shown_line(line),
        )

    def _shown_line(self, line: int) -> str:
        """Kept while the same line is asked for, so that many places on one huge line share one string."""
        if self._last_line[0] != line:
            start, end = self.bounds(line)
            self._last_line = (line, self._shown[start:end])
        return self._last_line[1]


class Draft:
    """A source text with single characters put in at some places."""

    def __init__(self, source: SourceText, inserted: Iterable[tuple[int, str]] = ()) -> None:
        self.source = source
        self._inserted = sorted(inserted, key=lambda at: at[0])
        self._positions = [at + count for count, (at, _) in enumerate(self._inserted)]
        self.text = self._with_insertions() if self._inserted else source.text

    def _with_insertions(self) -> str:
        parts, done = [], 0
        for at, character in self._inserted:
            parts += [self.source.text[done:at], character]
            done = at
        return "".join([*parts, self.source.text[done:]])

    def original(self, index: int) -> int:
        """Where a character of the draft stands in the source text."""
        return index - bisect_left(self._positions, index)

    def index_of(self, place: Place) -> int | None:
        """Where in the draft a place of the source text begins."""
        index = self.source.index_of(place)
        return None if index is None else index + bisect_right(self._inserted, index, key=lambda at: at[0])

    def place(self, start: int, end: int) -> Place:
        """The place of a stretch of the draft, in the source text."""
        return self.source.place(self.original(start), self.original(end))

    def mended(self, inserted: Iterable[tuple[int, str]]) -> "Draft":
        """The draft with more characters put in, at places of the source text."""
        return Draft(self.source, [*self._inserted, *inserted])
