"""Whether the parts of a panel have room: nuts and bodies, fingers, lamps; and whether their bushes reach through it.

Cautions all: the wiring still stands.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

from labelgen.model.description import Description
from labelgen.model.hole_room import Need, apart, needed_between, shortfall
from labelgen.model.lamp_places import lamps_without_place
from labelgen.model.netlist import Netlist
from labelgen.model.panel_holes import PanelHole, panel_holes
from labelgen.model.panel_scaling import size_that_would_do
from labelgen.natural_order import natural
from labelgen.problems import Problem

_NAMED = 3
"""Of many pairs that are too close, the worst so many are named."""
_NEEDS: dict[Need, str] = {
    "nuts": "what is screwed in there needs",
    "bodies": "their bodies behind the panel need",
    "fingers": "fingers need",
}
_ROUND_MM = 0.05
"""Nobody drills closer than this."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """Two holes that are too close for what is needed."""

    first: PanelHole
    second: PanelHole
    need: Need
    missing: float
    """mm."""

    @property
    def text(self) -> str:
        a, b = self.first.room, self.second.room
        return (
            f"{_both(self.first, self.second)}: {apart(a, b):.3g} mm apart, {_NEEDS[self.need]}"
            f" {needed_between(a, b, self.need):.3g}"
        )


def hole_room(description: Description, netlist: Netlist) -> list[Problem]:
    """Codes: lever-without-hole (nuts or bodies of two levers), too-close, panel-too-thick."""
    return [problem for id_ in description.panels for problem in _of_panel(description, netlist, id_)]


def _of_panel(description: Description, netlist: Netlist, id_: str) -> Iterator[Problem]:
    holes = panel_holes(description, netlist, id_)
    pairs = list(_pairs(holes))
    yield from _levers_on_each_other(description, pairs)
    yield from _too_close(description, netlist, id_, holes, pairs)
    yield from _too_thick(description, id_, holes)


def _pairs(holes: Sequence[PanelHole]) -> Iterator[Pair]:
    """Of each two the first need that is not met: nuts, then bodies, then fingers."""
    for first, second in combinations(holes, 2):
        needs: tuple[Need, ...] = ("nuts", "bodies", "fingers") if _worked(first, second) else ("nuts", "bodies")
        for need in needs:
            missing = shortfall(first.room, second.room, need)
            if missing > _ROUND_MM:
                yield Pair(first=first, second=second, need=need, missing=missing)
                break


def _worked(*holes: PanelHole) -> bool:
    return all(hole.use in ("lever", "route") for hole in holes)


def _hard(pair: Pair) -> bool:
    """Two levers that cannot be screwed in beside each other."""
    return pair.need != "fingers" and pair.first.use == pair.second.use == "lever"


def _levers_on_each_other(description: Description, pairs: Sequence[Pair]) -> Iterator[Problem]:
    for pair in pairs:
        if _hard(pair):
            first, second = pair.first, pair.second
            what = "nuts" if pair.need == "nuts" else "bodies behind the panel"
            yield Problem(
                code="lever-without-hole",
                message=f"the holes of {_both(first, second)} are {apart(first.room, second.room):.3g} mm apart, and"
                f" their {what} need {needed_between(first.room, second.room, pair.need):.3g} mm",
                hint="Give one of them another square under the panel's `levers:`.",
                place=description.place_of_key(*second.path),
            )


def _too_close(
    description: Description, netlist: Netlist, id_: str, holes: Sequence[PanelHole], pairs: Sequence[Pair]
) -> Iterator[Problem]:
    """Once for a panel: the worst pairs, and what size would do."""
    said = sorted((p for p in pairs if not _hard(p) and not _of_routes(p)), key=lambda p: -p.missing)
    lamps = _lamps_without(description, netlist, id_, holes)
    texts = [*(pair.text for pair in said), *(f"the lamp {lamp} finds no room on its road" for lamp in lamps)]
    if not texts:
        return
    more = f"; and {len(texts) - _NAMED} more" if len(texts) > _NAMED else ""

    def does(larger: Description) -> bool:
        new = panel_holes(larger, netlist, id_)
        return not _lamps_without(larger, netlist, id_, new) and not any(_pairs(new))

    size = size_that_would_do(description, id_, does)
    other = "give one of each two another place under the panel's `levers:`, `routes:` or `lamps:`"
    yield Problem(
        code="too-close",
        message=f"on panel {id_} there is little room: {'; '.join(texts[:_NAMED])}{more}",
        hint=f"{size}; or {other}." if size else f"{other[0].upper()}{other[1:]}.",
        place=description.place_of_key(*(said[0].second.path if said else ("panels", id_, "lamps"))),
    )


def _of_routes(pair: Pair) -> bool:
    """Said by the checks of routes."""
    return pair.need == "nuts" and _worked(pair.first, pair.second)


def _lamps_without(description: Description, netlist: Netlist, id_: str, holes: Sequence[PanelHole]) -> list[str]:
    levers = [lever for lever in netlist.levers if lever.panel == id_]
    return lamps_without_place(description.panels[id_], levers, {h.thing for h in holes if h.use == "lamp"})


def _too_thick(description: Description, id_: str, holes: Sequence[PanelHole]) -> Iterator[Problem]:
    thickness = description.panels[id_].thickness
    if thickness is None:
        return
    parts = {hole.part_id: hole.part for hole in holes if hole.part is not None and hole.part.grips is not None}
    short = [name for name in sorted(parts, key=natural) if (parts[name].grips or 0) < thickness]
    if short:
        held = ", ".join(f"{name} {parts[name].grips:g} mm" for name in short)
        yield Problem(
            code="panel-too-thick",
            message=f"panel {id_} is {thickness:g} mm thick, more than the bushes of its parts hold: {held}",
            hint="Take a thinner panel, parts with a longer bush, or recess the back around their holes.",
            place=description.place_of("panels", id_, "thickness"),
        )


def _both(first: PanelHole, second: PanelHole) -> str:
    """Levers 5 and 6; of holes of two kinds, each in full."""
    if first.use == second.use == "lever":
        return f"levers {first.called.removeprefix('lever ')} and {second.called.removeprefix('lever ')}"
    return f"{first.called} and {second.called}"
