"""What the commands say to a person, and where they stop."""

import shutil
import sys
from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING

import typer

from labelgen.problems import Problem, has_errors

if TYPE_CHECKING:
    from labelgen.making import Result
    from labelgen.model.correction import Correction
    from labelgen.problem_report import Screen
    from labelgen.tracing.answer import Tracing
    from labelgen.tracing.finder import Found


def say_serving(address: str, *, lan: bool) -> None:
    """Says where the pages are; for a phone as a QR symbol too."""
    if lan:
        from labelgen.drawings.tags.qr import symbol
        from labelgen.serving.terminal_symbol import terminal_symbol

        matrix = symbol(address)
        assert matrix is not None
        typer.echo(terminal_symbol(matrix))
        typer.echo("Everybody in this network can read these pages while this runs.", err=True)
    typer.echo(f"{address}  (Ctrl+C ends it)")


def hunt(tracing: "Tracing", found: "Found") -> None:
    """Says what may be wrong and what to measure; where somebody answers, until one place remains."""
    while True:
        typer.echo("\n".join(tracing.said(found)))
        if found.measure is None or not sys.stdin.isatty():
            return
        answer = typer.prompt("Did it read so? y, n, s to skip, q to stop", default="s")[:1].lower()
        if answer in ("y", "n"):
            tracing.read(found.measure, as_it_should=answer == "y")
        elif answer == "s":
            tracing.skip(found.measure)
        else:
            return
        found = tracing.look()


def screen() -> "Screen | None":
    """What the terminal can show; None where standard output is none."""
    if not sys.stdout.isatty():
        return None
    from labelgen.problem_report import Screen

    columns, rows = shutil.get_terminal_size()
    return Screen(rows=rows, columns=columns)


def show(problems: Iterable[Problem]) -> None:
    """Prints problems for a person, to standard error."""
    from labelgen.problem_text import as_text

    for problem in problems:
        typer.echo(f"{as_text(problem)}\n", err=True)


def stop_at(problems: list[Problem]) -> None:
    """With an error among the problems: shows them all and ends with status 1."""
    if has_errors(problems):
        from labelgen.problem_text import summary

        show(problems)
        typer.echo(f"{summary(problems)}: nothing was written", err=True)
        raise typer.Exit(1)


def with_progress(work: "Callable[[Callable[[str], None]], Result]") -> "Result":
    """Says what is being made, to standard error, when someone is watching."""
    if not sys.stderr.isatty():
        return work(lambda _: None)
    from rich.console import Console

    console = Console(stderr=True)
    with console.status("making") as status:
        return work(lambda kind: status.update(f"making {kind}"))


def say_correction(correction: "Correction", printer: str | None) -> None:
    """Says what a printer needs, and keeps it when the printer has a name."""
    from labelgen.printers import correction_words, keep_printer, printers_file

    typer.echo(f"printing: {{{correction_words(correction)}}}")
    if printer is None:
        typer.echo("put this into the description; with --printer NAME it is kept for every railway", err=True)
        return
    path = printers_file()
    stop_at(keep_printer(printer, correction, path))
    typer.echo(f"kept in {path}: labelgen make FILE --printer {printer}", err=True)
