"""The pages behind a drilling template: every hole with its place, the drills, the order to drill, cautions."""

from collections.abc import Iterator, Mapping

from labelgen.drawings.drilling.drilling import drilling_lettering
from labelgen.drawings.drilling.order import Step, drill_of, drilling_steps
from labelgen.drawings.lists.blocks import Column, Row, paragraph, space, table, title
from labelgen.drawings.lists.cells import CAP, Ticks
from labelgen.drawings.lists.pages import ListPaper, Piece, list_pages
from labelgen.drawings.lists.writing import Writer, writer_on
from labelgen.model.description import Description
from labelgen.model.drawing import Drawing
from labelgen.model.look import Look
from labelgen.model.netlist import Netlist
from labelgen.model.panel.form import Panel
from labelgen.model.panel.hole_marks import hole_marks
from labelgen.model.panel.holes import PanelHole, panel_holes
from labelgen.problems import Problem
from labelgen.standards.paper_sizes import Paper
from labelgen.typefaces import BOLD

FIRST = (
    "Measure the check rule of the template with a steel rule before you trust it. Glue the template to the face, or"
    " tape it down on all sides; prick the middle of every circle; drill from the face, with a flat piece of"
    " wood under the panel."
)
ACRYLIC = (
    "Acrylic cracks where it is hurried, most of all after a run of holes in a row: leave its film on, clamp it flat on"
    " hard wood, take a drill ground for plastics or a step drill, turn slowly, press lightly, wet it with soapy water,"
    " lift the drill often, and let it cool. Ease off before the drill breaks through. (Common practice.)"
)
LARGE = (
    "Holes from 10 mm up come out rounder with a step drill or a hole cutter than with a twist drill (common practice)."
)
LARGE_MM = 10.0
SLOTS = "Slots: drill the hole in the middle of each, then saw and file to the outline on the template."
EYES = "Wear glasses. A panel that catches spins with the drill: clamp it, never hold it by hand."


def drilling_pages(
    description: Description, netlist: Netlist, look: Look, paper: Paper, panel_id: str
) -> tuple[list[Drawing], list[Problem]]:
    """The pages of one panel, each as large as its paper. Problems: text-does-not-fit, character-missing."""
    lettering = drilling_lettering(description, netlist, look, panel_id)
    said = f"drilling list of panel {netlist.shown_id(panel_id)}"
    on = ListPaper(paper=paper, railway=lettering.known(description.railway, BOLD), title=said)
    holes = panel_holes(description, netlist, panel_id)
    marked = dict(zip(hole_marks(netlist, holes), holes, strict=True))
    pieces = list(_pieces(description.panels[panel_id], marked, writer_on(on, lettering, look, CAP)))
    return list_pages(pieces, on, lettering), list(dict.fromkeys(lettering.problems))


def _pieces(panel: Panel, holes: Mapping[str, PanelHole], writer: Writer) -> Iterator[Piece]:
    setting = writer.setting
    for text in _cautions(holes):
        yield paragraph(writer.known(text), setting)
    for text in _too_thick(panel, holes):
        yield paragraph(writer.known(text), setting, bold=True)
    yield title("The order to drill", setting)
    yield from _order(holes, writer)
    yield space(3)
    yield title("Every hole", setting)
    yield paragraph("x and y in mm from the top left corner of the face.", setting, keeps=True)
    yield from _table(holes, writer)


def _cautions(holes: Mapping[str, PanelHole]) -> Iterator[str]:
    yield FIRST
    yield ACRYLIC
    if any(hole.diameter >= LARGE_MM for hole in holes.values()):
        yield LARGE
    if any(hole.part is not None and hole.part.slot is not None for hole in holes.values()):
        yield SLOTS
    yield EYES


def _too_thick(panel: Panel, holes: Mapping[str, PanelHole]) -> Iterator[str]:
    """One sentence for each part whose bush is too short for the panel."""
    short: dict[tuple[str, float], list[str]] = {}
    for mark, hole in holes.items():
        grips = hole.part.grips if hole.part is not None else None
        if panel.thickness is not None and grips is not None and panel.thickness > grips:
            short.setdefault((hole.part_id, grips), []).append(mark)
    for (part, grips), marks in short.items():
        yield (
            f"The panel is {panel.thickness:g} mm thick, and the bush of {part} holds {grips:g} mm at most: recess the"
            f" back at {', '.join(marks)}, or take a thinner panel."
        )


def _order(holes: Mapping[str, PanelHole], writer: Writer) -> Iterator[Piece]:
    columns = (
        Column(heading=""),
        Column(heading="drill", align="end"),
        Column(heading="holes", align="end"),
        Column(heading="in this order", grows=True, lines=40),
        Column(heading=""),
    )
    rows = [_step(number, step, writer) for number, step in enumerate(drilling_steps(holes), 1)]
    yield from table(columns, rows, writer.setting)


def _step(number: int, step: Step, writer: Writer) -> Row:
    words = writer.words
    drill = f"{step.drill:g} mm" if step.drill is not None else "hole saw"
    marks = " ".join(step.marks)
    what = f"pilots: {marks}" if step.pilot else marks
    return Row(cells=(words(f"{number}."), words(drill, bold=True), words(len(step.marks)), words(what), Ticks()))


def _table(holes: Mapping[str, PanelHole], writer: Writer) -> Iterator[Piece]:
    columns = (
        Column(heading="hole"),
        Column(heading="what for", grows=True),
        Column(heading="x", align="end"),
        Column(heading="y", align="end"),
        Column(heading="diameter", align="end"),
        Column(heading="drill", align="end"),
        Column(heading=""),
    )
    yield from table(columns, [_row(mark, hole, writer) for mark, hole in holes.items()], writer.setting)


def _row(mark: str, hole: PanelHole, writer: Writer) -> Row:
    words = writer.words
    drill = drill_of(hole)
    called = f"{hole.called}, {hole.part_id}" if hole.part_id else hole.called
    if hole.part is not None and hole.part.slot is not None:
        called += f", slot {hole.part.slot[0]:g} by {hole.part.slot[1]:g}"
    return Row(
        cells=(
            words(mark, bold=True),
            words(called),
            words(f"{hole.at.x:.2f}"),
            words(f"{hole.at.y:.2f}"),
            words(f"{hole.diameter:g}"),
            words(f"{drill:g}" if drill is not None else "hole saw"),
            Ticks(),
        )
    )
