"""Which of a lever's buttons is which, which positions a rotary switch has, and which way a switch is on."""

from collections.abc import Iterator

from labelgen.drawings.fascia.holes import lever_colours
from labelgen.drawings.fascia.plan import FasciaPlan
from labelgen.drawings.fascia.spots import Label, write_one_size
from labelgen.drawings.fascia.style import LEVER_RING_MM, SMALL_CAP_MM
from labelgen.drawings.fascia.texts import Block, forms, lines
from labelgen.drawings.fascia.writing import Writing
from labelgen.drawings.number_placing import CLEAR_MM, STRANGE_MM, Stands
from labelgen.model.lever_positions import SIDES, TWO_BUTTONS, on_and_off, positions
from labelgen.model.panel.holes import PanelHole

_FAR_MM = 2.0
"""Further from its hole, a word as small as these would be taken for another's."""


def write_lies(writing: Writing) -> None:
    """Where there is room: a word at each of several buttons; the positions of a rotary switch; `off` and `on`."""
    plan = writing.plan
    labels = [label for hole in plan.drilled if hole.use == "lever" for label in _labels(writing, hole)]
    write_one_size(
        writing, labels, writing.caps(SMALL_CAP_MM, SMALL_CAP_MM), _set, colour=plan.style.soft, furthest=_FAR_MM,
        needed=False, words_apart=STRANGE_MM,
    )  # fmt: skip


def _labels(writing: Writing, hole: PanelHole) -> Iterator[Label]:
    plan = writing.plan
    said, stands = _said(plan, hole)
    if said:
        ring = LEVER_RING_MM if lever_colours(plan) else 0.0
        yield Label(
            key=f"{hole.thing} {hole.contact}",
            what=f"what {hole.called} does",
            text="\n".join(writing.known(line, hole.path) for line in said.split("\n")),
            spot=hole.at,
            reach=hole.room.reach + ring + CLEAR_MM,
            path=hole.path,
            stands=stands,
        )


def _said(plan: FasciaPlan, hole: PanelHole) -> tuple[str, Stands]:
    """The upper line belongs to the handle that is up."""
    lever = plan.levers[hole.thing]
    if hole.contact:
        return (SIDES.get(hole.contact, hole.contact) if lever.buttons == TWO_BUTTONS else hole.contact), "plumb"
    if lever.type == "rotary":
        return ", ".join(one.name for one in positions(plan.netlist, lever)), "around"
    lies = on_and_off(lever)
    if {"up", "down"} <= lies.keys():
        return f"{lies['up']}\n{lies['down']}", "level"
    return ", ".join(f"{word} {way}" for way, word in lies.items()), "plumb"


def _set(label: Label, cap: float) -> tuple[Block, ...]:
    if "\n" in label.text:
        return (lines(label.text.split("\n"), cap),)
    found = forms(label.text, cap)
    words = label.text.split(", ")
    return (*found, lines(words, cap)) if len(words) > 2 else found
