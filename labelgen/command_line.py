"""Arguments, what is printed, exit statuses; nothing else.

Standard output is the result; progress and messages go to standard error. Exit status: 0 made or clean; 1 an error in
what the files say, or a file missing, unreadable or a folder; 2 the command was misused.
"""

import gc
import json
import os
import sys
from dataclasses import replace
from pathlib import Path
from typing import Annotated, NoReturn

import typer

from labelgen.command_options import (
    PORT,
    cells_of,
    folder_beside,
    id_of,
    jammed_of,
    kinds_of,
    misused,
    pairs_of,
    printer_named,
    printer_of,
    size_of,
    words_of,
)
from labelgen.command_output import hunt, say_correction, say_serving, screen, show, stop_at, with_progress
from labelgen.problems import has_errors, in_file_order

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
    labels: Annotated[bool, typer.Option("--labels", help="See as well whether all can be read on its label.")] = False,
    whole: Annotated[bool, typer.Option("--all", help="Say all of it, even if it is more than a screenful.")] = False,
) -> None:
    """Say every problem and caution of a description."""
    from labelgen.pipeline import check_file, figures_of_railway, label_problems
    from labelgen.problem_report import report
    from labelgen.problem_text import as_json as problems_as_json

    checked, problems = check_file(file)
    if checked is not None and not has_errors(problems):
        problems = in_file_order([*problems, *label_problems(checked, drawn=labels)])
    acceptances = checked.acceptances if checked is not None else ()
    found = figures_of_railway(checked) if figures and checked is not None and not has_errors(problems) else None
    if as_json:
        from labelgen.rendering.figures_json import figures_as_json

        told = problems_as_json(problems, acceptances)
        if found is not None:
            told["figures"] = figures_as_json(found)
        typer.echo(json.dumps(told, ensure_ascii=False, indent=2))
    else:
        if found is not None:
            from labelgen.rendering.figure_tables import print_figures

            print_figures(found)
        places = checked.description.places if checked is not None else None
        typer.echo(report(str(file), problems, acceptances, places, None if whole else screen()))
    raise typer.Exit(1 if has_errors(problems) else 0)


@app.command()
def make(
    file: FileArgument,
    into: Annotated[
        Path | None, typer.Option(metavar="FOLDER", help="Where to put it; else the description's name.")
    ] = None,
    only: Annotated[str | None, typer.Option(metavar="KIND,…", help="Make these alone.")] = None,
    board: Annotated[str | None, typer.Option(metavar="ID", help="Labels of this board alone.")] = None,
    sheet: Annotated[list[str] | None, typer.Option(metavar="KIND=ID", help="Print a kind on this sheet.")] = None,
    start: Annotated[
        list[str] | None, typer.Option(metavar="KIND=CELL", help="The first cell left on a part-used sheet.")
    ] = None,
    mono: Annotated[bool, typer.Option("--mono", help="For a black-and-white printer.")] = False,
    afresh: Annotated[bool, typer.Option("--afresh", help="Lay out anew all that is not recorded as printed.")] = False,
    grid: Annotated[bool, typer.Option("--grid", help="Show the squares of panels with their numbers.")] = False,
    changed: Annotated[
        bool, typer.Option("--changed", help="Labels alone that are new or changed since they were printed.")
    ] = False,
    again: Annotated[
        list[str] | None, typer.Option(metavar="KIND=CELLS", help="After a jam: these cells of the last make alone.")
    ] = None,
    printer: Annotated[
        str | None, typer.Option(metavar="NAME", help="Correct for this printer: see `labelgen sheets`.")
    ] = None,
) -> None:
    """Make labels, panel, tags, lists and schedule pages into a folder."""
    from labelgen.keeping import inside_of, keep, record_after
    from labelgen.making import Request, misuse, on_the_same_sheets, untold
    from labelgen.model.built.record_summary import what_is_to_come
    from labelgen.pipeline import check_file
    from labelgen.pipeline import make as make_files
    from labelgen.problem_text import summary
    from labelgen.rendering.built_record_file import alone

    kinds, board = kinds_of(only), id_of(board, "--board", "B1")
    sheets = pairs_of(sheet or [], "--sheet", "flags=a4-65")
    starts = cells_of(pairs_of(start or [], "--start", "flags=17"))
    jammed = jammed_of(pairs_of(again or [], "--again", "flags=9-12"))
    if jammed and (kinds or board or sheets or changed or afresh):
        misused("--again prints cells of what was made last; besides it there can only be --start")
    folder = into or folder_beside(file)
    correction = printer_of(printer)
    with alone(file):
        checked, problems = check_file(file, afresh=afresh)
        if checked is None or has_errors(problems):
            stop_at(problems)
            return
        request = Request(only=kinds, board=board, sheets=sheets, start=starts, mono=mono, grid=grid)
        request = on_the_same_sheets(checked, replace(request, changed=changed, again=jammed, correction=correction))
        if (fault := misuse(checked, request)) is not None:
            misused(fault)
        result = with_progress(lambda tell: make_files(checked, request, tell))
        problems = [*problems, *untold(result.problems, problems)]
        stop_at(problems)
        if changed:
            typer.echo(what_is_to_come(checked.built, record_after(checked, request, result.now), result.pages))
        stop_at(keep(file, checked, request, result, folder))
    show(problems)
    for made in result.made:
        typer.echo(f"{folder / inside_of(request) / made.name}: {made.what}")
        if made.picture:
            typer.echo(made.picture)
    if problems:
        typer.echo(f"{file}: {summary(problems)}", err=True)


@app.command()
def printed(
    file: FileArgument,
    only: Annotated[str | None, typer.Option(metavar="KIND,…", help="These alone.")] = None,
    board: Annotated[str | None, typer.Option(metavar="ID", help="Labels of this board alone.")] = None,
    undo: Annotated[bool, typer.Option("--undo", help="They are not printed after all.")] = False,
) -> None:
    """Record that what was last made is now printed and stuck on."""
    from labelgen.keeping import printed_or_not, write_record
    from labelgen.making import Request, misuse
    from labelgen.model.built.built_labels import STUCK_ON
    from labelgen.model.built.built_record import record_path
    from labelgen.pipeline import check_file, record_of
    from labelgen.rendering.built_record_file import alone

    kinds, board = kinds_of(only), id_of(board, "--board", "B1")
    if loose := sorted(kinds - {*STUCK_ON}):
        misused(f"--only: {loose[0]} is not stuck on; there are {', '.join(STUCK_ON)}")
    with alone(file):
        checked, problems = check_file(file)
        if checked is None:
            stop_at(problems)
            return
        request = Request(only=kinds, board=board)
        if (fault := misuse(checked, request)) is not None:
            misused(fault)
        recorded = record_of(file, checked)
        stop_at([*recorded.problems])
        record, problems = printed_or_not(file, recorded.record, request, undo=undo)
        stop_at(problems)
        if record is not None:
            stop_at(write_record(file, record, recorded.seen))
            count = sum(label.kind in (kinds or STUCK_ON) for label in record.printed)
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
        misused("choose one of --json and --csv")
    if changed and as_csv:
        misused("--changed is a table, or --json")
    checked, problems = check_file(file)
    if checked is None or has_errors(problems):
        stop_at(problems)
        return
    if changed:
        from labelgen.model.built.record_changes import changes
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
    from labelgen.model.panel.proposed_panel import ProposedPanel, proposed_panel
    from labelgen.pipeline import check_file
    from labelgen.rendering.panel_block import panel_block

    wanted = size_of(size)
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
        misused(f"--size: there is no room for that; {width:g}x{height:g} would do")


@app.command()
def serve(
    file: FileArgument,
    port: Annotated[int, typer.Option(min=1, max=65535, help="Where to listen.")] = PORT,
    lan: Annotated[
        bool, typer.Option("--lan", help="For the phones of the workshop as well, not this machine alone.")
    ] = False,
) -> None:
    """Show the schedule pages on this machine; they follow the description as it is edited."""
    from labelgen.serving.current_pages import CurrentPages
    from labelgen.serving.edition import edition_of
    from labelgen.serving.server import EVERYWHERE, LOOPBACK, names, own_address, server

    pages = CurrentPages(file, edition_of)
    pages.refresh()
    if pages.trouble:
        from labelgen.pipeline import check_file

        stop_at(check_file(file)[1])
    address = own_address() if lan else None
    if lan and address is None:
        typer.echo("labelgen: this machine is in no network that phones could reach", err=True)
        raise typer.Exit(1)
    ready = f"http://{address or LOOPBACK}:{port}/"
    server(pages, EVERYWHERE if lan else LOOPBACK, port, names(address), lambda: say_serving(ready, lan=lan)).run()


@app.command()
def trace(
    file: FileArgument,
    dead: Annotated[str, typer.Option(metavar="HEAD,…", help="What does not work: 5N, P5A, L5, a route, a supply.")],
    good: Annotated[str | None, typer.Option(metavar="HEAD,…", help="What works.")] = None,
    right: Annotated[
        list[str] | None, typer.Option(metavar="END:END", help="A reading that was as it should be: A1.5:A1.8.")
    ] = None,
    wrong: Annotated[list[str] | None, typer.Option(metavar="END:END", help="A reading that was not.")] = None,
    as_json: JsonOption = False,
) -> None:
    """Say where a fault is most likely, and what to measure next."""
    from labelgen.pipeline import check_file, tracing_of

    broken = words_of(dead, "--dead", "5N,P5A")
    sound = [] if good is None else words_of(good, "--good", "5R")
    checked, problems = check_file(file)
    if checked is None or has_errors(problems):
        stop_at(problems)
        return
    tracing = tracing_of(checked)
    for unknown in tracing.told(broken, sound):
        near = f"; did you mean {', '.join(unknown.near)}?" if unknown.near else ""
        misused(f"{unknown.word} is not the head of a wire, a device, a lever or a route that is fed{near}")
    for texts, as_it_should in ((right, True), (wrong, False)):
        for text in texts or ():
            one, _, other = text.partition(":")
            measure = tracing.measure_between(one.strip(), other.strip())
            if measure is None:
                misused(f"{text}: nothing between these two ends would tell more; write END:END, such as A1.5:A1.8")
            tracing.read(measure, as_it_should=as_it_should)
    found = tracing.look()
    if as_json:
        typer.echo(json.dumps(tracing.as_json(found), ensure_ascii=False, indent=2))
    else:
        hunt(tracing, found)


@app.command()
def sheets(
    sheet: Annotated[str | None, typer.Argument(metavar="[ID]", help="Make a test page for this one.")] = None,
    file: Annotated[
        Path | None, typer.Option(metavar="FILE", help="A description: its own `stocks` are known too.")
    ] = None,
    measured: Annotated[
        str | None, typer.Option(metavar="199.2x278.6", help="What the rules of the printed test page measure.")
    ] = None,
    off: Annotated[
        str | None, typer.Option(metavar="0.8,-0.4", help="How far cross 1 is off: to the right, down; in mm.")
    ] = None,
    printer: Annotated[
        str | None, typer.Option(metavar="NAME", help="Keep what was measured; or else, make the page as it needs it.")
    ] = None,
) -> None:
    """List the label sheets that are known; with an id, make a test page for one, or say what its printer needs."""
    from labelgen.calibrating import calibrated, proof_page
    from labelgen.making import known_stocks, stock_called
    from labelgen.model.correction import UNCORRECTED
    from labelgen.places import Place
    from labelgen.reading.description_reader import read_description
    from labelgen.rendering.new_files import write_new

    description, problems = read_description(file) if file is not None else (None, [])
    stop_at(problems)
    known = known_stocks(description)
    if sheet is None:
        from labelgen.rendering.terminal_tables import print_stocks

        print_stocks(known)
        return
    stock, problems = stock_called(sheet, Place(file=""), known)
    if stock is None:
        misused(f"{problems[0].message}. {problems[0].hint}")
    if measured is not None or off is not None:
        correction = calibrated(stock, measured, off)
        misused(correction) if isinstance(correction, str) else say_correction(correction, printer_named(printer))
        return
    page = Path(f"test-{stock.id}-{printer}.pdf" if printer is not None else f"test-{stock.id}.pdf")
    content = proof_page(stock, printer_of(printer) or UNCORRECTED)
    stop_at(write_new(page, content, same_is_fine=True))
    typer.echo(f"{page}: print it at actual size and hold it against a sheet of labels")


@app.command()
def schema() -> None:
    """Print the JSON Schema of a description, for editors."""
    from labelgen.model.description import Description

    typer.echo(json.dumps(Description.model_json_schema(by_alias=True), ensure_ascii=False, indent=2))
