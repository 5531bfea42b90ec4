"""Which parts of a panel could be too close to each other, found without asking each of them about each other."""

from collections import defaultdict
from collections.abc import Iterator, Sequence

from labelgen.model.panel.hole_room import Room


def near_rooms(rooms: Sequence[Room]) -> Iterator[tuple[int, int]]:
    """The pairs that may be too close, each once and in order: all others are clear of each other in any case.

    Found in square cells, as large as two of the largest parts reach: whatever is near lies in the next cell at most.
    """
    size = 2 * max((room.far for room in rooms), default=1.0)
    cells: dict[tuple[int, int], list[int]] = defaultdict(list)
    places = [(int(room.at.x // size), int(room.at.y // size)) for room in rooms]
    for number, place in enumerate(places):
        cells[place].append(number)
    for number, (column, row) in enumerate(places):
        around = ((column + dx, row + dy) for dx in (-1, 0, 1) for dy in (-1, 0, 1))
        later = sorted(other for cell in around for other in cells.get(cell, ()) if other > number)
        a = rooms[number]
        for other in later:
            b = rooms[other]
            if abs(a.at.x - b.at.x) + abs(a.at.y - b.at.y) <= a.far + b.far:
                yield number, other
