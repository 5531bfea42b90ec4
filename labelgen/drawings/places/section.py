"""Feed-hole labels: one for each rail of a section, stuck beside its hole before any wire goes in. Sizes are mm."""

from collections.abc import Iterator
from dataclasses import dataclass

from labelgen.drawings.ambiguous_numbers import needs_underline
from labelgen.drawings.flags.wires import in_own_colour
from labelgen.drawings.function_marks import mark
from labelgen.drawings.lettering import Lettering
from labelgen.drawings.places.band import BAND, band
from labelgen.drawings.places.label import CLEAR, PlaceLabel, baseline_below, every, foot_of, share, shares
from labelgen.drawings.places.site import Site
from labelgen.drawings.places.wires import Landing
from labelgen.drawings.text_fitting import centred, fit, underline
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Box, Shape
from labelgen.model.look import CellSize, Look
from labelgen.model.netlist import Netlist
from labelgen.typefaces import BOLD

LEAST_WIDTH = 24.0
"""mm: 99 mm hold four."""
RAIL = 6.4
"""The square with the rail's letter: black for the one rail, outlined for the other."""
ID_CAP, HEAD_CAP, SMALL_CAP, GAP, LINE_GAP = 3.2, 2.4, 1.6, 1.2, 1.6
STRIPE = 1.8
GREY = "#444444"


def section_labels(site: Site, netlist: Netlist, look: Look, cell: CellSize) -> Iterator[PlaceLabel]:
    """Both rails of a section, the one behind the other."""
    small = share(cell, width=LEAST_WIDTH)
    for number, landing in enumerate(site.found):
        rail = _Rail(netlist=netlist, look=look, site=site, landing=landing, dark=number % 2 == 0)
        forms = (rail.full, rail.without_name)
        yield PlaceLabel(
            name=f"feed of {netlist.shown_id(site.id)}, rail {landing.terminal}",
            key=site.id,
            path=site.path,
            board=site.board,
            tries=[*every(forms, (small, share(cell))), *every(forms, shares(cell))],
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Rail:
    netlist: Netlist
    look: Look
    site: Site
    landing: Landing
    dark: bool

    def full(self, face: Rectangle, lettering: Lettering) -> list[Shape]:
        return list(self._shapes(face, lettering, self.site.device.name))

    def without_name(self, face: Rectangle, lettering: Lettering) -> list[Shape]:
        return list(self._shapes(face, lettering, ""))

    def _shapes(self, face: Rectangle, lettering: Lettering, name: str) -> Iterator[Shape]:
        """Id, name and the wire's head at the left; at the right the rail; the wire's colour along the foot."""
        if self.site.device.not_in_use:
            yield from band("OUT OF USE", Rectangle(face.x, face.bottom - BAND, face.width, BAND), lettering)
            face = Rectangle(face.x, face.y, face.width, face.height - BAND - 0.6)
        else:
            stripe = Rectangle(face.x, face.bottom - STRIPE, face.width, STRIPE)
            yield from self._stripe(stripe)
            face = Rectangle(face.x, face.y, face.width, face.height - STRIPE - 0.8)
        side = min(RAIL, face.height)
        yield from self._rail(Rectangle(face.right - side, face.y, side, side), lettering)
        yield from self._words(face, face.width - side - GAP, name, lettering)

    def _stripe(self, place: Rectangle) -> list[Shape]:
        wire = self.landing.wires[0]
        function = in_own_colour(wire, self.netlist.functions.get(wire.function))
        return mark(function, place, self.look) if function else []

    def _rail(self, square: Rectangle, lettering: Lettering) -> Iterator[Shape]:
        paper, ink = ("#000000", "#ffffff") if self.dark else ("#ffffff", "#000000")
        edge = square.inset(0.2)
        yield Box(
            x=edge.x, y=edge.y, width=edge.width, height=edge.height, fill=paper, stroke="#000000", stroke_width=0.4
        )
        room = square.inset(0.9)
        letter = lettering.inside(self.landing.terminal, room, largest=4.2, face=BOLD)
        if letter:
            yield from centred(letter, room, colour=ink)

    def _words(self, face: Rectangle, width: float, name: str, lettering: Lettering) -> Iterator[Shape]:
        title = lettering.head(self.netlist.shown_id(self.site.id), width=width, largest=ID_CAP)
        y = face.y + ID_CAP
        if title:
            yield title.at(face.x, y)
            if needs_underline(title.text):
                yield underline(title, face.x + title.width / 2, y, characters=len(title.text))
        small = max(SMALL_CAP, lettering.smallest)
        if name:
            line = lettering.line(name, width=width, largest=small)
            if line:
                y = baseline_below(title, y, line, LINE_GAP)
                yield line.at(face.x, y, colour=GREY)
                title = line
        y = foot_of(title, y) if title else y
        yield from self._wire(Rectangle(face.x, y, face.width, face.bottom - y), lettering)

    def _wire(self, room: Rectangle, lettering: Lettering) -> Iterator[Shape]:
        """The wire's head, and where it comes from, where there is room."""
        head_cap, small = max(HEAD_CAP, lettering.smallest), max(SMALL_CAP, lettering.smallest)
        head = lettering.head(self.landing.wires[0].head, width=room.width, largest=head_cap)
        if head is None:
            return
        if head.above + CLEAR > room.height:
            lettering.too_long(head.text)
            return
        yield head.at(room.x, room.bottom)
        far = lettering.known(", ".join(self.landing.far), BOLD)
        left = room.width - head.width - GAP
        line = fit(far, width=left, largest=small, smallest=lettering.smallest) if left > 0 else None
        if line:
            yield line.at(room.right, room.bottom, anchor="end", colour=GREY)
