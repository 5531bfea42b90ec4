"""Test sheets: what must beep and what must not, motors, power, the check at a show; and the evening cards."""

from labelgen.making import DEFAULT_SHEETS, Job, Result, counted
from labelgen.model.look import CellSize
from labelgen.model.sheet import Placed, Sheet
from labelgen.reading.data_readers import stocks


def tests(job: Job) -> Result:
    """All in one file; the evening cards last, with lines to cut along."""
    from labelgen.drawings.testing.chart import pages_of_tests
    from labelgen.drawings.testing.evening_cards import evening_cards
    from labelgen.imposition.strip_packing import pack, packing_room
    from labelgen.probing.charts import plan_of_tests
    from labelgen.standards.paper_sizes import PAPERS

    plan = job.once("tests", lambda: plan_of_tests(job.description, job.netlist))
    board = job.request.board
    drawings, problems = pages_of_tests(job.description, job.netlist, plan, job.look, PAPERS[job.paper], board=board)
    pages = tuple(Sheet(width=d.width, height=d.height, placed=(Placed(x=0, y=0, drawing=d),)) for d in drawings)
    whole_page = stocks()[DEFAULT_SHEETS[job.paper]["markers"]]
    width, height = packing_room(whole_page)
    page = CellSize(width=width, height=height)
    cards, of_cards = evening_cards(job.description, job.netlist, plan, job.look, page, board=board)
    sheets, of_sheets = (
        pack(cards, whole_page, title=f"{job.description.railway}: evening cards") if cards else ((), [])
    )
    readings = sum(map(len, (plan.whole, plan.again, plan.plugged, plan.apart)))
    words = f"{counted(readings, 'reading')} with a meter, {counted(len(cards), 'evening card')}"
    return job.printed("tests.pdf", words, (*pages, *sheets), [*problems, *of_cards, *of_sheets])
