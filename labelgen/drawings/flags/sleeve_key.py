"""The strip above the slips for sleeves: when they go on, which way round, and which bore for which wire."""

from collections.abc import Iterator, Sequence

from labelgen.drawings.text_fitting import LINE_HEIGHT, break_lines, fit
from labelgen.model.description import Description
from labelgen.model.drawing import Drawing, Shape
from labelgen.model.look import Look
from labelgen.model.netlist import Wire
from labelgen.standards.conductors import outside_diameter_mm, parse_size
from labelgen.standards.sleeves import around_mm, bore_for
from labelgen.typefaces import BOLD, REGULAR

FIRST = "Sleeves go on before the ferrule."
HOW = "Curl each slip round its wire, coloured end to the screw; push a clear sleeve over it; shrink it."
CAP = 2.2
INSET = 1.5


def sleeve_key(description: Description, wires: Sequence[Wire], look: Look, width: float) -> Drawing:
    """As wide as that, as high as its words ask for. mm. Problems: none, for nothing in it is the builder's word."""
    cap = max(CAP, look.smallest_cap)
    texts = [(FIRST, BOLD), (HOW, REGULAR), *((line, REGULAR) for line in bores_said(wires))]
    lines = [
        (line, face)
        for text, face in texts
        for line in break_lines(look.says(text), width=width - 2 * INSET, cap=cap, face=face)
    ]
    shapes = list(_written(lines, width - 2 * INSET, cap))
    height = INSET + (len(lines) * LINE_HEIGHT + 0.2) * cap
    place = description.place_of_key("railway")
    return Drawing(width=width, height=height, shapes=tuple(shapes), name="key to the sleeves", place=place)


def _written(lines: Sequence[tuple[str, str]], width: float, cap: float) -> Iterator[Shape]:
    for index, (text, face) in enumerate(lines):
        fitted = fit(text, width=width, largest=cap, smallest=0.5 * cap, face=face)
        if fitted is not None:
            yield fitted.at(INSET, INSET + cap + index * LINE_HEIGHT * cap)


def bores_said(wires: Sequence[Wire]) -> list[str]:
    """`7/0.2: bore 1.6 mm, slip 3.8 mm high`, thin wires first, in one sentence."""
    known = [size for size in dict.fromkeys(wire.size for wire in wires) if parse_size(size) is not None]
    said = []
    for size in sorted(known, key=outside_diameter_mm):
        thick = outside_diameter_mm(size)
        bore = bore_for(thick)
        if bore is not None:
            said.append(f"{size}: bore {bore:g} mm (slips {around_mm(thick):.1f} mm high)")
    return [f"Sleeves that shrink 2:1. {'; '.join(said)}."] if said else []
