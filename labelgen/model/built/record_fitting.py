"""What is to be taken off and stuck on after a change: in walking order, board by board and strip by strip."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from labelgen.model.built.built_labels import MadeLabel, PrintedLabel
from labelgen.model.built.built_record import BuiltRecord, BuiltWire, strip_of
from labelgen.model.description import Description
from labelgen.model.netlist import Netlist
from labelgen.model.pulling_order import pulling_order
from labelgen.natural_order import natural


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One label, or the labels that say the same: off, on, or one for the other."""

    change: MadeLabel
    called: str
    """What it is: `#17`, `marker A1`."""
    ends: tuple[str, ...] = ()
    """Of flags: where they are; of a plate, its panel."""
    holes: tuple[str, ...] = ()
    """Through which its wire goes."""

    @property
    def off(self) -> PrintedLabel | None:
        return self.change.was

    @property
    def on(self) -> PrintedLabel | None:
        return self.change.now

    @property
    def count(self) -> int:
        """How many stickers are to come off, or to go on where none come off."""
        return self.count_of(self.change.either)

    def count_of(self, label: PrintedLabel) -> int:
        """How many stickers: as recorded; else as many as the one that takes its place; else as is usual."""
        known = next((one.pieces for one in (label, self.on, self.off) if one is not None and one.pieces), 0)
        return known or _usual_count(label)


@dataclass(frozen=True, slots=True, kw_only=True)
class Stop:
    """Where the builder stands while these are done."""

    board: str
    """"": none."""
    strip: str
    """Or the plug; "": at the board's holes and devices, or at its panel."""
    steps: tuple[Step, ...]


def _usual_count(label: PrintedLabel) -> int:
    """A flag at either end, a marker at either side, but for those that are known by board; a hole has two faces."""
    if label.kind == "places":
        return 2 if label.says.startswith("labels of hole") else 1
    return 2 if label.kind in ("flags", "markers") and " on " not in label.label else 1


CALLED = {"markers": "marker", "tags": "tag", "plates": "plate", "places": "", "fascia": "fascia"}
"""What stands before what a label says, in the list."""
_ORDER = ("markers", "tags", "flags", "places", "plates", "fascia")


def stops(description: Description, netlist: Netlist, record: BuiltRecord, changes: Sequence[MadeLabel]) -> list[Stop]:
    """Boards as described, strips in natural order, then what is at no strip; what only comes off is done first."""
    finder = _Finder(netlist, record)
    found: dict[tuple[str, str], list[tuple[tuple[object, ...], Step]]] = {}
    for change in changes:
        if change.either.kind in _ORDER:
            stop, rank, step = finder.placed(change)
            found.setdefault(stop, []).append((rank, step))
    boards = {board: turn for turn, board in enumerate(description.boards)}
    order = sorted(found, key=lambda at: (boards.get(at[0], len(boards)), natural(at[0]), not at[1], natural(at[1])))
    return [
        Stop(board=at[0], strip=at[1], steps=tuple(step for _, step in sorted(found[at], key=lambda one: one[0])))
        for at in order
    ]


class _Finder:
    """Finds where a label is, on the railway as it is now or as it was."""

    def __init__(self, netlist: Netlist, record: BuiltRecord) -> None:
        self._netlist = netlist
        kept = (label for label in record.printed if label.kind in ("markers", "tags") and " on " not in label.label)
        self._strips = {label.label: label.board for label in kept}
        self._strips |= {strip.id: strip.board or "" for strip in netlist.strips}
        self._gone = {str(wire.number): wire for wire in record.retired}
        self._turn = {
            str(wire.number): (turn, pull.strip or "", wire)
            for turn, (pull, wire) in enumerate((pull, wire) for pull in pulling_order(netlist) for wire in pull.wires)
        }

    def placed(self, change: MadeLabel) -> tuple[tuple[str, str], tuple[object, ...], Step]:
        """Board and strip, what sorts it there, and the step."""
        label = change.either
        if label.kind == "flags":
            return self._flag(change, label.label.partition(" on ")[0])
        thing, _, there = label.label.partition(" on ")
        if there and label.kind in ("markers", "places"):  # a plug's
            strip = thing
        else:
            strip = label.label if label.kind in ("markers", "tags") and label.label in self._strips else ""
        rank = (change.now is not None, _ORDER.index(label.kind), natural(label.label))
        called = " ".join(filter(None, (CALLED[label.kind], label.says)))
        lever = self._netlist.lever_by_id.get(label.label) if label.kind == "plates" else None
        where = (f"panel {self._netlist.shown_id(lever.panel)}",) if lever is not None and lever.panel else ()
        return (label.board, strip), rank, Step(change=change, called=called, ends=where)

    def _flag(self, change: MadeLabel, number: str) -> tuple[tuple[str, str], tuple[object, ...], Step]:
        board, flags = change.either.board, _ORDER.index("flags")
        called = number if number.startswith("#") else f"#{number}"
        if number in self._turn:
            turn, strip, wire = self._turn[number]
            ends = (wire.start.shown, wire.finish.shown)
            step = Step(change=change, called=called, ends=ends, holes=wire.holes)
            here = (board, strip if self._strips.get(strip) == board else "")
            return here, (change.now is not None, flags, (turn,)), step
        gone = self._gone.get(number)
        if gone is None:
            return (board, ""), (False, flags, ()), Step(change=change, called=called)
        strip, way = self._landing(gone, board)
        step = Step(change=change, called=called, ends=(gone.start, gone.finish))
        return (board, strip), (False, flags, (way,)), step

    def _landing(self, wire: BuiltWire, board: str) -> tuple[str, int]:
        """The strip and way of a wire that is gone; its first on that board."""
        found = [
            (strip_of(end), int(way))
            for end in (wire.start, wire.finish)
            if (way := end.rpartition(".")[2]).isdecimal() and self._strips.get(strip_of(end)) == board
        ]
        return min(found, key=lambda at: (natural(at[0]), at[1]), default=("", 0))


@dataclass(frozen=True, slots=True, kw_only=True)
class NewHole:
    """A hole to be drilled into a panel that is drilled already; mm, seen on its face."""

    panel: str
    mark: str
    diameter: float
    at: tuple[float, float]
    froms: tuple[tuple[str, float], ...] = ()
    """Two old holes, and how far the middle of the new one is from theirs; none: there are not two."""
    side: str = ""
    """Which of the two places that are so far from both."""
    moves: bool = False
    """There is a hole of that name already, elsewhere or narrower."""


def new_holes(changes: Sequence[MadeLabel]) -> Iterator[NewHole]:
    """Of every fascia that takes the place of another, whose holes are recorded."""
    from labelgen.model.panel.hole_dimensions import dimensioned

    for change in changes:
        if change.now is not None and change.was is not None and change.was.holes:
            old, now = change.was.holes, change.now.holes
            staying = {mark: place for mark, place in old.items() if now.get(mark) == place}
            for mark, place in now.items():
                if place not in old.values():
                    x, y, diameter = (length / 100 for length in place)
                    froms, side = dimensioned((x, y), {m: (p[0] / 100, p[1] / 100) for m, p in staying.items()})
                    yield NewHole(
                        panel=change.now.label, mark=mark, diameter=diameter, at=(x, y), froms=froms, side=side,
                        moves=mark in old,
                    )  # fmt: skip
