"""The booklet of the whole schedule."""

from labelgen.making import Job, Result, counted
from labelgen.model.sheet import Placed, Sheet

NAME = "schedule.pdf"


def booklet(job: Job) -> Result:
    from labelgen.drawings.board_plan.plan import plan_pages
    from labelgen.drawings.booklet.booklet import BookletOf
    from labelgen.drawings.booklet.booklet import booklet as booklet_pages
    from labelgen.drawings.fascia.fascia import fascia_drawings
    from labelgen.probing.charts import plan_of_tests
    from labelgen.standards.paper_sizes import PAPERS

    description, netlist, paper, board = job.description, job.netlist, PAPERS[job.paper], job.request.board
    plans, told = job.once("plans", lambda: plan_pages(description, netlist, job.look, paper, board))
    of = BookletOf(
        description=description,
        netlist=netlist,
        look=job.look,
        paper=paper,
        figures=job.figures,
        issues=job.labelling.issues("markers", "tags"),
        board=board,
        tests=job.once("tests", lambda: plan_of_tests(description, netlist)),
        plans=plans,
        faces=lambda: job.once("fascia", lambda: fascia_drawings(description, netlist, job.look))[0],
    )
    pages, problems = booklet_pages(of)
    sheets = tuple(
        Sheet(
            width=page.drawing.width,
            height=page.drawing.height,
            placed=(Placed(x=0, y=0, drawing=page.drawing),),
            stops=page.stops,
        )
        for page in pages
    )
    words = f"the whole schedule as a booklet, on {counted(len(pages), 'page')}"
    return job.printed(NAME, words, sheets, [*problems, *told], bound=True)
