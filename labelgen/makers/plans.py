"""The plans of the boards, from below and from above: what to look at while lying under one."""

from labelgen.making import Job, Result, counted
from labelgen.model.drawing import Drawing
from labelgen.model.sheet import Placed, Sheet
from labelgen.problems import Problem
from labelgen.standards.paper_sizes import Paper


def plan(job: Job) -> Result:
    """A file for each board on which something has a place. Reports no-plan, where plans were asked for by name."""
    from labelgen.drawings.board_plan.plan import plan_drawings, plan_pages
    from labelgen.standards.paper_sizes import PAPERS

    description, netlist, look, board = job.description, job.netlist, job.look, job.request.board
    paper, full = PAPERS[job.paper], description.printing.plan == "full"
    if full:
        drawn, problems = plan_drawings(description, netlist, look, board)
    else:
        drawn, problems = job.once("plans", lambda: plan_pages(description, netlist, look, paper, board))
    result = Result(files={}, made=(), problems=[*problems, *_without(job, drawn)])
    for one, drawings in drawn.items():
        pages = _tiles(drawings, paper) if full else tuple(map(_page, drawings))
        words = f"board {netlist.shown_id(one)} from below and from above, on {counted(len(pages), 'page')}"
        printed = job.printed(f"plan-{one}.pdf", words, pages, problems)
        made = (*result.made, *printed.made)
        result = Result(files=result.files | printed.files, made=made, problems=result.problems)
    return result


def _page(drawing: Drawing) -> Sheet:
    return Sheet(width=drawing.width, height=drawing.height, placed=(Placed(x=0, y=0, drawing=drawing),))


def _tiles(drawings: list[Drawing], paper: Paper) -> tuple[Sheet, ...]:
    from labelgen.imposition.tiling import tile

    return tuple(page for drawing in drawings for page in tile(drawing, paper))


def _without(job: Job, drawn: dict[str, list[Drawing]]) -> list[Problem]:
    """What is said of boards that have no plan; not where everything is made, for then other files say as much."""
    asked = [board for board in job.description.boards if job.request.board in (None, board)]
    without = [job.netlist.shown_id(board) for board in asked if board not in drawn]
    if "plan" not in job.request.only or (asked and not without):
        return []
    what = f"nothing on board {', '.join(without)} has a place" if asked else "no boards are described"
    return [
        Problem(
            code="no-plan",
            message=f"{what}, so there is no plan",
            hint="Write `at: [x, y]` at its strips, devices and supplies, in mm from the board's own top left corner.",
            place=job.description.place_of_key("boards"),
        )
    ]
