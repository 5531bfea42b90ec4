"""What the plan of a board says in words: below the ids, and about what no picture shows."""

from collections.abc import Iterator, Sequence

from labelgen.drawings.board_plan.things import BoardThings, Thing
from labelgen.drawings.board_plan.wires import BoardWires
from labelgen.drawings.lists.writing import count
from labelgen.model.description import Description
from labelgen.model.look import Look
from labelgen.model.netlist import Netlist


class Said:
    """Words about the boards of one railway, in those of the trade that are wanted."""

    def __init__(
        self, description: Description, netlist: Netlist, look: Look, things: BoardThings, wires: BoardWires
    ) -> None:
        self._description, self._netlist, self._look = description, netlist, look
        self._things, self._wires = things, wires

    def name(self, board: str) -> tuple[str, str]:
        """Its id as shown, and its name."""
        return self._netlist.shown_id(board), self._description.boards[board].name

    def of_thing(self, thing: Thing) -> list[str]:
        """What is said below its id."""
        says = self._look.says
        if thing.kind == "hole":
            hole = self._things.threaded.get(thing.id)
            return [count(len(hole.wires), "wire")] if hole is not None else []
        if thing.kind == "plug":
            plug = self._netlist.plug_by_id[thing.id]
            used = sum(pin.state == "used" for pin in plug.pins)
            return [f"to {self._netlist.shown_id(plug.facing(thing.board))}, {used} of {count(len(plug.pins), 'pin')}"]
        if thing.kind == "supply":
            supply = self._description.supplies[thing.id]
            said = f"{supply.volts:g} V {supply.kind}" if supply.volts else supply.kind
            return [thing.name, said]
        if thing.kind == "panel":
            return [thing.name or "panel", says("its wires go up here")]
        return [thing.name]

    def _on_strips(self, board: str) -> Iterator[tuple[str, str]]:
        """What joins ways and is no wire: bridges and diodes."""
        for strip in (strip for strip in self._netlist.strips if strip.board == board):
            diodes = dict.fromkeys(diode for way in strip.ways for diode in way.diodes)
            if strip.bridges:
                yield f"{strip.shown}, bridged:", ", ".join("+".join(map(str, ways)) for ways in strip.bridges)
            if diodes:
                each = ", ".join(f"{one.anode.terminal} to {one.cathode.terminal}" for one in diodes)
                yield f"{strip.shown}, diodes, band last:", each

    def remarks(self, board: str, *, left_out: Sequence[str]) -> Iterator[tuple[str, str]]:
        """What the picture does not show: a word to begin with, and the rest."""
        for thing in self._things.on(board, "hole"):
            hole = self._things.threaded.get(thing.id)
            if hole is not None:
                wide = f", {hole.diameter:g} mm" if hole.diameter else ""
                heads = dict.fromkeys(wire.head for wire in hole.wires)
                yield f"{hole.shown}{wide}:", f"{count(len(hole.wires), 'wire')}: {', '.join(heads)}"
        yield from self._on_strips(board)
        if self._description.boards[board].size is None:
            yield "Edges", "of the board are not drawn: its size is not given"
        missing, outside = self._things.unplaced[board], self._things.outside[board]
        if missing:
            yield "Not drawn,", f"no place is given for them: {', '.join(missing)}"
        if outside:
            yield "Not drawn,", f"their places lie outside of the board: {', '.join(outside)}"
        lost = self._wires.wires.lost.get(board, 0)
        if lost:
            yield f"{count(lost, 'wire')} not drawn:", "an end has no place, or one outside of its board"
        if left_out:
            yield "No room to write", f"{', '.join(left_out)}: see the larger plan, by printing: {{plan: full}}"
