"""Labels on label sheets: tags, plates and places in the cells, markers cut from full sheets."""

from collections.abc import Callable, Sequence
from dataclasses import replace

from labelgen.makers.condensed_heads import condensed_heads
from labelgen.makers.filling import filled
from labelgen.making import Job, Result, counted
from labelgen.model.description import Description
from labelgen.model.drawing import Drawing
from labelgen.model.look import CellSize, Look
from labelgen.model.netlist import Netlist
from labelgen.problems import Problem

DrawingsOf = Callable[[Description, Netlist, Look, CellSize], tuple[list[Drawing], list[Problem]]]


def _labels(job: Job, use: str, what: str, draw: DrawingsOf) -> Result:
    """Labels that fill the cells of a label sheet, in order."""
    stock, problems = job.stock(use)
    if stock is None:
        return Result(files={}, made=(), problems=problems)
    width, height = stock.room
    drawings, drawing_problems = draw(job.description, job.netlist, job.look, CellSize(width=width, height=height))
    wanted = job.labelling.chosen(use, drawings)
    done = filled(job, use, stock, wanted, alike=[one for one in job.stocks if one.print_zone is None])
    words = f"{counted(len(done.drawings), what)} on {counted(len(done.pages), 'sheet')} {stock.id}"
    problems += [*_where_chosen(job, use, [*drawing_problems, *done.problems]), *condensed_heads(use, wanted)]
    return job.printed(f"{use}.pdf", words, done.pages, problems, done.picture)


def _where_chosen(job: Job, use: str, problems: Sequence[Problem]) -> list[Problem]:
    """What is wrong between labels and their sheet, shown where the description chose the sheet, if it did."""
    if use in job.request.sheets or getattr(job.description.sheets, use) is None:
        return list(problems)
    place = job.description.place_of("sheets", use)
    of_sheets = {"label-too-large", "near-paper-edge"}
    return [replace(problem, place=place) if problem.code in of_sheets else problem for problem in problems]


def markers(job: Job) -> Result:
    from labelgen.drawings.markers.markers import marker_drawings
    from labelgen.imposition.strip_packing import pack

    stock, problems = job.stock("markers")
    if stock is None:
        return Result(files={}, made=(), problems=problems)
    drawings, drawing_problems = marker_drawings(job.description, job.netlist, job.look)
    wanted = job.labelling.chosen("markers", drawings)
    title = f"{job.description.railway}: strip markers"
    pages, packing_problems = pack(wanted, stock, title=title)
    what = "strip and pin marker" if job.netlist.plugs else "strip marker"
    words = f"{counted(len(wanted), what)} on {counted(len(pages), 'sheet')} {stock.id}"
    problems += [*drawing_problems, *packing_problems, *condensed_heads("markers", wanted)]
    return job.printed("markers.pdf", words, pages, problems)


def tags(job: Job) -> Result:
    from labelgen.drawings.tags.tags import tag_drawings

    return _labels(job, "tags", "strip tag", tag_drawings)


def plates(job: Job) -> Result:
    from labelgen.drawings.plates.plates import plate_drawings

    return _labels(job, "plates", "lever plate", plate_drawings)


def places(job: Job) -> Result:
    from labelgen.drawings.places.places import place_drawings

    return _labels(job, "places", "plug, hole, supply and device label", place_drawings)
