"""The schedule pages."""

from labelgen.lengths import Rectangle
from labelgen.making import Job, Made, Result, counted
from labelgen.model.drawing import Drawing
from labelgen.model.look import Look
from labelgen.model.netlist import Function
from labelgen.places import Place


def schedule(job: Job) -> Result:
    from labelgen.rendering.html_pages import schedule_pages
    from labelgen.rendering.svg import inline_svg

    marks = {name: inline_svg(_swatch(function, job.look)) for name, function in job.netlist.functions.items()}
    pages = schedule_pages(job.description, job.netlist, marks)
    words = f"an index, and a page for each of {counted(len(job.netlist.strips), 'strip')}"
    return Result(files=pages, made=(Made(name="schedule/index.html", what=words),), problems=[])


SWATCH = Rectangle(0, 0, 6, 4)
"""mm: about the height of a line on a page."""


def _swatch(function: Function, look: Look) -> Drawing:
    from labelgen.drawings.function_marks import mark

    shapes = tuple(mark(function, SWATCH, look))
    name = f"swatch {function.name}"
    return Drawing(width=SWATCH.width, height=SWATCH.height, shapes=shapes, name=name, place=Place(file=""))
