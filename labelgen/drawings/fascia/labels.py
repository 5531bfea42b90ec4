"""Lever numbers, section names, title and lever names of a fascia, each where it touches nothing."""

from dataclasses import replace

from labelgen.drawings.fascia.exits import write_exits
from labelgen.drawings.fascia.holes import lever_colours
from labelgen.drawings.fascia.in_the_way import texts_in_the_way
from labelgen.drawings.fascia.lamps import write_lamp_names
from labelgen.drawings.fascia.lies import write_lies
from labelgen.drawings.fascia.plan import FasciaPlan, fascia_plan
from labelgen.drawings.fascia.routes import write_route_names, write_route_numbers
from labelgen.drawings.fascia.spots import (
    FAR_MM,
    NAMES_APART_MM,
    Label,
    Numbers,
    names_of,
    numbers_of,
    to_baseline,
    write_one_size,
)
from labelgen.drawings.fascia.style import LEVER_RING_MM, NAME_CAP_MM, NUMBER_CAP_MM, SMALL_CAP_MM
from labelgen.drawings.fascia.title import write_title
from labelgen.drawings.fascia.writing import NO_ROOM, Writing, no_room_hint, write_platform_names, write_texts
from labelgen.drawings.number_placing import CLEAR_MM, STRANGE_MM
from labelgen.model.description import Description
from labelgen.model.panel.scaling import size_that_would_do
from labelgen.places import Path
from labelgen.typefaces import BOLD


def write_all(plan: FasciaPlan) -> Writing:
    """Everything that is written; where a text finds no place, its problem says what size of panel would do."""
    writing = _write_all(plan)
    if any(problem.code == NO_ROOM for problem in writing.problems):
        size = size_that_would_do(plan.description, plan.id, lambda larger: _all_fits(plan, larger))
        writing.problems = [replace(p, hint=no_room_hint(size)) if p.code == NO_ROOM else p for p in writing.problems]
    return writing


def _all_fits(plan: FasciaPlan, larger: Description) -> bool:
    new = fascia_plan(larger, plan.netlist, plan.look, plan.id)
    if new is None:
        return False
    writing = Writing(new, obstacles=new.obstacles())
    _write_needed(writing)
    return all(problem.code != NO_ROOM for problem in writing.problems)


def _write_all(plan: FasciaPlan) -> Writing:
    writing = Writing(plan, obstacles=plan.obstacles())
    numbers, routes = _write_needed(writing)
    _write_lever_names(writing, numbers)
    write_route_names(writing, routes)
    write_lies(writing)
    return writing


def _write_needed(writing: Writing) -> tuple[Numbers, Numbers]:
    """What the builder placed first, then what finds its own place; the numbers of levers and of routes."""
    write_texts(writing)
    write_platform_names(writing)
    numbers = _write_numbers(writing)
    routes = write_route_numbers(writing)
    write_exits(writing)
    _write_section_names(writing, numbers, _write_further_numbers(writing))
    write_lamp_names(writing)
    write_title(writing)
    return numbers, routes


def _write_numbers(writing: Writing) -> Numbers:
    """Beside each hole, all of one size, on one height where one hole is like the next."""
    plan, reach = writing.plan, _reaches(writing.plan)
    labels = [
        Label(
            key=lever,
            what=f"the number of lever {lever}",
            text=writing.known(plan.levers[lever].shown, _path(plan, lever), BOLD),
            spot=hole,
            reach=reach[lever],
            path=_path(plan, lever),
        )
        for lever, hole in plan.holes.items()
    ]
    placed = write_one_size(
        writing, labels, writing.caps(NUMBER_CAP_MM, NAME_CAP_MM), numbers_of(labels), colour=plan.style.ink
    )
    numbers = to_baseline(placed)
    writing.problems += texts_in_the_way(writing, numbers, reach)
    return numbers


def _write_further_numbers(writing: Writing) -> Numbers:
    """Smaller, beside what a lever works away from its hole: a crossover's other end; all if levers stand in a row."""
    plan, standing = writing.plan, writing.plan.standing
    labels = [
        Label(
            key=device,
            what=f"the number {lever.shown} beside {device}",
            text=writing.known(lever.shown, _path(plan, lever.id), BOLD),
            spot=plan.drawn[device],
            reach=plan.track_width / 2 + 1.5 * CLEAR_MM,
            path=plan.device_path(device),
        )
        for lever in plan.levers.values()
        for device in lever.devices
        if device in plan.drawn and device not in standing
    ]
    placed = write_one_size(
        writing, labels, writing.caps(NAME_CAP_MM, SMALL_CAP_MM), numbers_of(labels), colour=plan.style.soft
    )
    return to_baseline(placed)


def _write_section_names(writing: Writing, numbers: Numbers, further: Numbers) -> None:
    plan, reach = writing.plan, _reaches(writing.plan)
    labels = []
    for section in plan.panel.sections:
        if section not in plan.drawn:
            continue
        path, lever = plan.device_path(section), plan.standing.get(section)
        spot = plan.holes[lever] if lever else plan.drawn[section]
        labels.append(
            Label(
                key=section,
                what=f"the name of section {section}",
                text=writing.known(plan.device_name(section), path),
                spot=spot,
                reach=reach[lever] if lever else plan.track_width / 2 + CLEAR_MM,
                path=path,
                beside=numbers.get(lever) if lever else further.get(section),
            )
        )
    caps = writing.caps(NAME_CAP_MM, SMALL_CAP_MM)
    write_one_size(writing, labels, caps, names_of, colour=plan.style.accent, words_apart=STRANGE_MM)


def _write_lever_names(writing: Writing, numbers: Numbers) -> None:
    """Where there is room: a fascia can be used without them. A section's lever bears the section's name already."""
    plan, reach = writing.plan, _reaches(writing.plan)
    sections = {plan.standing.get(section) for section in plan.panel.sections}
    labels = [
        Label(
            key=lever.id,
            what=f"the name of lever {lever.id}",
            text=writing.known(lever.name, _path(plan, lever.id)),
            spot=plan.holes[lever.id],
            reach=reach[lever.id] + CLEAR_MM,
            path=_path(plan, lever.id),
            beside=numbers[lever.id],
        )
        for lever in plan.levers.values()
        if lever.id in numbers and lever.name and lever.id not in sections
    ]
    caps = writing.caps(NAME_CAP_MM * 0.9, SMALL_CAP_MM)
    write_one_size(
        writing,
        labels,
        caps,
        names_of,
        colour=plan.style.soft,
        furthest=FAR_MM,
        needed=False,
        lines_apart=NAMES_APART_MM,
        words_apart=STRANGE_MM,
    )


def _reaches(plan: FasciaPlan) -> dict[str, float]:
    """Lever: how far from its hole texts begin, with the room of a ring on all when one has it, for one height."""
    beyond = (LEVER_RING_MM if lever_colours(plan) else 0.0) + CLEAR_MM
    return {hole.thing: hole.room.reach + beyond for hole in plan.drilled if hole.use == "lever"}


def _path(plan: FasciaPlan, lever: str) -> Path:
    """What the builder would change to move a lever's hole."""
    if lever in plan.panel.levers:
        return ("panels", plan.id, "levers", lever)
    drawn = [device for device in plan.levers[lever].devices if device in plan.drawn]
    return plan.device_path(drawn[0]) if drawn else plan.levers[lever].path
