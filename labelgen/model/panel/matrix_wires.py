"""Which wires come to a matrix, and which leave it: for its list and its drawing."""

from dataclasses import dataclass

from labelgen.model.netlist import End, EndKind, Netlist, Wire
from labelgen.model.panel.routes import FEED, Matrix


@dataclass(frozen=True, slots=True, kw_only=True)
class Joined:
    """A terminal of a matrix, or a button, with the wire that lands there and that wire's other end."""

    wire: Wire
    far: End


class MatrixWires:
    """Looks up the wires of one matrix. Listed wires besides those that the routes need are passed over."""

    def __init__(self, matrix: Matrix, netlist: Netlist) -> None:
        self._matrix = matrix
        buttons = {row.number for row in matrix.rows}
        self._by_terminal: dict[str, Joined] = {}
        self.feeds: list[Wire] = []
        """From a contact that has the feed, button to button."""
        for wire in netlist.wires:
            for end, far in (wire.ends, wire.ends[::-1]):
                if end.kind is EndKind.MATRIX and end.thing == matrix.id:
                    self._by_terminal.setdefault(end.terminal, Joined(wire=wire, far=far))
            if any(e.kind is EndKind.ROUTE and e.thing in buttons and e.terminal == FEED for e in wire.ends):
                self.feeds.append(wire)

    def at(self, terminal: str | int) -> Joined | None:
        return self._by_terminal.get(str(terminal))

    def number(self, terminal: str | int) -> str:
        joined = self.at(terminal)
        return str(joined.wire.number) if joined else ""

    def head(self, terminal: str | int) -> str:
        """As it is painted; a matrix always has the wires of its routes."""
        joined = self.at(terminal)
        return f"{joined.wire.stem}{joined.wire.code}{joined.wire.mark}" if joined else ""
