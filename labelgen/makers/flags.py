"""Flags in their three forms: one file a form, since each is printed on a sheet of its own.

`flags.pdf` holds those of the overall form (`printing: flags:`); what functions or wires have otherwise is in
`flags-fold.pdf`, `flags-wrap.pdf`, `flags-sleeve.pdf`.
"""

from collections.abc import Sequence
from dataclasses import replace

from labelgen.makers.condensed_heads import condensed_heads
from labelgen.makers.filling import Filled, filled
from labelgen.making import Job, Result, counted
from labelgen.model.drawing import Drawing
from labelgen.model.flag_form import FLAG_FORMS, FlagForm
from labelgen.model.look import CellSize
from labelgen.model.sheet import Sheet, Stock
from labelgen.problems import Problem
from labelgen.typefaces import BOLD, size_for_cap, text_width

WHAT = {"fold": "wire-end flag", "wrap": "self-laminating wrap", "sleeve": "slip"}
BLANK = "blank flag"
"""How the names of those begin that are for the pen."""
Drawn = tuple[list[Drawing], list[Problem]]
TITLE_MM = 78.0
"""What the heading of a page of strips has room for, at `TITLE_CAP`, before the note in its middle begins."""
TITLE_CAP = 2.0


def flags(job: Job) -> Result:
    overall = job.description.printing.flags
    used = {wire.flag_form for wire in job.netlist.wires if not wire.link}
    forms = [form for form in FLAG_FORMS if form in used or form == overall]
    if job.labelling.is_again:
        forms = [form for form in forms if job.labelling.again(_use(job, form)) is not None]
    results = [_form(job, form) for form in forms]
    return Result(
        files={name: content for result in results for name, content in result.files.items()},
        made=tuple(made for result in results for made in result.made),
        problems=[problem for result in results for problem in result.problems],
    )


def _use(job: Job, form: FlagForm) -> str:
    return "flags" if form == job.description.printing.flags else form


def _form(job: Job, form: FlagForm) -> Result:
    use = _use(job, form)
    stock, problems = job.stock(use)
    if stock is None:
        return Result(files={}, made=(), problems=problems)
    drawings, drawing_problems = drawn_flags(job, form, stock)
    wanted = job.labelling.chosen("flags", drawings)
    done = _placed(job, form, use, stock, wanted)
    name = "flags.pdf" if use == "flags" else f"flags-{form}.pdf"
    blank = sum(drawing.name.startswith(BLANK) for drawing in done.drawings)
    words = counted(len(done.drawings) - blank, WHAT[form])
    words += f" and {blank} blank" if blank else ""
    words += f" on {counted(len(done.pages), 'sheet')} {stock.id}"
    if form == "sleeve":
        words += job.look.says(", to go under clear sleeves before the ferrules")
    found = [*problems, *_where_chosen(job, use, form, [*drawing_problems, *done.problems])]
    found += condensed_heads(form, wanted)
    return job.printed(name, words, done.pages, found, done.picture)


def drawn_flags(job: Job, form: FlagForm, stock: Stock) -> Drawn:
    if form == "wrap":
        from labelgen.drawings.flags.wrap_flags import wrap_drawings

        return wrap_drawings(job.description, job.netlist, job.look, stock, job.stocks)
    if form == "sleeve":
        from labelgen.drawings.flags.sleeve_flags import sleeve_drawings

        return sleeve_drawings(job.description, job.netlist, job.look)
    from labelgen.drawings.flags.flags import flag_drawings
    from labelgen.drawings.flags.wrap_fit import fold_problems
    from labelgen.imposition.strip_packing import packing_room

    unsuited = list(fold_problems(job.description, stock))
    if unsuited:
        return [], unsuited
    width, height = packing_room(stock) if stock.is_whole else stock.room
    cell = CellSize(width=width, height=height)
    return flag_drawings(job.description, job.netlist, job.look, cell)


def _placed(job: Job, form: FlagForm, use: str, stock: Stock, wanted: Sequence[Drawing]) -> Filled:
    if stock.is_whole and form != "wrap":
        pages, problems = _strips(job, form, stock, wanted)
        return Filled(drawings=wanted, pages=pages, problems=problems, picture="")
    alike = [one for one in job.stocks if (one.print_zone is None) == (stock.print_zone is None)]
    if form == "fold" and use == "flags" and job.description.printing.blank_flags:
        wanted = [*wanted, *_blanks(job, use, stock, wanted)]
    return filled(job, use, stock, wanted, alike=alike, form=form)


def _blanks(job: Job, use: str, stock: Stock, wanted: Sequence[Drawing]) -> list[Drawing]:
    """Two of each number, as many as there is room for on the last sheet without another one."""
    from labelgen.drawings.flags.blank_flags import blank_flag_drawings
    from labelgen.drawings.flags.flags import flag_size

    if not wanted:
        return []
    size = flag_size(CellSize(width=stock.room[0], height=stock.room[1]))
    each = round(stock.room[0] / size.width) * round(stock.room[1] / size.height)
    first = job.labelling.first_made(use, stock) if job.labelling.is_again else job.labelling.start(use, stock, "fold")
    free = -(len(wanted) + (first - 1) * each) % (stock.count * each)
    numbers = job.labelling.blanks(free // 2)
    return blank_flag_drawings(job.description, numbers, job.look, size)


def _strips(
    job: Job, form: FlagForm, stock: Stock, wanted: Sequence[Drawing]
) -> tuple[tuple[Sheet, ...], list[Problem]]:
    """Flags or slips on full sheets, to be cut apart; over slips goes a strip that says how they are put on."""
    from labelgen.drawings.flags.sleeve_key import sleeve_key
    from labelgen.imposition.strip_packing import pack, packing_room

    if not wanted:
        return (), []
    if form == "fold":
        return pack(wanted, stock, title=f"{job.description.railway}: flags", together=False)
    wires = [wire for wire in job.netlist.wires if wire.flag_form == "sleeve" and not wire.link]
    key = sleeve_key(job.description, wires, job.look, packing_room(stock)[0])
    return pack([key, *wanted], stock, title=_title(job))


def _title(job: Job) -> str:
    what = job.look.says("sleeves, on before the ferrule")
    whole = f"{job.description.railway}: {what}"
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
