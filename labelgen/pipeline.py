"""The whole flow on one screen; the public way in for other programs.

    description file → reading → Description → wiring → Netlist → checks → problems
                                                  Netlist → drawings → Drawing → imposition → Sheet → rendering → files

Every step returns its value and its problems. Nothing here writes: `make` returns the files' contents.
"""

from collections.abc import Callable
from pathlib import Path

from labelgen.checks.check_list import check
from labelgen.making import MAKERS, Checked, Files, Job, Made, Request, Result
from labelgen.problems import Problem, Severity, has_errors, in_file_order
from labelgen.reading.data_readers import built_in_kinds
from labelgen.reading.description_reader import read_description
from labelgen.wiring.expansion import expand


def check_file(path: Path) -> tuple[Checked | None, list[Problem]]:
    """Reads, expands and checks one description; every problem of the file, in file order.

    What only follows from an error that was found already is not said again.
    """
    description, problems = read_description(path)
    if description is None:
        return None, in_file_order(problems)
    netlist, wiring_problems = expand(description, built_in_kinds())
    problems = [*problems, *wiring_problems]
    found = check(description, netlist)
    if has_errors(problems):
        found = [problem for problem in found if problem.severity is Severity.ERROR]
    return Checked(description=description, netlist=netlist), in_file_order([*problems, *found])


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
