"""The tracks of a fascia as shapes: what is under them, the lines, and the marks of section breaks."""

from collections.abc import Iterator, Sequence

from labelgen.drawings.fascia.forms import RIM_MM
from labelgen.drawings.fascia.plan import FasciaPlan
from labelgen.drawings.fascia.polylines import line_length, trimmed
from labelgen.drawings.fascia.section_paints import Paint
from labelgen.drawings.fascia.stroke_outlines import stroke_outline
from labelgen.drawings.fascia.style import BREAK_GAP_MM
from labelgen.drawings.fascia.tracks import Run
from labelgen.lengths import Point
from labelgen.model.drawing import Circle, Corner, Line, Outline, Shape

_BARE = "#FFFFFF"
_CORE_WIDTH = {"hollow": 0.5, "dashed": 0.5, "dotted": 0.55, "ruled": 0.2, "ticked": 0.5}
"""Of the line's width."""
_CORE_STEP = {"dashed": (2.2, 1.6), "dotted": (0.0, 1.3), "ticked": (0.7, 1.5)}
"""How long a piece of the core and the gap behind it are, in widths of the line."""


def track_shapes(plan: FasciaPlan) -> Iterator[Shape]:
    """Tables and fans; all tracks of one paint as one path, so that they are one thing to select in a drawing program;
    then the breaks' marks.
    """
    yield from _forms(plan)
    groups: dict[tuple[Paint, float], list[Run]] = {}
    for run in plan.runs:
        groups.setdefault((plan.paints[run.stretch], run.width), []).append(run)
    for (paint, width), runs in groups.items():
        lines = tuple(tuple((place.x, place.y) for place in run.places) for run in runs)
        yield Outline(runs=lines, stroke=paint.colour, stroke_width=width, round_ends=True)
    for (paint, width), runs in groups.items():
        if paint.core:
            yield _core(plan, paint.core, width, runs)
    for a, b in plan.marks:
        yield Line(x1=a.x, y1=a.y, x2=b.x, y2=b.y, width=BREAK_GAP_MM / 4, colour=plan.style.accent)


def _forms(plan: FasciaPlan) -> Iterator[Shape]:
    style = plan.style
    for table in plan.forms.tables.values():
        x, y = table.middle.x, table.middle.y
        yield Circle(x=x, y=y, radius=table.radius, fill=style.platform, stroke=style.track, stroke_width=RIM_MM)
    for fan in plan.forms.fans.values():
        run = tuple((corner.x, corner.y) for corner in fan.corners)
        yield Outline(
            runs=(run,), closed=True, fill=style.platform, stroke=style.track, stroke_width=RIM_MM, round_ends=True
        )


def _core(plan: FasciaPlan, core: str, width: float, runs: Sequence[Run]) -> Outline:
    """The core of lines as filled shapes, which an engraver passes over."""
    thick = _CORE_WIDTH[core] * width
    pieces = [piece for run in runs for piece in _pieces(run.places, _CORE_STEP.get(core), width)]
    return Outline(
        runs=tuple(stroke_outline(piece, thick) for piece in pieces), closed=True, fill=plan.style.paper or _BARE
    )


def _pieces(places: Sequence[Point], step: tuple[float, float] | None, width: float) -> Iterator[tuple[Corner, ...]]:
    """The line whole, or in pieces of one length with whole gaps between."""
    if step is None:
        yield tuple((place.x, place.y) for place in places)
        return
    piece, gap = step[0] * width, step[1] * width
    whole = line_length(places)
    count = max(1, int((whole + gap) / (piece + gap)))
    start = (whole - count * piece - (count - 1) * gap) / 2
    for number in range(count):
        first = max(0.0, start + number * (piece + gap))
        yield tuple((place.x, place.y) for place in trimmed(places, first, max(0.0, whole - first - piece)))
