"""The printed list *remove and fit*: which old labels come off and which new ones go on, in walking order.

To be ticked off with a pencil under the baseboard: no capital is lower than 2.5 mm.
"""

from collections.abc import Iterator, Sequence

from labelgen.drawings.lettering import Lettering
from labelgen.drawings.lists.blocks import Band, Column, Row, paragraph, space, table, title
from labelgen.drawings.lists.cells import CAP, NOTHING, Cell, Ticks
from labelgen.drawings.lists.cut_list_pages import CAUTIONS
from labelgen.drawings.lists.pages import ListPaper, Piece, list_pages
from labelgen.drawings.lists.writing import Writer, count, writer_on
from labelgen.model.built.built_labels import PrintedLabel
from labelgen.model.built.record_fitting import NewHole, Step, Stop
from labelgen.model.description import Description
from labelgen.model.drawing import Drawing
from labelgen.model.look import Look
from labelgen.model.netlist import Netlist
from labelgen.problems import Problem
from labelgen.standards.paper_sizes import Paper
from labelgen.typefaces import BOLD

TITLE = "remove and fit"
HOW = (
    "Walk along the boards in this order. At each stop take the old labels off, then put the new ones on, and tick."
    " There is a box for each sticker: a wire has two flags, a strip two markers, a hole a label on either face.",
    "Letters are issues: a label without one is the first. When all is done, write `labelgen printed` and the name of"
    " your description, so that the next list begins here.",
)
HOLES = (
    "Seen on the face, in mm from the middles of two holes that are there. Set the dividers to the first figure, then"
    " to the second, and prick where the two arcs cross; the last column says on which side of the line through both"
    " holes. Where there are not two old holes, the figures are from the panel's edges."
)


def remove_and_fit_pages(
    description: Description,
    netlist: Netlist,
    look: Look,
    paper: Paper,
    todo: tuple[Sequence[Stop], Sequence[NewHole]],
) -> tuple[list[Drawing], list[Problem]]:
    """The pages of the list, each as large as its paper; none where nothing is to be done.

    `todo`: stop by stop what comes off and goes on, and the holes to be drilled.
    Problems: text-does-not-fit, character-missing.
    """
    stops, holes = todo
    if not stops:
        return [], []
    hint = "Shorten it, or give it a shorter `shown:`."
    lettering = Lettering(label=TITLE, place=description.place_of_key("railway"), look=look, hint=hint)
    on = ListPaper(paper=paper, railway=lettering.known(description.railway, BOLD), title=TITLE)
    writer = writer_on(on, lettering, look, CAP)
    pieces = list(_pieces(netlist, stops, holes, writer))
    return list_pages(pieces, on, lettering), list(dict.fromkeys(lettering.problems))


def _pieces(netlist: Netlist, stops: Sequence[Stop], holes: Sequence[NewHole], writer: Writer) -> Iterator[Piece]:
    for text in (CAUTIONS[0], *HOW):
        yield paragraph(writer.says(text), writer.setting)
    yield title(writer.says("Off and on, stop by stop"), writer.setting)
    rows: list[Row | Band] = []
    for stop in stops:
        rows.append(_band(netlist, stop, writer))
        rows += [_row(netlist, step, writer) for step in stop.steps]
    yield from table(_columns(), rows, writer.setting)
    if holes:
        yield space(4)
        yield from _new_holes(netlist, holes, writer)


def _columns() -> list[Column]:
    return [
        Column(heading="what", most=46),
        Column(heading="off"),
        Column(heading="old", most=30),
        Column(heading="on"),
        Column(heading="new", most=30),
        Column(heading="where", grows=True),
    ]


def _band(netlist: Netlist, stop: Stop, writer: Writer) -> Band:
    board = netlist.shown_id(stop.board) if stop.board else writer.says("No board")
    what = "plug" if any(plug.id == stop.strip for plug in netlist.plugs) else "strip"
    beside = f"{what} {netlist.shown_id(stop.strip)}" if stop.strip else writer.says("beside the strips")
    off = sum(step.count_of(step.off) for step in stop.steps if step.off is not None)
    on = sum(step.count_of(step.on) for step in stop.steps if step.on is not None)
    return Band(text=writer.known(f"{board}: {beside}"), right=f"{off} off, {on} on")


def _row(netlist: Netlist, step: Step, writer: Writer) -> Row:
    return Row(
        cells=(
            writer.words(step.called, bold=True),
            *_half(step, step.off, writer),
            *_half(step, step.on, writer),
            writer.words(_where(netlist, step)),
        )
    )


def _half(step: Step, label: PrintedLabel | None, writer: Writer) -> tuple[Cell, Cell]:
    if label is None:
        return NOTHING, NOTHING
    said = label.says if label.kind == "flags" else ""
    issue = "" if label.issue in ("", "A") else f"issue {label.issue}"
    return Ticks(count=step.count_of(label)), writer.words(
        ", ".join(filter(None, (said, issue))), bold=label is step.on
    )


def _where(netlist: Netlist, step: Step) -> str:
    if not step.ends:
        return ""
    through = f", through {', '.join(map(netlist.shown_id, step.holes))}" if step.holes else ""
    return f"{' and '.join(step.ends)}{through}"


def _new_holes(netlist: Netlist, holes: Sequence[NewHole], writer: Writer) -> Iterator[Piece]:
    yield title(writer.says("To drill"), writer.setting)
    yield paragraph(writer.says(HOLES), writer.setting, keeps=True)
    columns = [
        Column(heading="drilled"),
        Column(heading="hole"),
        Column(heading="mm", align="end"),
        Column(heading="from", most=30),
        Column(heading="mm", align="end"),
        Column(heading="and from", most=30),
        Column(heading="mm", align="end"),
        Column(heading="side", grows=True),
    ]
    rows: list[Row | Band] = []
    for panel in dict.fromkeys(hole.panel for hole in holes):
        own = [hole for hole in holes if hole.panel == panel]
        rows.append(Band(text=writer.known(f"Panel {netlist.shown_id(panel)}"), right=count(len(own), "hole")))
        rows += [_hole_row(hole, writer) for hole in own]
    yield from table(columns, rows, writer.setting)


def _hole_row(hole: NewHole, writer: Writer) -> Row:
    x, y = hole.at
    first, second = hole.froms or ((writer.says("the left edge"), x), (writer.says("the upper edge"), y))
    remark = writer.says("its old hole stays empty") if hole.moves else ""
    return Row(
        cells=(
            Ticks(),
            writer.words(hole.mark, bold=True),
            writer.words(f"{hole.diameter:g}"),
            writer.words(first[0]),
            writer.words(f"{first[1]:.1f}"),
            writer.words(second[0]),
            writer.words(f"{second[1]:.1f}"),
            writer.words(", ".join(filter(None, (hole.side, remark)))),
        )
    )
