"""Arguments, what is printed, exit statuses; nothing else.

Standard output is the result; progress and messages go to standard error. Exit status: 0 made or clean; 1 an error in
what the files say, or a file missing, unreadable or a folder; 2 the command was misused.
"""

import gc
import json
import os
import sys
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, NoReturn

import typer

from labelgen.problems import Problem, has_errors

if TYPE_CHECKING:
    from collections.abc import Callable

    from labelgen.making import Result

app = typer.Typer(
    name="labelgen",
    help="From one wiring description to the labels, panel and schedules of a model railway.",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
)

FileArgument = Annotated[Path, typer.Argument(metavar="FILE", help="The wiring description, a .yaml file.")]
JsonOption = Annotated[bool, typer.Option("--json", help="For other programs.")]


def main() -> NoReturn:
    """Runs the command; a reader that stops listening (`| head`) ends it quietly, a full disk with its reason."""
    # A command keeps nearly all that it makes until it ends: looking through that for garbage took a third of its time.
    gc.set_threshold(100_000)
    status = 0
    try:
        app()
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    except OSError as error:
        typer.echo(f"labelgen: {(error.strerror or str(error)).lower()}", err=True)
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        status = 1
    raise SystemExit(status)


@app.command()
def demo(
    folder: Annotated[Path, typer.Argument(metavar="[FOLDER]", help="Where to put it.")] = Path("marram-quay"),
) -> None:
    """Write the example railway into a folder and make everything from it."""
    from labelgen.data_files import layouts
    from labelgen.rendering.new_files import write_new

    description = folder / "marram-quay.yaml"
    stop_at(write_new(description, (layouts("railways") / "marram-quay.yaml").read_bytes(), same_is_fine=True))
    make(description)


@app.command()
def new(file: Annotated[Path, typer.Argument(metavar="FILE", help="The description to begin.")]) -> None:
    """Write a commented description to begin with."""
    from labelgen.data_files import layouts
    from labelgen.rendering.new_files import write_new

    stop_at(write_new(file, (layouts("railways") / "starter.yaml").read_bytes()))
    typer.echo(f"{file} is ready: open it in a text editor, then run  labelgen check {file}")


@app.command()
def check(
    file: FileArgument,
    as_json: JsonOption = False,
    figures: Annotated[bool, typer.Option("--figures", help="Say what each throw and each load comes to.")] = False,
) -> None:
    """Say every problem and caution of a description."""
    from labelgen.pipeline import check_file, figures_of_railway
    from labelgen.problem_text import as_json as problems_as_json
    from labelgen.problem_text import as_text, summary

    checked, problems = check_file(file)
    found = figures_of_railway(checked) if figures and checked is not None and not has_errors(problems) else None
    if as_json:
        from labelgen.rendering.figures_json import figures_as_json

        told = problems_as_json(problems) | ({"figures": figures_as_json(found)} if found is not None else {})
        typer.echo(json.dumps(told, ensure_ascii=False, indent=2))
    else:
        if found is not None:
            from labelgen.rendering.figure_tables import print_figures

            print_figures(found)
        for problem in problems:
            typer.echo(f"{as_text(problem)}\n")
        typer.echo(f"{file}: {summary(problems)}")
    raise typer.Exit(1 if has_errors(problems) else 0)


@app.command()
def make(
    file: FileArgument,
    into: Annotated[
        Path | None, typer.Option(metavar="FOLDER", help="Where to put it; else the description's name.")
    ] = None,
    only: Annotated[str, typer.Option(metavar="KIND,…", help="Make these alone.")] = "",
    board: Annotated[str | None, typer.Option(metavar="ID", help="Labels of this board alone.")] = None,
    sheet: Annotated[list[str] | None, typer.Option(metavar="KIND=ID", help="Print a kind on this sheet.")] = None,
    start: Annotated[
        list[str] | None, typer.Option(metavar="KIND=CELL", help="The first cell left on a part-used sheet.")
    ] = None,
    mono: Annotated[bool, typer.Option("--mono", help="For a black-and-white printer.")] = False,
    afresh: Annotated[bool, typer.Option("--afresh", help="Lay out anew all that is not recorded as printed.")] = False,
    grid: Annotated[bool, typer.Option("--grid", help="Show the squares of panels with their numbers.")] = False,
) -> None:
    """Make labels, panel, tags, lists and schedule pages into a folder."""
    from labelgen.keeping import keep
    from labelgen.making import Request, misuse
    from labelgen.pipeline import check_file
    from labelgen.pipeline import make as make_files
    from labelgen.problem_text import summary
    from labelgen.rendering.built_record_file import alone

    kinds = _kinds(only)
    sheets = _pairs(sheet or [], "--sheet", "flags=a4-65")
    starts = _cells(_pairs(start or [], "--start", "flags=17"))
    folder = into or file.with_suffix("")
    with alone(file):
        checked, problems = check_file(file, afresh=afresh)
        if checked is None or has_errors(problems):
            stop_at(problems)
            return
        request = Request(only=kinds, board=board, sheets=sheets, start=starts, mono=mono, grid=grid)
        if (fault := misuse(checked, request)) is not None:
            _misused(fault)
        result = _with_progress(lambda tell: make_files(checked, request, tell))
        problems = [*problems, *result.problems]
        stop_at(problems)
        stop_at(keep(file, checked, request, result, folder))
    show(problems)
    for made in result.made:
        typer.echo(f"{folder / made.name}: {made.what}")
    if problems:
        typer.echo(f"{file}: {summary(problems)}", err=True)


@app.command()
def printed(
    file: FileArgument,
    only: Annotated[str, typer.Option(metavar="KIND,…", help="These alone.")] = "",
    board: Annotated[str | None, typer.Option(metavar="ID", help="Labels of this board alone.")] = None,
    undo: Annotated[bool, typer.Option("--undo", help="They are not printed after all.")] = False,
) -> None:
    """Record that what was last made is now printed and stuck on."""
    from labelgen.keeping import with_printed, write_record
    from labelgen.making import Request, misuse
    from labelgen.model.built_record import STUCK_ON, record_path
    from labelgen.pipeline import check_file, record_of
    from labelgen.rendering.built_record_file import alone

    kinds = _kinds(only)
    if loose := sorted(kinds - {*STUCK_ON}):
        _misused(f"--only: {loose[0]} is not stuck on; there are {', '.join(STUCK_ON)}")
    with alone(file):
        checked, problems = check_file(file)
        if checked is None:
            stop_at(problems)
            return
        request = Request(only=kinds, board=board)
        if (fault := misuse(checked, request)) is not None:
            _misused(fault)
        recorded = record_of(file, checked)
        stop_at([*recorded.problems])
        record, problems = with_printed(file, checked, recorded.record, request, undo=undo)
        stop_at(problems)
        if record is not None:
            stop_at(write_record(file, record, recorded.seen))
            count = sum(not kinds or label.kind in kinds for label in record.printed)
            typer.echo(f"{record_path(file)}: {count} labels are recorded as printed and stuck on")


@app.command()
def wires(
    file: FileArgument,
    as_json: JsonOption = False,
    as_csv: Annotated[bool, typer.Option("--csv", help="For a spreadsheet.")] = False,
    changed: Annotated[bool, typer.Option("--changed", help="What came, went and moved since the last make.")] = False,
) -> None:
    """Print the wire list."""
    from labelgen.pipeline import check_file
    from labelgen.rendering.tables import wires_csv, wires_json

    if as_json and as_csv:
        _misused("choose one of --json and --csv")
    if changed and as_csv:
        _misused("--changed is a table, or --json")
    checked, problems = check_file(file)
    if checked is None or has_errors(problems):
        stop_at(problems)
        return
    if changed:
        from labelgen.model.record_changes import changes
        from labelgen.rendering.changed_wires import changes_json
        from labelgen.rendering.terminal_tables import print_changes

        found = changes(checked.before, checked.built)
        typer.echo(changes_json(found)) if as_json else print_changes(found)
    elif as_json:
        typer.echo(wires_json(checked.netlist))
    elif as_csv:
        sys.stdout.buffer.write(wires_csv(checked.netlist))
    else:
        from labelgen.rendering.terminal_tables import print_wires

        print_wires(checked.netlist)


@app.command()
def panel(
    file: FileArgument,
    size: Annotated[str | None, typer.Option(metavar="360x160", help="How large it is to be, in mm.")] = None,
) -> None:
    """Propose a first fascia from the points' places on the boards, to be edited."""
    from labelgen.model.proposed_panel import ProposedPanel, proposed_panel
    from labelgen.pipeline import check_file
    from labelgen.rendering.panel_block import panel_block

    wanted = _size(size)
    checked, problems = check_file(file)
    if checked is None or has_errors(problems):
        stop_at(problems)
        return
    found = proposed_panel(checked.description, checked.netlist, wanted)
    if isinstance(found, ProposedPanel):
        typer.echo(panel_block(found, checked.description), nl=False)
    elif found is None:
        typer.echo(f"{file}: every point and lever is on a panel already, or there is none", err=True)
        raise typer.Exit(1)
    else:
        width, height = found.size
        _misused(f"--size: there is no room for that; {width:g}x{height:g} would do")


@app.command()
def sheets(
    sheet: Annotated[str | None, typer.Argument(metavar="[ID]", help="Make a test page for this one.")] = None,
) -> None:
    """List the label sheets that are known; with an id, make a test page for one."""
    from labelgen.reading.data_readers import stocks

    if sheet is None:
        from labelgen.rendering.terminal_tables import print_stocks

        print_stocks(list(stocks().values()))
        return
    from labelgen.imposition.stock_page import stock_page
    from labelgen.making import stock_called
    from labelgen.model.sheet import Document
    from labelgen.places import Place
    from labelgen.rendering.new_files import write_new
    from labelgen.rendering.pdf import pdf_bytes

    stock, problems = stock_called(sheet, Place(file=""))
    if stock is None:
        _misused(f"{problems[0].message}. {problems[0].hint}")
    page = Path(f"test-{stock.id}.pdf")
    content = pdf_bytes(Document(title=f"Test page for {stock.id}", pages=(stock_page(stock),)))
    stop_at(write_new(page, content, same_is_fine=True))
    typer.echo(f"{page}: print it at actual size and hold it against a sheet of labels")


@app.command()
def schema() -> None:
    """Print the JSON Schema of a description, for editors."""
    from labelgen.model.description import Description

    typer.echo(json.dumps(Description.model_json_schema(by_alias=True), ensure_ascii=False, indent=2))


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


def _with_progress(work: "Callable[[Callable[[str], None]], Result]") -> "Result":
    """Says what is being made, to standard error, when someone is watching."""
    if not sys.stderr.isatty():
        return work(lambda _: None)
    from rich.console import Console

    console = Console(stderr=True)
    with console.status("making") as status:
        return work(lambda kind: status.update(f"making {kind}"))


def _kinds(only: str) -> frozenset[str]:
    from labelgen.makers.maker_list import MAKERS

    kinds = frozenset(kind.strip() for kind in only.split(",") if kind.strip())
    unknown = sorted(kinds - MAKERS.keys())
    if unknown:
        _misused(f"--only: {unknown[0]} is not one of {', '.join(MAKERS)}")
    return kinds


def _pairs(texts: list[str], option: str, example: str) -> dict[str, str]:
    """`flags=a4-65` as a mapping; the kinds are those that are printed on label sheets."""
    from labelgen.model.description import SheetChoice

    pairs: dict[str, str] = {}
    for text in (part for whole in texts for part in whole.split(",")):
        kind, equals, value = text.partition("=")
        if not equals or not value or kind not in SheetChoice.model_fields:
            _misused(f"{option}: write a kind of label, = and a value, such as {example}")
        pairs[kind] = value
    return pairs


def _size(text: str | None) -> tuple[float, float] | None:
    """`360x160` as width and height."""
    if text is None:
        return None
    numbers = text.lower().replace("×", "x").split("x")
    if len(numbers) != 2 or not all(n.isascii() and n.isdecimal() and 0 < int(n) <= 10_000 for n in numbers):
        _misused(f"--size: write width and height in mm, such as 360x160, not {text}")
    return float(numbers[0]), float(numbers[1])


def _cells(pairs: dict[str, str]) -> dict[str, int]:
    for text in pairs.values():
        if not (text.isascii() and text.isdecimal() and 0 < int(text) < 1000):
            _misused(f"--start: {text} is not the number of a cell, counted from 1")
    return {kind: int(text) for kind, text in pairs.items()}


def _misused(message: str) -> NoReturn:
    typer.echo(f"labelgen: {message}", err=True)
    raise typer.Exit(2)
