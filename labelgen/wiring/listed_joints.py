"""What the builder's own wires join: each from end to end, those that go through plugs as a whole."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from labelgen.model.description import Description, Plug
from labelgen.model.netlist import End, EndKind
from labelgen.wiring.ends import Ends
from labelgen.wiring.listed_pins import Metal, facing
from labelgen.wiring.plug_ways import joins_two

BOTH = 2
"""Ends of a wire."""
Boards = Mapping[tuple[str, str], str | None]


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    start: End
    finish: End
    pins: tuple[str, ...] = ()
    """The pins that it passes, by name."""

    @property
    def ends(self) -> tuple[End, End]:
        return self.start, self.finish

    @property
    def names(self) -> frozenset[str]:
        return frozenset((self.start.name, self.finish.name))


def listed_joints(description: Description, ends: Ends, boards: Boards) -> list[Joint]:
    """In the order of the list. What is wrong with an end is reported elsewhere."""
    plugs = {id_: plug for id_, plug in description.plugs.items() if joins_two(plug, description.boards.keys())}
    walk = _Walk(plugs, boards)
    for listed in description.wires:
        both = [end for text in (listed.start, listed.finish) if isinstance(end := ends.read(text), End)]
        known = [end for end in both if end.kind is not EndKind.PIN or end.thing in plugs]
        if len({end.point for end in known}) == BOTH:
            walk.wires.append((known[0], known[1]))
    return list(walk.joints())


class _Walk:
    """Goes along the listed wires, from board to board where they end at a pin."""

    def __init__(self, plugs: Mapping[str, Plug], boards: Boards) -> None:
        """`boards`: of each thing at which a wire may end."""
        self.wires: list[tuple[End, End]] = []
        self._plugs = plugs
        self._boards = boards
        self._at_pin: dict[Metal, list[int]] = {}
        self._used: set[int] = set()
        self._passed: set[str] = set()
        """A pin leads one wire through its plug; further ones land on it."""

    def joints(self) -> Iterator[Joint]:
        for number, both in enumerate(self.wires):
            for end in both:
                if end.kind is EndKind.PIN:
                    self._at_pin.setdefault(end.point, []).append(number)
        for number, (start, finish) in enumerate(self.wires):
            if EndKind.PIN not in {start.kind, finish.kind}:
                yield Joint(start=start, finish=finish)
            elif start.kind is not finish.kind and number not in self._used:
                thing, pin = (finish, start) if start.kind is EndKind.PIN else (start, finish)
                if (joint := self._through(number, thing, pin)) is not None:
                    self._passed |= {*joint.pins}
                    yield joint
        yield from self._more_at_pins()

    def _through(self, number: int, start: End, pin: End) -> Joint | None:
        """From a thing through pins to another; None where the list does not lead so far."""
        board, used, pins = self._board(start), {number}, [pin.name]
        while pin.name not in self._passed and (board := self._beyond(pin, board)) is not None:
            found = self._onward(pin, board, used)
            if found is None:
                return None
            number, end = found
            used.add(number)
            if end.kind is not EndKind.PIN:
                self._used |= used
                return Joint(start=start, finish=end, pins=tuple(pins))
            pin = end
            pins.append(pin.name)
        return None

    def _onward(self, pin: End, board: str, used: set[int]) -> tuple[int, End] | None:
        """The first listed wire that goes on from a pin on a board, and its other end."""
        for number in self._at_pin[pin.point]:
            start, finish = self.wires[number]
            end = finish if start.point == pin.point else start
            on_board = board in self._plugs[end.thing].boards if end.kind is EndKind.PIN else board == self._board(end)
            if on_board and number not in self._used and number not in used:
                return number, end
        return None

    def _more_at_pins(self) -> Iterator[Joint]:
        """Further wires from pins that are passed: each on the board of its other end."""
        for number, (start, finish) in enumerate(self.wires):
            if number not in self._used and start.kind is not finish.kind:
                thing, pin = (finish, start) if start.kind is EndKind.PIN else (start, finish)
                if pin.kind is EndKind.PIN and pin.name in self._passed:
                    yield Joint(start=replace(pin, board=self._board(thing)), finish=thing)

    def _board(self, end: End) -> str | None:
        return self._boards.get((end.kind, end.thing))

    def _beyond(self, pin: End, board: str | None) -> str | None:
        """The board on the other side of a plug."""
        plug = self._plugs[pin.thing]
        return facing(plug, board) if board is not None and board in plug.boards else None
