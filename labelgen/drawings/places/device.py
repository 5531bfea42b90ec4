"""Device tags: stuck on the timber beside a motor or other device, with its terminals and where their wires go."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from labelgen.drawings.ambiguous_numbers import needs_underline
from labelgen.drawings.lettering import Lettering
from labelgen.drawings.places.band import BAND, band
from labelgen.drawings.places.label import CLEAR, PlaceLabel, baseline_below, every, foot_of, share, shares
from labelgen.drawings.places.site import Site
from labelgen.drawings.places.wires import wire_rows
from labelgen.drawings.text_fitting import LINE_HEIGHT, Fitted, underline
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Line, Shape
from labelgen.model.look import CellSize, Look
from labelgen.model.netlist import Netlist

LEFT_SHARE, WIDEST_LEFT = 0.38, 26.0
"""Of a tag's width: its id, lever and name."""
ID_CAP, TITLE_CAP, LEVER_CAP, NAME_CAP, NOTE_CAP = 4.2, 3.2, 2.4, 1.9, 1.5
GAP, LINE_GAP = 1.4, 1.5
NOTE = 6.4
"""mm of height for a note: on a swap pair, on resistors of lamps."""
SWAP_NOTE = "⇄ swap these two if it shorts"
GREY = "#444444"


def device_label(site: Site, netlist: Netlist, look: Look, cell: CellSize) -> PlaceLabel:
    tag = _Tag(netlist=netlist, look=look, site=site)
    return PlaceLabel(
        name=f"tag of {netlist.shown_id(site.id)}",
        key=site.id,
        path=site.path,
        board=site.board,
        tries=[
            *every((tag.named,), (share(cell), share(cell, whole=True), *shares(cell))),
            *every((tag.full, tag.without_name, tag.without_notes, tag.in_two_columns), shares(cell)),
        ],
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Tag:
    netlist: Netlist
    look: Look
    site: Site

    def named(self, face: Rectangle, lettering: Lettering) -> list[Shape]:
        """With every far end by its name."""
        return self._shapes(face, lettering, name=self.site.device.name, reason=True, notes=True, named=True)

    def full(self, face: Rectangle, lettering: Lettering) -> list[Shape]:
        return self._shapes(face, lettering, name=self.site.device.name, reason=True, notes=True)

    def without_name(self, face: Rectangle, lettering: Lettering) -> list[Shape]:
        return self._shapes(face, lettering, name="", reason=True, notes=True)

    def without_notes(self, face: Rectangle, lettering: Lettering) -> list[Shape]:
        return self._shapes(face, lettering, name="", reason=False, notes=False)

    def in_two_columns(self, face: Rectangle, lettering: Lettering) -> list[Shape]:
        """For many terminals on a low label: id and lever over them, and nothing else."""
        shapes: list[Shape] = []
        if self.site.device.not_in_use:
            shapes += band("OUT OF USE", Rectangle(face.x, face.y, face.width, BAND), lettering)
            face = Rectangle(face.x, face.y + BAND + 1.0, face.width, face.height - BAND - 1.0)
        said = " · ".join([self.netlist.shown_id(self.site.id), *self._lever()])
        title = lettering.head(said, width=face.width, largest=TITLE_CAP)
        shapes += [title.at(face.x, face.y + title.cap)] if title else []
        top = face.y + max(TITLE_CAP, lettering.smallest) + GAP
        half, first = (face.width - 2 * GAP) / 2, -(-len(self.site.found) // 2)
        for x, found in ((face.x, self.site.found[:first]), (face.right - half, self.site.found[first:])):
            column = Rectangle(x, top, half, face.bottom - top)
            shapes += wire_rows(self.netlist, found, column, lettering, self.look)
        return shapes

    def _lever(self) -> list[str]:
        """Which lever works it, and whether it is the other way round here."""
        lever = self.netlist.lever_by_id.get(self.site.circuit.lever or "")
        turned = ", swapped" if self.site.device.swapped else ""
        return [f"lever {lever.shown}{turned}"] if lever is not None else []

    def _shapes(
        self, face: Rectangle, lettering: Lettering, *, name: str, reason: bool, notes: bool, named: bool = False
    ) -> list[Shape]:
        shapes: list[Shape] = []
        if self.site.device.not_in_use:
            said = f"OUT OF USE: {self.site.device.not_in_use}" if reason else "OUT OF USE"
            shapes += band(said, Rectangle(face.x, face.y, face.width, BAND), lettering)
            face = Rectangle(face.x, face.y + BAND + 1.0, face.width, face.height - BAND - 1.0)
        width = min(WIDEST_LEFT, LEFT_SHARE * face.width)
        x = face.x + width + GAP
        column = Rectangle(face.x, face.y, width, face.height)
        for said in self._notes() if notes else ():
            shapes += self._note(said, column, lettering)
            column = Rectangle(face.x, face.y, width, column.height - NOTE)
        shapes += self._called(column, name, lettering)
        shapes.append(Line(x1=x, y1=face.y, x2=x, y2=face.bottom, width=0.25))
        table = Rectangle(x + GAP, face.y, face.right - x - GAP, face.height)
        return [*shapes, *wire_rows(self.netlist, self.site.found, table, lettering, self.look, named=named)]

    def _notes(self) -> Iterator[str]:
        if any(landing.swap for landing in self.site.found):
            yield SWAP_NOTE
        for ohms, terminals in groupby(self.site.resistors, key=lambda one: one[1]):
            yield f"{ohms} in series at {', '.join(terminal for terminal, _ in terminals)}"

    @staticmethod
    def _note(said: str, column: Rectangle, lettering: Lettering) -> Iterator[Shape]:
        """In lines at the column's foot."""
        cap = max(NOTE_CAP, lettering.smallest)
        lines = lettering.lines(said, width=column.width, height=NOTE, largest=cap)
        for number, line in enumerate(reversed(lines)):
            yield line.at(column.x, column.bottom - 0.4 - number * LINE_HEIGHT * line.cap, colour=GREY)

    def _called(self, box: Rectangle, name: str, lettering: Lettering) -> Iterator[Shape]:
        """Id in large, its lever, its name."""
        title = lettering.head(self.netlist.shown_id(self.site.id), width=box.width, largest=ID_CAP)
        y = box.y + ID_CAP
        if title:
            yield title.at(box.x, y)
            if needs_underline(title.text):
                yield underline(title, box.x + title.width / 2, y, characters=len(title.text))
        before = title
        for words in self._lever():
            said = lettering.line(words, width=box.width, largest=max(LEVER_CAP, lettering.smallest))
            if said:
                y = baseline_below(before, y, said, LINE_GAP)
                yield said.at(box.x, y)
                before = said
        top = foot_of(before, y) + CLEAR if before else y
        if name:
            yield from self._named(name, Rectangle(box.x, top, box.width, box.bottom - top), lettering)

    @staticmethod
    def _named(name: str, room: Rectangle, lettering: Lettering) -> Iterator[Shape]:
        cap = max(NAME_CAP, lettering.smallest)
        lines = lettering.lines(name, width=room.width, height=room.height, largest=cap)
        top = room.y + max(0.0, min(LINE_GAP - CLEAR, room.height - _height(lines)))
        for number, line in enumerate(lines):
            yield line.at(room.x, top + lines[0].above + number * LINE_HEIGHT * line.cap, colour=GREY)


def _height(lines: Sequence[Fitted]) -> float:
    """From the top of the first one's ink to the foot of the last one's."""
    return lines[0].above + (len(lines) - 1) * LINE_HEIGHT * lines[0].cap + lines[-1].below if lines else 0.0
