"""Where a lead of the meter is held: on which board, at what, and when that is passed in walking order."""

from labelgen.model.copper_tree import CopperTree, Part, Point, name_of, point_of
from labelgen.model.netlist import EndKind, Netlist, Wire
from labelgen.model.pulling_order import pulling_order
from labelgen.natural_order import natural

Rank = tuple[object, ...]
ORDER = (EndKind.WAY, EndKind.PIN, EndKind.LEVER, EndKind.ROUTE, EndKind.MATRIX, EndKind.DEVICE, EndKind.SUPPLY)
"""Strip by strip, plug by plug, then the rest."""
WORDS = {
    EndKind.WAY: "Strip",
    EndKind.PIN: "Plug",
    EndKind.LEVER: "Levers",
    EndKind.ROUTE: "Routes",
    EndKind.MATRIX: "Diodes of the routes",
    EndKind.DEVICE: "Devices",
    EndKind.SUPPLY: "Supplies",
}


class Places:
    """Looks up points of one railway."""

    def __init__(self, netlist: Netlist) -> None:
        self._netlist = netlist
        self._shown: dict[Point, str] = {}
        self._wires: dict[Point, list[Wire]] = {}
        for wire in netlist.wires:
            for end in wire.ends:
                self._shown.setdefault(point_of(end), end.shown)
                self._wires.setdefault(point_of(end), []).append(wire)
        self._brought = {
            (EndKind.WAY, s.id, str(way.number), ""): way.head for s in netlist.strips for way in s.ways
            if way.bridged_to is not None
        }  # fmt: skip
        self._boards: dict[tuple[EndKind, str], str | None] = {(EndKind.WAY, s.id): s.board for s in netlist.strips}
        self._boards |= {(EndKind.LEVER, lever.id): lever.board for lever in netlist.levers}
        self._tests = {(EndKind.WAY, s.id, str(way.number), "") for s in netlist.strips for way in s.ways if way.test}
        self._pulls: dict[int | str, tuple[int, str, str]] = {}
        for pull in pulling_order(netlist):
            for wire in pull.wires:
                self._pulls[wire.number] = (len(self._pulls), pull.strip or "", pull.board or "")

    def shown(self, point: Point) -> str:
        """What is painted there."""
        if point not in self._shown:
            return f"{self._netlist.shown_id(point[1])}.{point[2]}" if point[0] is not EndKind.LEVER else name_of(point)
        return self._shown[point]

    def board(self, point: Point) -> str:
        """On which board it is; "" where there is none."""
        kind, thing, _, board = point
        if kind is EndKind.PIN:
            return board
        if (kind, thing) in self._boards:
            return self._boards[kind, thing] or ""
        return next((wire.board or "" for wire in self._wires.get(point, ())), "")

    def rank(self, point: Point) -> Rank:
        return (ORDER.index(point[0]), natural(point[1]), natural(point[2]), point[3])

    def band(self, point: Point) -> str:
        """What a table calls the place: `Strip S1`."""
        words = WORDS[point[0]]
        return f"{words} {self._netlist.shown_id(point[1])}" if point[0] in (EndKind.WAY, EndKind.PIN) else words

    def handy(self, point: Point, tree: CopperTree) -> Point:
        """A test point of the same net on the same board; where there is none, the point itself."""
        if point in self._tests or not self._tests:
            return point
        board = self.board(point)
        tests = [one for one in tree.points[tree.net[point]] if one in self._tests and self.board(one) == board]
        return min(tests, key=lambda one: (one[1] != point[1], self.rank(one)), default=point)

    def first_pull(self, parts: list[Part]) -> tuple[int, str, str]:
        """When the first of some parts is passed, on which strip ("" at none) and board that is."""
        wires = [part.wire for part in parts if part.wire is not None]
        if not wires:
            point = parts[0].one
            return -1, point[1] if point[0] is EndKind.WAY else "", self.board(point)
        return min(self._pulls[wire.number] for wire in wires)

    def heads(self, point: Point) -> str:
        """What the wires there are called; of a way that has none, what its bridge brings."""
        return next((wire.head for wire in self._wires.get(point, ())), self._brought.get(point, ""))
