"""Supply labels: what comes out of it, what it feeds, what its terminals are, and what to beware of. Sizes are mm."""

from collections.abc import Generator, Iterator, Sequence
from dataclasses import dataclass

from labelgen.drawings.ambiguous_numbers import needs_underline
from labelgen.drawings.lettering import Lettering
from labelgen.drawings.places.band import BAND, band
from labelgen.drawings.places.label import PlaceLabel, baseline_below, every, foot_of, shares
from labelgen.drawings.places.wires import Landing, Landings, least_row, wire_rows
from labelgen.drawings.text_fitting import LINE_HEIGHT, underline
from labelgen.lengths import Rectangle
from labelgen.model.description import Description, Supply
from labelgen.model.drawing import Line, Shape
from labelgen.model.look import CellSize, Look
from labelgen.model.netlist import EndKind, Netlist
from labelgen.natural_order import natural
from labelgen.typefaces import BOLD

ID_CAP, FIGURES_CAP, NAME_CAP, FED_CAP = 4.4, 3.0, 1.9, 1.9
GAP = 1.4
NO_MAINS = "extra-low voltage only · no mains on the layout"
DISCHARGE = "DISCHARGE THE BANK BEFORE WORKING"
WHAT = {"pulse": "DC pulse", "dc": "DC", "ac": "AC", "track": "track", "digital": "digital"}
MOST_NAMED = 60
"""Devices that are named: no label has room for more."""
GREY = "#444444"


def supply_labels(
    description: Description, netlist: Netlist, look: Look, cell: CellSize, landed: Landings
) -> Iterator[PlaceLabel]:
    """One for each supply, in natural order."""
    fed = _fed(netlist)
    for id_ in sorted(description.supplies, key=natural):
        supply = description.supplies[id_]
        found = landed.get((EndKind.SUPPLY, id_), ())
        label = _Supply(
            netlist=netlist, look=look, shown=netlist.shown_id(id_), supply=supply, found=found, fed=fed.get(id_, ())
        )
        yield PlaceLabel(
            name=f"label of supply {label.shown}",
            key=id_,
            path=("supplies", id_),
            board=supply.board or (next(iter(description.boards)) if len(description.boards) == 1 else None),
            tries=every((label.full, label.counted, label.brief), shares(cell, 2)),
        )


def _fed(netlist: Netlist) -> dict[str, tuple[str, ...]]:
    """Supply: the devices that it feeds, in natural order."""
    found: dict[str, list[str]] = {}
    for circuit in netlist.circuits:
        for supply in dict.fromkeys(circuit.supplies.values()):
            found.setdefault(supply, []).extend(circuit.devices)
    return {supply: tuple(sorted(devices, key=natural)) for supply, devices in found.items()}


@dataclass(frozen=True, slots=True, kw_only=True)
class _Supply:
    netlist: Netlist
    look: Look
    shown: str
    supply: Supply
    found: tuple[Landing, ...]
    fed: Sequence[str]

    def full(self, face: Rectangle, lettering: Lettering) -> list[Shape]:
        return list(self._shapes(face, lettering, self._below_title(), self._named()))

    def counted(self, face: Rectangle, lettering: Lettering) -> list[Shape]:
        return list(self._shapes(face, lettering, self._below_title(), self._number()))

    def brief(self, face: Rectangle, lettering: Lettering) -> list[Shape]:
        return list(self._shapes(face, lettering, "", ""))

    def _below_title(self) -> str:
        """Its name, and the fuse at it."""
        fuse = f"fuse {self.supply.fuse:g} A" if self.supply.fuse is not None else ""
        return " · ".join(part for part in (self.supply.name, fuse) if part)

    def _named(self) -> str:
        if len(self.fed) > MOST_NAMED:
            return f"feeds {len(self.fed)} devices"
        return f"feeds {', '.join(map(self.netlist.shown_id, self.fed))}" if self.fed else ""

    def _number(self) -> str:
        return f"feeds {len(self.fed)} devices" if len(self.fed) > 1 else self._named()

    def _figures(self) -> str:
        volts = f"{self.supply.volts:g} V " if self.supply.volts is not None else ""
        amps = f", {self.supply.amps:g} A" if self.supply.amps is not None else ""
        return f"{volts}{WHAT[self.supply.kind]}{amps}"

    def _shapes(self, face: Rectangle, lettering: Lettering, name: str, feeds: str) -> Iterator[Shape]:
        foot = face.bottom - BAND
        yield from band(
            self.look.says(NO_MAINS).upper(), Rectangle(face.x, foot, face.width, BAND), lettering, open_=True
        )
        if self.supply.kind == "pulse":
            foot -= BAND + 0.6
            yield from band(DISCHARGE, Rectangle(face.x, foot, face.width, BAND), lettering)
        top = yield from self._title(face, name, lettering)
        rows = Rectangle(face.x, top, face.width, len(self.found) * least_row(lettering))
        if rows.bottom > foot:
            lettering.too_long(self.shown)
            return
        yield from wire_rows(self.netlist, self.found, rows, lettering, self.look, own=self.shown)
        if feeds:
            yield from self._feeds(
                feeds, Rectangle(face.x, rows.bottom + 1.0, face.width, foot - rows.bottom - 1.0), lettering
            )

    def _title(self, face: Rectangle, name: str, lettering: Lettering) -> Generator[Shape, None, float]:
        """Id at the left, what comes out of it at the right, its name below; gives back where the rest begins."""
        half = 0.42 * face.width
        title = lettering.head(self.shown, width=half, largest=ID_CAP)
        y = face.y + ID_CAP
        if title:
            yield title.at(face.x, y)
            if needs_underline(title.text):
                yield underline(title, face.x + title.width / 2, y, characters=len(title.text))
        figures = lettering.line(self._figures(), width=face.width - half - GAP, largest=FIGURES_CAP, face=BOLD)
        if figures:
            yield figures.at(face.right, y, anchor="end")
        if name:
            cap = max(NAME_CAP, lettering.smallest)
            line = lettering.line(name, width=face.width, largest=cap)
            if line:
                y = baseline_below(title, y, line, 1.5)
                yield line.at(face.x, y, colour=GREY)
                title = line
        y = max(y + 1.4, foot_of(title, y) + 0.4) if title else y + 1.4
        yield Line(x1=face.x, y1=y, x2=face.right, y2=y, width=0.35)
        return y + 0.3

    def _feeds(self, feeds: str, room: Rectangle, lettering: Lettering) -> Iterator[Shape]:
        cap = max(FED_CAP, lettering.smallest)
        lines = lettering.lines(feeds, width=room.width, height=room.height - 1.0, largest=cap)
        for number, line in enumerate(lines):
            yield line.at(room.x, room.y + line.above + number * LINE_HEIGHT * line.cap)
