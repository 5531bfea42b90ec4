"""What each printer needs, kept in the builder's own configuration folder, so that it serves every railway.

Nothing here is looked at unless a printer is named.
"""

import os
from pathlib import Path

from labelgen.model.correction import OFFICE_PAPERS, Correction
from labelgen.model.printer_form import PrinterForm
from labelgen.places import Place
from labelgen.problems import Problem
from labelgen.reading.printers_reader import read_printers
from labelgen.rendering.built_record_file import alone
from labelgen.rendering.made_list import write_durably

HEAD = "# What each printer needs, measured on its test page; written by `labelgen sheets ID --printer NAME`.\n"


def printers_file() -> Path:
    from platformdirs import user_config_path

    return user_config_path("labelgen", appauthor=False) / "printers.yaml"


def correction_of(name: str, path: Path) -> tuple[Correction | str, list[Problem]]:
    """What a printer needs; a text says that there is none of that name. Reports printers-unreadable."""
    printers, problems = read_printers(path)
    if name in printers:
        return printers[name].correction, problems
    known = f"there are {', '.join(printers)}" if printers else "there is none yet"
    return f"nothing is kept of a printer {name}; {known} (labelgen sheets ID --measured … --printer {name})", problems


def keep_printer(name: str, correction: Correction, path: Path) -> list[Problem]:
    """Adds a printer, or measures one anew; the file is written whole or not at all.

    Reports printers-unreadable (nothing is written over what cannot be read) and cannot-write.
    """
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with alone(path.parent):
            printers, problems = read_printers(path)
            if problems:
                return problems
            papers = correction.papers
            paper = None if papers == OFFICE_PAPERS else papers[0]
            form = PrinterForm(scale=correction.scale, shift=correction.shift, paper=paper)
            beside = path.with_name(f".{path.name}.{os.getpid()}")
            try:
                beside.unlink(missing_ok=True)
                write_durably(beside, _text(printers | {name: form}).encode())
                beside.replace(path)
            finally:
                beside.unlink(missing_ok=True)
    except OSError as error:
        message = f"{path} could not be written: {(error.strerror or str(error)).lower()}"
        hint = "The lines for `printing:` serve as well: paste them into the description."
        return [Problem(code="cannot-write", message=message, hint=hint, place=Place(file=str(path)))]
    return []


def _text(printers: dict[str, PrinterForm]) -> str:
    return f"{HEAD}printers:\n" + "".join(f"  {name}: {_line(form)}\n" for name, form in printers.items())


def _line(form: PrinterForm) -> str:
    paper = f", paper: [{form.paper[0]:.10g}, {form.paper[1]:.10g}]" if form.paper else ""
    return f"{{{correction_words(form.correction)}{paper}}}"


def correction_words(correction: Correction) -> str:
    """As it is written under `printing:`, to a thousandth of a mm on the longest page."""
    (across, down), (right, low) = correction.scale, correction.shift
    return f"scale: [{_number(across, 6)}, {_number(down, 6)}], shift: [{_number(right, 3)}, {_number(low, 3)}]"


def _number(value: float, places: int) -> str:
    return f"{round(value, places) + 0.0:.{places}f}".rstrip("0").rstrip(".")
