"""Reads what is kept of a builder's printers."""

from pathlib import Path

from pydantic import ValidationError

from labelgen.model.printer_form import PrinterForm, PrintersForm
from labelgen.places import Place
from labelgen.problems import Problem
from labelgen.reading.yaml_nodes import read_yaml_bytes

Read = tuple[dict[str, PrinterForm], list[Problem]]


def read_printers(path: Path) -> Read:
    """The printers by name; none where there is no such file yet. Reports printers-unreadable."""
    try:
        content = path.read_bytes()
    except FileNotFoundError:
        return {}, []
    except OSError as error:
        return {}, [_unreadable(path, (error.strerror or str(error)).lower(), Place(file=str(path)))]
    document, problems = read_yaml_bytes(content, str(path))
    if document is None or problems:
        first = problems[0]
        return {}, [_unreadable(path, first.message, first.place)]
    try:
        return PrintersForm.model_validate(document.value).printers, []
    except ValidationError as error:
        first_error = error.errors(include_url=False)[0]
        loc = tuple(first_error["loc"])
        return {}, [_unreadable(path, f"`{loc[-1]}`: {first_error['msg']}", document.places.of_value(loc))]


def _unreadable(path: Path, why: str, place: Place) -> Problem:
    return Problem(
        code="printers-unreadable",
        message=f"what is kept of your printers in {path.name} cannot be read: {why}",
        hint="Mend it in a text editor, or delete it and measure a test page again (`labelgen sheets ID`).",
        place=place,
    )
