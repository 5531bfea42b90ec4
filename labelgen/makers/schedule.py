"""The schedule pages."""

from typing import TYPE_CHECKING

from labelgen.drawings.booklet.strip_hanging import hanging
from labelgen.lengths import Rectangle
from labelgen.makers.booklet import booklet
from labelgen.making import Files, Job, Made, Result, counted
from labelgen.model.drawing import Drawing
from labelgen.model.look import Look
from labelgen.model.netlist import Function, Side, StripPlan
from labelgen.places import Place

if TYPE_CHECKING:
    from labelgen.rendering.schedule_facts import Hanging


def schedule(job: Job) -> Result:
    pages = schedule_files(job)
    words = f"an index, and {counted(len(pages) - 1, 'page')} behind it: strips, levers, plugs, panels, boards"
    book = booklet(job)
    made = (Made(name="schedule/index.html", what=words), *book.made)
    return Result(files={**pages, **book.files}, made=made, problems=book.problems)


def schedule_files(job: Job) -> Files:
    """The pages alone."""
    from labelgen.rendering.html_pages import schedule_pages
    from labelgen.rendering.svg import inline_svg
    from labelgen.tracing.page_data import page_data

    marks = {name: inline_svg(_swatch(function, job.look)) for name, function in job.netlist.functions.items()}
    return schedule_pages(
        job.description,
        job.netlist,
        marks,
        job.labelling.issues("markers", "tags", "flags", "plates", "places"),
        figures=job.figures,
        hanging={strip.id: _hanging(strip) for strip in job.netlist.strips},
        tracing=page_data(job.description, job.netlist),
    )


def _hanging(strip: StripPlan) -> "Hanging":
    from labelgen.rendering.schedule_facts import Hanging

    hung = hanging(strip)
    return Hanging(panel="left" if hung.left is Side.PANEL else "right", front=hung.front)


SWATCH = Rectangle(0, 0, 6, 4)
"""mm: about the height of a line on a page."""


def _swatch(function: Function, look: Look) -> Drawing:
    from labelgen.drawings.function_marks import mark

    shapes = tuple(mark(function, SWATCH, look))
    name = f"swatch {function.name}"
    return Drawing(width=SWATCH.width, height=SWATCH.height, shapes=shapes, name=name, place=Place(file=""))
