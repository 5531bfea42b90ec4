"""Makes the schedule pages of a description as it is now."""

from pathlib import Path

from labelgen.makers.schedule import schedule_files
from labelgen.making import Job, Request
from labelgen.model.built.built_record import record_path
from labelgen.pipeline import check_file
from labelgen.problems import Problem, Severity, has_errors
from labelgen.serving.current_pages import FOLDER, Edition


def edition_of(file: Path) -> Edition:
    """Reads only: nothing is written."""
    checked, problems = check_file(file)
    if checked is None:
        return Edition(files=(file,), trouble=_trouble(problems))
    lists = (checked.description.wire_list, checked.description.device_list)
    files = (file, record_path(file), *(file.parent / one.file for one in lists if one is not None))
    if has_errors(problems):
        return Edition(files=files, trouble=_trouble(problems))
    made = schedule_files(Job(checked, Request()))
    pages = {name.removeprefix(FOLDER): page for name, page in made.items()}
    return Edition(files=files, pages=pages, address=checked.description.schedule)


def _trouble(problems: list[Problem]) -> str:
    """The first error in a line."""
    first = next(problem for problem in problems if problem.severity is Severity.ERROR)
    line = f" (line {first.place.line})" if first.place.line else ""
    return f"{first.message}{line}."
