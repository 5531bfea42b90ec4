"""The list that goes with labels of which only the new and changed ones are made."""

from collections.abc import Sequence

from labelgen.making import Job, Result, counted
from labelgen.model.built.built_labels import MadeLabel
from labelgen.model.built.built_record import BuiltRecord
from labelgen.model.sheet import Placed, Sheet

NAME = "remove-and-fit.pdf"


def remove_and_fit(job: Job, record: BuiltRecord, changes: Sequence[MadeLabel]) -> Result:
    """`changes`: by which what is made now differs from what is printed."""
    from labelgen.drawings.lists.remove_and_fit import remove_and_fit_pages
    from labelgen.model.built.record_fitting import new_holes, stops
    from labelgen.standards.paper_sizes import PAPERS

    found = stops(job.description, job.netlist, record, changes)
    drawings, problems = remove_and_fit_pages(
        job.description, job.netlist, job.look, PAPERS[job.paper], (found, list(new_holes(changes)))
    )
    pages = tuple(Sheet(width=d.width, height=d.height, placed=(Placed(x=0, y=0, drawing=d),)) for d in drawings)
    words = f"what comes off and goes on, in walking order, on {counted(len(pages), 'page')}"
    return job.printed(NAME, words, pages, problems)
