"""The whole flow on one screen; the public way in for other programs.

    description file → reading → Description → wiring → Netlist → checks → problems
                                                  Netlist → drawings → Drawing → imposition → Sheet → rendering → files

Every step returns its value and its problems. Nothing here writes: `make` returns the files' contents.
"""

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from labelgen.accepting import Accepting
from labelgen.checks.check_list import check, check_figures, said_once
from labelgen.checks.printed_labels import printed_labels
from labelgen.figuring.figures import figures_of
from labelgen.labelling import joined
from labelgen.makers.maker_list import MAKERS
from labelgen.makers.remove_and_fit import remove_and_fit
from labelgen.making import Checked, Files, Job, Made, Request, Result, print_problems
from labelgen.model.built.built_labels import STUCK_ON
from labelgen.model.built.record_printing import MadeNow, kind_of_use, with_made
from labelgen.model.figures import Figures
from labelgen.problems import Problem, Severity, has_errors, in_file_order
from labelgen.reading.built_record_reader import ReadRecord, read_built_record
from labelgen.reading.data_readers import built_in_kinds
from labelgen.reading.description_reader import read_description
from labelgen.wiring.expansion import Expansion
from labelgen.wiring.recorded_outcome import built_record

if TYPE_CHECKING:
    from labelgen.tracing.answer import Tracing


def check_file(path: Path, *, afresh: bool = False) -> tuple[Checked | None, list[Problem]]:
    """Reads, expands and checks one description with its as-built record; every problem, in file order.

    `afresh`: of the record, only what is printed counts. What only follows from an error that was found already is
    not said again.
    """
    description, problems = read_description(path)
    if description is None:
        return None, in_file_order(problems)
    recorded = read_built_record(path, description.railway)
    record = recorded.record.only_printed() if recorded.record is not None and afresh else recorded.record
    expansion = Expansion(description, built_in_kinds(), record)
    netlist, wiring_problems = expansion.netlist()
    accepting = Accepting(description)
    problems = [*problems, *recorded.problems, *wiring_problems, *print_problems(description)]
    problems = [*accepting.left(problems), *accepting.problems]
    found, figures = check(description, netlist), Figures()
    errors = accepting.left(problem for problem in found if problem.severity is Severity.ERROR)
    rest = [problem for problem in found if problem.severity is not Severity.ERROR]
    if not has_errors([*problems, *errors]):
        figures = figures_of(description, netlist)
        rest = said_once([*rest, *check_figures(description, netlist, figures)])
        rest = [*accepting.left(rest), *accepting.idle()]
    else:
        rest = [] if has_errors(problems) else accepting.left(rest)
    checked = Checked(
        description=description,
        netlist=netlist,
        before=expansion.record,
        built=built_record(netlist, expansion.record),
        record_seen=recorded.seen,
        acceptances=tuple(accepting.acceptances()),
        figures=figures,
    )
    return checked, in_file_order([*problems, *errors, *rest])


def label_problems(checked: Checked, *, drawn: bool) -> list[Problem]:
    """Of a description without errors: flags and sheets that do not suit, printed labels that are out of date.

    `drawn`: and what does not fit a label.
    """
    from labelgen.label_problems import label_problems as of_labels
    from labelgen.label_problems import sheet_problems

    found = [*sheet_problems(checked), *printed_labels(checked.description, checked.netlist, checked.built)]
    if drawn and not has_errors(found):
        found += of_labels(checked)
    return Accepting(checked.description).left(found)


def figures_of_railway(checked: Checked) -> Figures:
    """The electrical figures of a description without errors: of every throw, and of every steady load."""
    return checked.figures


def tracing_of(checked: Checked) -> "Tracing":
    """A hunt for a fault on the railway of a description without errors."""
    from labelgen.tracing.answer import Tracing

    return Tracing(checked.description, checked.netlist)


def record_of(path: Path, checked: Checked) -> ReadRecord:
    """The as-built record beside a description, as it is written."""
    return read_built_record(path, checked.description.railway)


def make(checked: Checked, request: Request, progress: Callable[[str], None] = lambda _: None) -> Result:
    """The content of every file that is wanted. With an error among the problems, nothing should be written."""
    files: Files = {}
    made: list[Made] = []
    problems: list[Problem] = []
    now, pages, kinds = MadeNow(), 0, _kinds(request)
    for kind, maker in MAKERS.items():
        if kind not in kinds:
            continue
        progress(kind)
        job = Job(checked, request)
        result = maker(job)
        files |= result.files
        made += result.made
        problems += [*result.problems, *job.stale]
        now, pages = joined(now, job.labelling.now), pages + job.labelling.pages
    if request.changed:
        job = Job(checked, request)
        result = remove_and_fit(job, checked.built, with_made(checked.built, request.scope, now).made)
        files, made, problems = files | result.files, [*made, *result.made], [*problems, *result.problems]
    left = in_file_order(Accepting(checked.description).left(problems))
    return Result(files=files, made=tuple(made), problems=left, now=now, pages=pages)


def _kinds(request: Request) -> frozenset[str]:
    """What is to be made of all there is; of what is new or changed only what is stuck on."""
    if request.again:
        return frozenset(map(kind_of_use, request.again))
    asked = request.only or frozenset(MAKERS)
    return asked & frozenset(STUCK_ON) if request.changed else asked
