"""What is made for the work on a control panel: its back to solder by, its template to drill by."""

from collections.abc import Sequence
from dataclasses import dataclass

from labelgen.making import Files, Job, Made, Result, counted
from labelgen.model.drawing import Drawing
from labelgen.model.sheet import Placed, Sheet
from labelgen.problems import Problem


def back(job: Job) -> Result:
    from labelgen.drawings.back.list import back_list
    from labelgen.drawings.back.sheet import back_drawings
    from labelgen.standards.paper_sizes import PAPERS

    drawings, problems = back_drawings(job.description, job.netlist, job.look)
    result = Result(files={}, made=(), problems=problems)
    for panel, drawing in drawings.items():
        if job.wanted([drawing]):
            lists, found = back_list(job.description, job.netlist, job.look, PAPERS[job.paper], panel)
            sheets = _Sheets(
                name=f"back-{panel}.pdf",
                what=f"the back of panel {panel}",
                panel=panel,
                drawing=drawing,
                lists=lists,
                problems=found,
            )
            result = _joined(result, _printed(job, sheets))
    return result


def drilling(job: Job) -> Result:
    from labelgen.drawings.drilling.drilling import drilling_drawings
    from labelgen.drawings.drilling.pages import drilling_pages
    from labelgen.standards.paper_sizes import PAPERS

    result = Result(files={}, made=(), problems=[])
    for panel, drawing in drilling_drawings(job.description, job.netlist, job.look).items():
        if job.wanted([drawing]):
            lists, found = drilling_pages(job.description, job.netlist, job.look, PAPERS[job.paper], panel)
            sheets = _Sheets(
                name=f"drilling-{panel}.pdf",
                what=f"how to drill panel {panel}",
                panel=panel,
                drawing=drawing,
                lists=lists,
                problems=found,
            )
            result = _joined(_joined(result, _printed(job, sheets)), _hole_table(job, panel))
    return result


def _hole_table(job: Job, panel: str) -> Result:
    from labelgen.model.panel.hole_marks import hole_marks
    from labelgen.model.panel.holes import panel_holes
    from labelgen.rendering.drilling_table import drilling_csv

    holes, name = panel_holes(job.description, job.netlist, panel), f"drilling-{panel}.csv"
    made = Made(name=name, what=f"{counted(len(holes), 'hole')} of panel {panel} for a machine")
    return Result(files={name: drilling_csv(hole_marks(job.netlist, holes), holes)}, made=(made,), problems=[])


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sheets:
    """What one PDF of a panel consists of."""

    name: str
    what: str
    panel: str
    drawing: Drawing
    lists: Sequence[Drawing]
    problems: list[Problem]


def _printed(job: Job, sheets: _Sheets) -> Result:
    """The drawing at actual size on the panel's paper, then its lists."""
    from labelgen.imposition.tiling import tile
    from labelgen.standards.paper_sizes import PAPERS

    pages = tile(sheets.drawing, PAPERS[job.description.panels[sheets.panel].paper or job.paper])
    pages += tuple(Sheet(width=d.width, height=d.height, placed=(Placed(x=0, y=0, drawing=d),)) for d in sheets.lists)
    return job.printed(sheets.name, f"{sheets.what} on {counted(len(pages), 'sheet')}", pages, sheets.problems)


def _joined(first: Result, second: Result) -> Result:
    files: Files = first.files | second.files
    return Result(files=files, made=(*first.made, *second.made), problems=[*first.problems, *second.problems])
