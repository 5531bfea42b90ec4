"""Flags in their three forms: one file a form, since each is printed on a sheet of its own.

`flags.pdf` holds those of the overall form (`printing: flags:`); what functions or wires have otherwise is in
`flags-fold.pdf`, `flags-wrap.pdf`, `flags-sleeve.pdf`.
"""

from collections.abc import Sequence
from dataclasses import replace

from labelgen.making import Job, Result, counted
from labelgen.model.drawing import Drawing
from labelgen.model.flag_form import FLAG_FORMS, FlagForm
from labelgen.model.look import CellSize
from labelgen.model.sheet import Sheet, Stock
from labelgen.problems import Problem
from labelgen.reading.data_readers import stocks
from labelgen.typefaces import BOLD, size_for_cap, text_width

WHAT = {"fold": "wire-end flag", "wrap": "self-laminating wrap", "sleeve": "slip"}
Drawn = tuple[list[Drawing], list[Problem]]
TITLE_MM = 78.0
"""What the heading of a page of strips has room for, at `TITLE_CAP`, before the note in its middle begins."""
TITLE_CAP = 2.0


def flags(job: Job) -> Result:
    overall = job.description.printing.flags
    used = {wire.flag_form for wire in job.netlist.wires if not wire.link}
    results = [_form(job, form) for form in FLAG_FORMS if form in used or form == overall]
    return Result(
        files={name: content for result in results for name, content in result.files.items()},
        made=tuple(made for result in results for made in result.made),
        problems=[problem for result in results for problem in result.problems],
    )


def _form(job: Job, form: FlagForm) -> Result:
    use = "flags" if form == job.description.printing.flags else form
    stock, problems = job.stock(use)
    if stock is None:
        return Result(files={}, made=(), problems=problems)
    drawings, drawing_problems = _drawn(job, form, stock)
    wanted = job.wanted(drawings)
    pages, placing_problems = _placed(job, form, use, stock, wanted)
    name = "flags.pdf" if use == "flags" else f"flags-{form}.pdf"
    words = f"{counted(len(wanted), WHAT[form])} on {counted(len(pages), 'sheet')} {stock.id}"
    if form == "sleeve":
        words += ", to go under clear sleeves before the ferrules"
    found = [*problems, *_where_chosen(job, use, form, [*drawing_problems, *placing_problems])]
    return job.printed(name, words, pages, found)


def _drawn(job: Job, form: FlagForm, stock: Stock) -> Drawn:
    if form == "wrap":
        from labelgen.drawings.wrap_flags import wrap_drawings

        return wrap_drawings(job.description, job.netlist, job.look, stock, list(stocks().values()))
    if form == "sleeve":
        from labelgen.drawings.sleeve_flags import sleeve_drawings

        return sleeve_drawings(job.description, job.netlist, job.look)
    from labelgen.drawings.flags import flag_drawings
    from labelgen.drawings.wrap_fit import fold_problems

    unsuited = list(fold_problems(job.description, stock))
    if unsuited:
        return [], unsuited
    cell = CellSize(width=stock.width, height=stock.height)
    return flag_drawings(job.description, job.netlist, job.look, cell)


def _placed(
    job: Job, form: FlagForm, use: str, stock: Stock, wanted: Sequence[Drawing]
) -> tuple[tuple[Sheet, ...], list[Problem]]:
    if form == "sleeve" and stock.count == 1:
        return _strips(job, stock, wanted)
    from labelgen.imposition.sheet_filling import fill

    printing = job.description.printing
    alike = [one for one in stocks().values() if (one.print_zone is None) == (stock.print_zone is None)]
    start = job.request.start.get(use, job.request.start.get(form, 1))
    return fill(wanted, stock, start=start, scale=printing.scale, shift=printing.shift, stocks=alike)


def _strips(job: Job, stock: Stock, wanted: Sequence[Drawing]) -> tuple[tuple[Sheet, ...], list[Problem]]:
    """Slips on full sheets, to be cut apart, under a strip that says how they are put on."""
    from labelgen.drawings.sleeve_key import sleeve_key
    from labelgen.imposition.strip_packing import MARGIN, pack

    if not wanted:
        return (), []
    wires = [wire for wire in job.netlist.wires if wire.flag_form == "sleeve" and not wire.link]
    key = sleeve_key(job.description, wires, job.look, min(stock.width, stock.paper_width - 2 * MARGIN))
    pages, problems = pack(
        [key, *wanted], stock, title=_title(job.description.railway), shift=job.description.printing.shift
    )
    return pages, problems


def _title(railway: str) -> str:
    what = "sleeves, on before the ferrule"
    whole = f"{railway}: {what}"
    fits = text_width(whole, BOLD, size_for_cap(TITLE_CAP, BOLD)) <= TITLE_MM
    return whole if fits else what.capitalize()


def _where_chosen(job: Job, use: str, form: FlagForm, problems: Sequence[Problem]) -> list[Problem]:
    """What is wrong between flags and their sheet, shown where the description chose the sheet, if it did."""
    written = [one for one in (use, form) if getattr(job.description.sheets, one) is not None]
    if use in job.request.sheets or form in job.request.sheets or not written:
        return list(problems)
    place = job.description.place_of("sheets", written[0])
    of_sheets = {"label-too-large", "near-paper-edge"}
    return [replace(problem, place=place) if problem.code in of_sheets else problem for problem in problems]
