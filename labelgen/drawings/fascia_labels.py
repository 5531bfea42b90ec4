"""Lever numbers, section names, title and lever names of a fascia, each where it touches nothing."""

from labelgen.drawings.fascia_plan import FasciaPlan
from labelgen.drawings.fascia_routes import write_route_names, write_route_numbers
from labelgen.drawings.fascia_spots import FAR_MM, Label, Numbers, names_of, numbers_of, to_baseline, write_one_size
from labelgen.drawings.fascia_style import NAME_CAP_MM, NUMBER_CAP_MM, SMALL_CAP_MM
from labelgen.drawings.fascia_title import write_title
from labelgen.drawings.fascia_writing import Writing, write_platform_names, write_texts
from labelgen.drawings.number_placing import CLEAR_MM
from labelgen.model.panel_places import NUT_RADIUS_MM
from labelgen.places import Path
from labelgen.typefaces import BOLD


def write_all(plan: FasciaPlan) -> Writing:
    """Everything that is written: what the builder placed first, then what finds its own place."""
    writing = Writing(plan, obstacles=plan.obstacles())
    write_texts(writing)
    write_platform_names(writing)
    numbers = _write_numbers(writing)
    routes = write_route_numbers(writing)
    _write_section_names(writing, numbers, _write_further_numbers(writing))
    write_title(writing)
    _write_lever_names(writing, numbers)
    write_route_names(writing, routes)
    return writing


def _write_numbers(writing: Writing) -> Numbers:
    """Beside each hole, all of one size, on one height where one hole is like the next."""
    plan = writing.plan
    labels = [
        Label(
            key=lever,
            what=f"the number of lever {lever}",
            text=writing.known(plan.levers[lever].shown, _path(plan, lever), BOLD),
            spot=hole,
            reach=NUT_RADIUS_MM + CLEAR_MM,
            path=_path(plan, lever),
        )
        for lever, hole in plan.holes.items()
    ]
    placed = write_one_size(
        writing, labels, writing.caps(NUMBER_CAP_MM, NAME_CAP_MM), numbers_of(labels), colour=plan.style.ink
    )
    return to_baseline(placed)


def _write_further_numbers(writing: Writing) -> Numbers:
    """Smaller, beside what a lever works away from its hole: a crossover's other end; all if levers stand in a row."""
    plan = writing.plan
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
        if device in plan.drawn and plan.drawn[device] != plan.holes.get(lever.id)
    ]
    placed = write_one_size(
        writing, labels, writing.caps(NAME_CAP_MM, SMALL_CAP_MM), numbers_of(labels), colour=plan.style.soft
    )
    return to_baseline(placed)


def _write_section_names(writing: Writing, numbers: Numbers, further: Numbers) -> None:
    plan = writing.plan
    labels = []
    for section in plan.panel.sections:
        if section not in plan.drawn:
            continue
        spot, path = plan.drawn[section], plan.device_path(section)
        lever = next((id_ for id_, hole in plan.holes.items() if hole == spot), None)
        labels.append(
            Label(
                key=section,
                what=f"the name of section {section}",
                text=writing.known(plan.device_name(section), path),
                spot=spot,
                reach=(NUT_RADIUS_MM if lever else plan.track_width / 2) + CLEAR_MM,
                path=path,
                beside=numbers.get(lever) if lever else further.get(section),
            )
        )
    write_one_size(writing, labels, writing.caps(NAME_CAP_MM, SMALL_CAP_MM), names_of, colour=plan.style.accent)


def _write_lever_names(writing: Writing, numbers: Numbers) -> None:
    """Where there is room: a fascia can be used without them. A section's lever bears the section's name already."""
    plan = writing.plan
    sections = [plan.drawn[section] for section in plan.panel.sections if section in plan.drawn]
    labels = [
        Label(
            key=lever.id,
            what=f"the name of lever {lever.id}",
            text=writing.known(lever.name, _path(plan, lever.id)),
            spot=plan.holes[lever.id],
            reach=NUT_RADIUS_MM + CLEAR_MM,
            path=_path(plan, lever.id),
            beside=numbers[lever.id],
        )
        for lever in plan.levers.values()
        if lever.id in numbers and lever.name and plan.holes[lever.id] not in sections
    ]
    caps = writing.caps(NAME_CAP_MM * 0.9, SMALL_CAP_MM)
    write_one_size(writing, labels, caps, names_of, colour=plan.style.soft, furthest=FAR_MM, needed=False)


def _path(plan: FasciaPlan, lever: str) -> Path:
    """What the builder would change to move a lever's hole."""
    if lever in plan.panel.levers:
        return ("panels", plan.id, "levers", lever)
    drawn = [device for device in plan.levers[lever].devices if device in plan.drawn]
    return plan.device_path(drawn[0]) if drawn else plan.levers[lever].path
