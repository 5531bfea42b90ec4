"""The whole flow on one screen; the public way in for other programs.

    description file → reading → Description → wiring → Netlist → checks → problems
                                                  Netlist → drawings → Drawing → imposition → Sheet → rendering → files

Every step returns its value and its problems. Nothing here writes: `make` returns the files' contents.
"""

from collections.abc import Callable
from pathlib import Path

from labelgen.checks.check_list import check
from labelgen.figuring.figures import figures_of
from labelgen.makers.maker_list import MAKERS
from labelgen.making import Checked, Files, Job, Made, Request, Result, print_problems
from labelgen.model.figures import Figures
from labelgen.problems import Problem, Severity, has_errors, in_file_order
from labelgen.reading.built_record_reader import ReadRecord, read_built_record
from labelgen.reading.data_readers import built_in_kinds
from labelgen.reading.description_reader import read_description
from labelgen.wiring.expansion import Expansion
from labelgen.wiring.recorded_outcome import built_record


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
    problems = [*problems, *recorded.problems, *wiring_problems, *print_problems(description)]
    found = check(description, netlist)
    if has_errors(problems):
        found = [problem for problem in found if problem.severity is Severity.ERROR]
    checked = Checked(
        description=description,
        netlist=netlist,
        before=expansion.record,
        built=built_record(netlist, expansion.record),
        record_seen=recorded.seen,
    )
    return checked, in_file_order([*problems, *found])


def figures_of_railway(checked: Checked) -> Figures:
    """The electrical figures of a description without errors: of every throw, and of every steady load."""
    return figures_of(checked.description, checked.netlist)


def record_of(path: Path, checked: Checked) -> ReadRecord:
    """The as-built record beside a description, as it is written."""
    return read_built_record(path, checked.description.railway)


def make(checked: Checked, request: Request, progress: Callable[[str], None] = lambda _: None) -> Result:
    """The content of every file that is wanted. With an error among the problems, nothing should be written."""
    files: Files = {}
    made: list[Made] = []
    problems: list[Problem] = []
    for kind, maker in MAKERS.items():
        if request.only and kind not in request.only:
            continue
        progress(kind)
        result = maker(Job(checked, request))
        files |= result.files
        made += result.made
        problems += result.problems
    return Result(files=files, made=tuple(made), problems=in_file_order(problems))
