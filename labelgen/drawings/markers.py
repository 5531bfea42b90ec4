"""Strip markers: two for each strip, one for each side of the block, every cell exactly on its way."""

from labelgen.drawings.lettering import Lettering
from labelgen.drawings.marker_cells import GREY, Cells, height_of
from labelgen.drawings.marker_pieces import Piece, letters, most_ways, pieces, scale_of, tab_of, whole_markers
from labelgen.drawings.moving import moved
from labelgen.model.description import Description
from labelgen.model.drawing import Drawing, Line
from labelgen.model.look import Look
from labelgen.model.netlist import Netlist, StripPlan
from labelgen.problems import Problem

LONGEST = {"a4": 277.0, "letter": 259.4}
"""mm: the paper's longer side less a margin of 10 mm at each end."""
JOINT = 0.3
"""mm: the line between ways and tab; dashed where the tab is cut off when its piece is stuck on."""


def marker_drawings(description: Description, netlist: Netlist, look: Look) -> tuple[list[Drawing], list[Problem]]:
    """Strip by strip the panel side's marker, then the layout side's; long ones in pieces, in order of ways.

    Drawings in mm, as they are read; a marker's ways part is a white box, ways × pitch long. Problems:
    text-does-not-fit, character-missing, label-too-large.
    """
    drawings: list[Drawing] = []
    problems: list[Problem] = []
    longest = LONGEST[description.printing.paper or ("letter" if description.words == "american" else "a4")]
    for strip in netlist.strips:
        both = whole_markers(strip, look)
        most = most_ways(both, letters(description, both[0], look), longest, look)
        if most == 0:
            problems.append(_pitch_too_large(description, strip, longest))
            continue
        for piece in [piece for whole in both for piece in pieces(whole, most)]:
            lettering = letters(description, piece, look)
            drawings.append(_marker(netlist, look, piece, lettering))
            problems += dict.fromkeys(lettering.problems)
    return drawings, problems


def _pitch_too_large(description: Description, strip: StripPlan, longest: float) -> Problem:
    return Problem(
        code="label-too-large",
        message=f"the ways of strip {strip.shown} are {strip.pitch:g} mm apart: "
        f"not even one fits on a page {longest:g} mm long",
        hint="`pitch` is the distance from one screw to the next, `measured` that from the first to the last, in mm.",
        place=description.place_of("strips", strip.id, "pitch"),
    )


def _marker(netlist: Netlist, look: Look, piece: Piece, lettering: Lettering) -> Drawing:
    strip, scale = piece.strip, scale_of(look)
    end = tab_of(lettering, piece, look)
    length, height = len(piece.ways) * strip.pitch, height_of(strip, scale)
    start, tab_x = (end.width, 0.0) if piece.tab_at_left else (0.0, length)
    cells = Cells(
        netlist=netlist, look=look, lettering=lettering, strip=strip, side=piece.side, start=start, scale=scale,
        ways=piece.ways if piece.reading.rising else piece.ways[::-1], wires_below=piece.reading.wires_below,
    )  # fmt: skip
    joint = Line(
        x1=start or length, y1=0, x2=start or length, y2=height, width=JOINT, colour=GREY,
        dash=(1.2, 0.8) if piece.in_between else (),
    )  # fmt: skip
    return Drawing(
        width=length + end.width,
        height=height,
        shapes=(*cells.shapes(), joint, *moved(end.shapes, tab_x, 0)),
        name=piece.name,
        place=lettering.place,
        board=strip.board,
    )
