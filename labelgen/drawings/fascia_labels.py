"""Lever numbers, section names, title and lever names of a fascia, each where it touches nothing."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from labelgen.drawings.ambiguous_numbers import needs_underline
from labelgen.drawings.fascia_plan import FasciaPlan
from labelgen.drawings.fascia_style import NAME_CAP_MM, NUMBER_CAP_MM, SMALL_CAP_MM
from labelgen.drawings.fascia_texts import Block, forms, number
from labelgen.drawings.fascia_title import write_title
from labelgen.drawings.fascia_writing import Writing, write_platform_names, write_texts
from labelgen.drawings.number_placing import CLEAR_MM, Blocked, Found, Wanted, place_all
from labelgen.lengths import Point, Rectangle
from labelgen.model.panel_places import NUT_RADIUS_MM
from labelgen.places import Path
from labelgen.typefaces import BOLD

_FAR_MM = 4.0
"""A name further from its lever than this is left out: nobody would say what it belongs to."""

Numbers = dict[str, Rectangle]
"""Lever, or what it works elsewhere: the number there, from top to baseline."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Label:
    """One text that looks for a place beside a spot."""

    key: str
    what: str
    """In the builder's words."""
    text: str
    spot: Point
    reach: float
    path: Path
    beside: Rectangle | None = None


def write_all(plan: FasciaPlan) -> Writing:
    """Everything that is written: what the builder placed first, then what finds its own place."""
    writing = Writing(plan, obstacles=plan.obstacles())
    write_texts(writing)
    write_platform_names(writing)
    numbers = _write_numbers(writing)
    _write_section_names(writing, numbers, _write_further_numbers(writing))
    write_title(writing)
    _write_lever_names(writing, numbers)
    return writing


def _write_numbers(writing: Writing) -> Numbers:
    """Beside each hole, all of one size, on one height where one hole is like the next."""
    plan = writing.plan
    labels = [
        _Label(
            key=lever,
            what=f"the number of lever {lever}",
            text=writing.known(plan.levers[lever].shown, _path(plan, lever), BOLD),
            spot=hole,
            reach=NUT_RADIUS_MM + CLEAR_MM,
            path=_path(plan, lever),
        )
        for lever, hole in plan.holes.items()
    ]
    placed = _write_one_size(
        writing, labels, writing.caps(NUMBER_CAP_MM, NAME_CAP_MM), _numbers_of(labels), colour=plan.style.ink
    )
    return _to_baseline(placed)


def _write_further_numbers(writing: Writing) -> Numbers:
    """Smaller, beside what a lever works away from its hole: a crossover's other end; all if levers stand in a row."""
    plan = writing.plan
    labels = [
        _Label(
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
    placed = _write_one_size(
        writing, labels, writing.caps(NAME_CAP_MM, SMALL_CAP_MM), _numbers_of(labels), colour=plan.style.soft
    )
    return _to_baseline(placed)


def _to_baseline(placed: Mapping[str, tuple[Block, Rectangle]]) -> Numbers:
    return {
        key: Rectangle(place.x, place.y, place.width, place.height - block.drop)
        for key, (block, place) in placed.items()
    }


def _write_section_names(writing: Writing, numbers: Numbers, further: Numbers) -> None:
    plan = writing.plan
    labels = []
    for section in plan.panel.sections:
        if section not in plan.drawn:
            continue
        spot, path = plan.drawn[section], plan.device_path(section)
        lever = next((id_ for id_, hole in plan.holes.items() if hole == spot), None)
        labels.append(
            _Label(
                key=section,
                what=f"the name of section {section}",
                text=writing.known(plan.device_name(section), path),
                spot=spot,
                reach=(NUT_RADIUS_MM if lever else plan.track_width / 2) + CLEAR_MM,
                path=path,
                beside=numbers.get(lever) if lever else further.get(section),
            )
        )
    _write_one_size(writing, labels, writing.caps(NAME_CAP_MM, SMALL_CAP_MM), _names, colour=plan.style.accent)


def _write_lever_names(writing: Writing, numbers: Numbers) -> None:
    """Where there is room: a fascia can be used without them. A section's lever bears the section's name already."""
    plan = writing.plan
    sections = [plan.drawn[section] for section in plan.panel.sections if section in plan.drawn]
    labels = [
        _Label(
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
    _write_one_size(writing, labels, caps, _names, colour=plan.style.soft, furthest=_FAR_MM, needed=False)


Setter = Callable[[_Label, float], tuple[Block, ...]]


def _names(label: _Label, cap: float) -> tuple[Block, ...]:
    return forms(label.text, cap)


def _numbers_of(labels: Sequence[_Label]) -> Setter:
    """Numbers that leave room for an underline as soon as one of them has it, so that all stand on one height."""
    foot = any(needs_underline(label.text) for label in labels)

    def setter(label: _Label, cap: float) -> tuple[Block, ...]:
        return (number(label.text, cap, underlined=needs_underline(label.text), foot=foot),)

    return setter


def _write_one_size(
    writing: Writing,
    labels: Sequence[_Label],
    caps: Sequence[float],
    setter: Setter,
    *,
    colour: str,
    furthest: float = 10.0,
    needed: bool = True,
) -> dict[str, tuple[Block, Rectangle]]:
    """All labels at the largest size at which every one finds a place; at the smallest, as many as do."""
    labels = [label for label in labels if label.text]
    placed: dict[str, Found] = {}
    blocked: list[Blocked] = []
    blocks: dict[str, tuple[Block, ...]] = {}
    for cap in caps:
        blocks = {label.key: setter(label, cap) for label in labels}
        wanted = [_wanted(label, blocks[label.key], furthest) for label in labels]
        placed, blocked = place_all(wanted, writing.obstacles, writing.plan.spots, writing.plan.inside)
        if not blocked:
            break
    by_key = {label.key: label for label in labels}
    if needed:
        for one in blocked:
            writing.no_room(by_key[one.key].what, by_key[one.key].path, one.by)
    written = {key: (blocks[key][found.form], found.place) for key, found in placed.items()}
    for key, (block, place) in written.items():
        writing.write(block, place, colour=colour, what=by_key[key].what)
    return written


def _wanted(label: _Label, blocks: Sequence[Block], furthest: float) -> Wanted:
    return Wanted(
        key=label.key,
        spot=label.spot,
        reach=label.reach,
        sizes=tuple(block.size for block in blocks),
        furthest=furthest,
        beside=label.beside,
        drop=blocks[0].drop,
    )


def _path(plan: FasciaPlan, lever: str) -> Path:
    """What the builder would change to move a lever's hole."""
    if lever in plan.panel.levers:
        return ("panels", plan.id, "levers", lever)
    drawn = [device for device in plan.levers[lever].devices if device in plan.drawn]
    return plan.device_path(drawn[0]) if drawn else plan.levers[lever].path
