"""Makes the schedule pages of a description as it is now."""

from pathlib import Path

from labelgen.making import Request
from labelgen.model.built_record import record_path
from labelgen.pipeline import check_file, make
from labelgen.problems import Problem, Severity, has_errors
from labelgen.serving.current_pages import FOLDER, Edition


def edition_of(file: Path) -> Edition:
    """Reads only: nothing is written."""
    checked, problems = check_file(file)
    if checked is None:
        return Edition(files=(file,), trouble=_trouble(problems))
    lists = (checked.description.wire_list, checked.description.device_list)
    files = (file, record_path(file), *(file.parent / one.file for one in lists if one is not None))
    if not has_errors(problems):
        result = make(checked, Request(only=frozenset({"schedule"})))
        problems = result.problems
    if has_errors(problems):
        return Edition(files=files, trouble=_trouble(problems))
    pages = {name.removeprefix(FOLDER): page for name, page in result.files.items() if name.startswith(FOLDER)}
    return Edition(files=files, pages=pages, address=checked.description.schedule)


def _trouble(problems: list[Problem]) -> str:
    """The first error in a line."""
    first = next(problem for problem in problems if problem.severity is Severity.ERROR)
    line = f" (line {first.place.line})" if first.place.line else ""
    return f"{first.message}{line}."
