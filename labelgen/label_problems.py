"""What `check` can say of labels: whether flags suit their wires and sheets their labels; when asked, whether all fits.

Drawing takes longer than all other checks, and needs the metrics of the typefaces. So only those labels are drawn that
are the hardest to fit: what cannot be read on its label is the longest of its kind, or nearly so. `make` draws all.
"""

from collections.abc import Callable, Iterable
from dataclasses import replace
from typing import TypeVar

from labelgen.checks.characters import missing_characters
from labelgen.makers.condensed_heads import condensed_heads
from labelgen.makers.flags import drawn_flags
from labelgen.making import Checked, Job, Request
from labelgen.model.flag_form import FLAG_FORMS, FlagForm
from labelgen.model.look import CellSize
from labelgen.model.netlist import EndKind, Netlist, Wire
from labelgen.problems import Problem

HARDEST = 8
"""Of each kind of label so many are drawn."""
HARDEST_TAGS = 1
"""A tag takes a hundred times as long as a flag."""

T = TypeVar("T")


def sheet_problems(checked: Checked) -> list[Problem]:
    """Of a description without errors. Reports character-missing, flag-unsuited, label-too-large; nothing is drawn."""
    job = Job(checked, Request())
    found = missing_characters(job.description, job.netlist)
    found += [problem for form in FLAG_FORMS for problem in _unsuited(job, form)]
    if job.description.sheets.places is not None:
        from labelgen.drawings.places.places import place_sheet_problem

        stock, _ = job.stock("places")
        cell = CellSize(width=stock.room[0], height=stock.room[1]) if stock is not None else None
        too_large = place_sheet_problem(job.description, job.netlist, cell) if cell is not None else None
        found += [too_large] if too_large is not None else []
    return found


def _unsuited(job: Job, form: FlagForm) -> list[Problem]:
    wires = [wire for wire in job.netlist.wires if wire.flag_form == form and not wire.link]
    stock, _ = job.stock("flags" if form == job.description.printing.flags else form)
    if not wires or stock is None:
        return []
    if form == "sleeve":
        from labelgen.drawings.flags.sleeve_flags import sleeve_problems

        return sleeve_problems(job.description, wires, job.look)
    from labelgen.drawings.flags.wrap_fit import fold_problems, wrap_problems

    if form == "wrap":
        return wrap_problems(job.description, wires, job.look, stock, job.stocks)
    return list(fold_problems(job.description, stock))


def label_problems(checked: Checked) -> list[Problem]:
    """Of a description without errors. Reports text-does-not-fit, label-too-large and text-condensed."""
    job, netlist = Job(checked, Request()), checked.netlist
    found = [*_flags(checked, job), *_markers(job)]
    plated = replace(netlist, levers=hardest(netlist.levers, lambda lever: f"{lever.shown} {lever.name}"))
    heads = {strip.id: " ".join(way.head for way in strip.ways) for strip in netlist.strips}
    tagged = replace(netlist, strips=hardest(netlist.strips, lambda strip: heads[strip.id], HARDEST_TAGS))
    for use, part in (("plates", plated), ("tags", tagged), ("places", _placed(job))):
        found += _cells(job, use, part)
    return list(dict.fromkeys(found))


def hardest(things: Iterable[T], text_of: Callable[[T], str], count: int = HARDEST) -> tuple[T, ...]:
    """Those with the longest texts, in their own order."""
    numbered = [(len(text_of(thing)), number, thing) for number, thing in enumerate(things)]
    longest = sorted(numbered, key=lambda each: (-each[0], each[1]))[:count]
    return tuple(thing for _, _, thing in sorted(longest, key=lambda each: each[1]))


def _flags(checked: Checked, job: Job) -> list[Problem]:
    """Form by form the hardest as to their words, and one of each size."""
    found: list[Problem] = []
    for form in FLAG_FORMS:
        wires = [wire for wire in job.netlist.wires if wire.flag_form == form and not wire.link]
        use = "flags" if form == job.description.printing.flags else form
        stock, _ = job.stock(use)
        if wires and stock is not None:
            sized = {wire.size: wire for wire in reversed(wires)}
            chosen = {wire.number for wire in (*hardest(wires, _words), *sized.values())}
            part = tuple(wire for wire in wires if wire.number in chosen)
            smaller = Job(replace(checked, netlist=replace(job.netlist, wires=part)), Request())
            drawings, problems = drawn_flags(smaller, form, stock)
            found += [problem for problem in problems if problem.code != "flag-unsuited"]
            found += condensed_heads(form, drawings, hardest=True)
    return found


def _words(wire: Wire) -> str:
    return f"{wire.head} {wire.start.shown} {wire.finish.shown}"


def _markers(job: Job) -> list[Problem]:
    from labelgen.drawings.markers.markers import marker_drawings

    netlist = job.netlist
    tight = hardest(netlist.strips, lambda strip: max((way.head for way in strip.ways), key=len))
    narrowest = min(netlist.strips, key=lambda strip: strip.pitch, default=None)
    strips = tuple(strip for strip in netlist.strips if strip in tight or strip is narrowest)
    drawings, problems = marker_drawings(job.description, replace(netlist, strips=strips), job.look)
    return [*problems, *condensed_heads("markers", drawings, hardest=True)]


def _placed(job: Job) -> Netlist:
    """All plugs and holes, and of the wires at devices those of the hardest devices."""
    netlist, description = job.netlist, job.description
    devices = {**description.points, **description.devices}
    chosen = set(hardest(devices, lambda id_: f"{netlist.shown_id(id_)} {devices[id_].name} {devices[id_].not_in_use}"))
    wires = tuple(wire for wire in netlist.wires if wire.holes or _lands(wire, chosen))
    return replace(netlist, wires=wires)


def _lands(wire: Wire, devices: set[str]) -> bool:
    return any(end.kind is EndKind.SUPPLY or (end.kind is EndKind.DEVICE and end.thing in devices) for end in wire.ends)


def _cells(job: Job, use: str, part: Netlist) -> list[Problem]:
    from labelgen.drawings.places.places import place_drawings
    from labelgen.drawings.plates.plates import plate_drawings
    from labelgen.drawings.tags.tags import tag_drawings

    stock, _ = job.stock(use)
    if stock is None:
        return []
    draw = {"plates": plate_drawings, "tags": tag_drawings, "places": place_drawings}[use]
    width, height = stock.room
    drawings, problems = draw(job.description, part, job.look, CellSize(width=width, height=height))
    return [*problems, *condensed_heads(use, drawings, hardest=True)]
