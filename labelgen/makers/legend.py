"""Legends: what letters, colours, patterns and signs mean, on cards to be cut out and hung up."""

from labelgen.making import DEFAULT_SHEETS, Job, Result, counted
from labelgen.model.look import CellSize
from labelgen.reading.data_readers import stocks


def legend(job: Job) -> Result:
    """Cards on full sheets of the paper, with cut lines."""
    from labelgen.drawings.legend.legend import legend_drawings
    from labelgen.imposition.strip_packing import pack, packing_room

    whole_page = stocks()[DEFAULT_SHEETS[job.paper]["markers"]]
    width, height = packing_room(whole_page)
    page = CellSize(width=width, height=height)
    drawings, problems = legend_drawings(job.description, job.netlist, job.look, page)
    wanted = job.wanted(drawings)
    if not wanted:
        return Result(files={}, made=(), problems=problems)
    pages, packing_problems = pack(wanted, whole_page, title=f"{job.description.railway}: legend")
    words = f"{counted(len(wanted), 'legend card')} on {counted(len(pages), 'sheet')}"
    return job.printed("legend.pdf", words, pages, [*problems, *packing_problems])
