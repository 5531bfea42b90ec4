"""Markers: two for each row of a strip, one for each side of the block, every cell on its way; two for each plug."""

from collections.abc import Sequence
from dataclasses import replace

from labelgen.drawings.lettering import Lettering
from labelgen.drawings.markers.cells import GREY, Cells
from labelgen.drawings.markers.holes import BEYOND, hole_in_ear
from labelgen.drawings.markers.pieces import (
    Piece,
    higher_of,
    letters,
    most_ways,
    pieces,
    scale_of,
    tab_of,
    whole_markers,
)
from labelgen.drawings.markers.pins import pin_markers
from labelgen.drawings.moving import moved
from labelgen.model.description import Description
from labelgen.model.drawing import Drawing, Line, Shape
from labelgen.model.look import Look
from labelgen.model.netlist import Netlist, StripPlan
from labelgen.problems import Problem

LONGEST = {"a4": 277.0, "letter": 259.4}
"""mm: the paper's longer side less a margin of 10 mm at each end."""
JOINT = 0.3
"""mm: the line between ways and tab; dashed where the tab is cut off when its piece is stuck on."""

Found = tuple[list[Drawing], list[Problem]]


def marker_drawings(description: Description, netlist: Netlist, look: Look) -> Found:
    """Strip by strip, row by row the panel side's marker, then the layout side's; then plug by plug both boards'.

    Long ones in pieces, in order of ways. Drawings in mm, as they are read; a marker's ways part is a white box,
    ways × pitch long. Problems: text-does-not-fit, character-missing, label-too-large.
    """
    longest = LONGEST[description.printing.paper or ("letter" if description.words == "american" else "a4")]
    drawings: list[Drawing] = []
    problems: list[Problem] = []
    wholes = [whole_markers(strip, look) for strip in netlist.strips]
    for whole in (*wholes, *(pin_markers(netlist, plug) for plug in netlist.plugs)):
        found, told = _markers(description, netlist, look, whole, longest)
        drawings += found
        problems += told
    return drawings, problems


def _markers(description: Description, netlist: Netlist, look: Look, whole: Sequence[Piece], longest: float) -> Found:
    drawings: list[Drawing] = []
    problems: list[Problem] = []
    most = most_ways(whole, letters(description, whole[0], look), longest, look)
    if most == 0:
        return [], [_pitch_too_large(description, whole[0].strip, longest)]
    higher = [replace(one, higher=higher_of(one, look)) for one in whole]
    for piece in [piece for one in higher for piece in pieces(one, most)]:
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
    scale = scale_of(look)
    end = tab_of(lettering, piece, look)
    left, right = piece.ears
    body, height = left + piece.length + right, piece.height(scale)
    start, tab_x = (end.width, 0.0) if piece.tab_at_left else (0.0, body)
    first = start + left
    cells = Cells(
        netlist=netlist, look=look, lettering=lettering, pitch=piece.strip.pitch, side=piece.side, start=first,
        scale=scale, higher=piece.higher, ways=piece.ways if piece.reading.rising else piece.ways[::-1],
        bridges=piece.bridges, holes=[first + x for x in piece.holes], wires_below=piece.reading.wires_below,
    )  # fmt: skip
    joint = Line(
        x1=start or body, y1=0, x2=start or body, y2=height, width=JOINT, colour=GREY,
        dash=(1.2, 0.8) if piece.in_between else (),
    )  # fmt: skip
    ears = [
        *(_ear(first, start + BEYOND, height) if left else ()),
        *(_ear(first + piece.length, start + body - BEYOND, height) if right else ()),
    ]
    return Drawing(
        width=body + end.width,
        height=height,
        shapes=(*cells.shapes(), *ears, joint, *moved(end.shapes, tab_x, 0)),
        name=piece.name,
        place=lettering.place,
        board=piece.strip.board,
        label=piece.strip.id,
    )


def _ear(edge: float, hole: float, height: float) -> list[Shape]:
    """The line where the ways end, and the fixing hole beyond it."""
    line = Line(x1=edge, y1=0, x2=edge, y2=height, width=JOINT / 2, colour=GREY)
    return [line, *hole_in_ear(hole, height / 2, abs(hole - edge))]
