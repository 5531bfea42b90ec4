"""What a file says, as plain values, and where each of them stands."""

from bisect import bisect_right
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Any, NamedTuple

from labelgen.places import Path, Place, Places
from labelgen.problems import Problem
from labelgen.reading.source_text import Draft


class NodeTree:
    """Finds the place of any key or value: satisfies `labelgen.places.Places`.

    Nodes are numbers from 0, the top one first. Places are made only when they are asked for.
    """

    def __init__(self, draft: Draft) -> None:
        self.draft = draft
        self._place_of = lru_cache(maxsize=256)(draft.place)
        """Things of one place, its labels for instance, are asked about one after the other: they share it."""
        self.starts: list[int] = []
        self.ends: list[int] = []
        self.keys: dict[int, dict[str, tuple[int, int]]] = {}
        """Of a mapping: key, its node and its value's node."""
        self.items: dict[int, list[int]] = {}
        self._ordered: dict[int, tuple[list[int], list[tuple[str | int, int]]]] = {}

    def add(self, start: int, end: int) -> int:
        self.starts.append(start)
        self.ends.append(end)
        return len(self.starts) - 1

    def place(self, node: int) -> Place:
        return self._place_of(self.starts[node], self.ends[node])

    def of_key(self, path: Path) -> Place:
        key, value, _ = self._find(path)
        return self._place(value if key is None else key)

    def of_value(self, path: Path) -> Place:
        """Where nothing is written behind a key, and for a value of many lines, the key that it belongs to."""
        key, value, found = self._find(path)
        collection = value in self.keys or value in self.items
        if key is None or (not self._has_no_place(value) if found else not collection):
            return self._place(value)
        return self._place(key)

    def path_at(self, place: Place) -> Path:
        """The path of the innermost key or item that reaches over a place."""
        index = self.draft.index_of(place)
        path: list[str | int] = []
        node: int | None = 0
        while index is not None and node is not None:
            node = self._child_at(node, index, path)
        return tuple(path)

    def _child_at(self, node: int, index: int, path: list[str | int]) -> int | None:
        """The child of a node that reaches over a character, with its part added to the path."""
        starts, children = self._children(node)
        number = bisect_right(starts, index) - 1
        if number < 0 or index >= max(self.ends[children[number][1]], starts[number] + 1):
            return None
        path.append(children[number][0])
        return children[number][1]

    def _children(self, node: int) -> tuple[list[int], list[tuple[str | int, int]]]:
        """Of a collection: where each child begins, in order, and its part of the path with its node."""
        if node not in self._ordered:
            keyed: list[tuple[int, str | int, int]] = [
                (self.starts[key], part, value) for part, (key, value) in self.keys.get(node, {}).items()
            ]
            keyed += [(self.starts[item], number, item) for number, item in enumerate(self.items.get(node, []))]
            keyed.sort()
            self._ordered[node] = [start for start, _, _ in keyed], [(part, value) for _, part, value in keyed]
        return self._ordered[node]

    def _place(self, node: int) -> Place:
        return self.place(node) if self.starts else self.draft.place(0, 1)

    def _has_no_place(self, node: int) -> bool:
        """True of an empty value and of a collection that is not in brackets."""
        start, end = self.starts[node], self.ends[node]
        return start == end or ((node in self.keys or node in self.items) and self.draft.text[start] not in "[{")

    def _find(self, path: Path) -> tuple[int | None, int, bool]:
        """The last key on the way, the last node, and whether the whole path is there."""
        key: int | None = None
        node = 0
        for part in path:
            members = self.keys.get(node, {})
            items = self.items.get(node, [])
            if isinstance(part, int) and part < len(items):
                key, node = None, items[part]
            elif str(part) in members:
                key, node = members[str(part)]
            else:
                return key, node, False
        return key, node, True


@dataclass(frozen=True, slots=True, kw_only=True)
class Document:
    """`value`: dicts, lists and texts as they were typed, None where nothing stands behind a key."""

    value: dict[str, Any]
    places: Places


@dataclass(frozen=True, slots=True, kw_only=True)
class Mend:
    """A mistake in the form, and the characters that make it what was probably meant: (place in the source, text)."""

    problem: Problem
    inserted: tuple[tuple[int, str], ...] = ()


class Scalar(NamedTuple):
    """A text in the draft, as far as its neighbourhood matters."""

    start: int
    end: int
    quoted: bool
    in_brackets: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Trouble:
    """Where the YAML library could not go on. Indices are those of the draft."""

    what: str
    """The library's own words: to be understood here, never shown."""
    index: int
    around: str = ""
    around_index: int = 0
    last: Scalar | None = None


@dataclass(slots=True, kw_only=True)
class Composed:
    """What one pass over a draft has found."""

    tree: NodeTree
    value: Any = None
    problems: list[Problem] = field(default_factory=list)
    mends: list[Mend] = field(default_factory=list)
    trouble: Trouble | None = None
    whole: bool = True
    """False when the value is not what the builder meant, so that looking closer would only confuse."""
    scalars: list[Scalar] = field(default_factory=list)
    """In order, when a `#` may have swallowed something."""
    closed: set[int] = field(default_factory=set)
    """Where bracketed collections end."""
