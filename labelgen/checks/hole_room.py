"""Whether the parts of a panel have room: nuts and bodies, fingers, lamps; and whether their bushes reach through it.

Cautions all: the wiring still stands.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from labelgen.model.description import Description
from labelgen.model.netlist import Netlist
from labelgen.model.panel.hole_moving import squares_with_room, with_squares
from labelgen.model.panel.hole_room import Need, Room, apart, needed_between, shortfall
from labelgen.model.panel.holes import PanelHole, panel_holes
from labelgen.model.panel.lamp_places import lamps_without_place
from labelgen.model.panel.near_rooms import near_rooms
from labelgen.model.panel.scaling import size_that_would_do
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
    rooms: tuple[Room, Room]
    need: Need
    missing: float
    """mm."""

    @property
    def apart(self) -> str:
        return f"{apart(*self.rooms):.3g} mm apart"

    @property
    def needed(self) -> str:
        return f"{needed_between(*self.rooms, self.need):.3g}"

    @property
    def text(self) -> str:
        return f"{_both(self.first, self.second)}: {self.apart}, {_NEEDS[self.need]} {self.needed}"


@dataclass(frozen=True, kw_only=True)
class _Panel:
    """One panel with its holes, and what has too little room there."""

    description: Description
    netlist: Netlist
    id: str
    holes: Sequence[PanelHole]

    @cached_property
    def pairs(self) -> list[Pair]:
        """Those that have least room first; equal ones as the holes stand."""
        return sorted(_pairs(self.holes), key=lambda pair: -round(pair.missing, 3))

    @cached_property
    def dark(self) -> list[str]:
        """Lamps that find no place on their roads."""
        return _lamps_without(self.description, self.netlist, self.id, self.holes)

    @cached_property
    def larger(self) -> str:
        """The size that would do for all of it, in the builder's words; "": none."""
        return size_that_would_do(self.description, self.id, self._does)

    @cached_property
    def apart(self) -> str:
        """Where single levers would have room, in the builder's words; "": nowhere, or most are too close."""
        pairs = [(pair.first, pair.second) for pair in self.pairs]
        close = {(hole.use, hole.thing, hole.contact) for pair in pairs for hole in pair}
        if len(pairs) > 1 and 2 * len(close) > len(self.holes):
            return ""
        squares = squares_with_room(self.description.panels[self.id], self.holes, pairs)
        if not squares or not self._does(with_squares(self.description, self.id, squares)):
            return ""
        written = ", ".join(f"{lever}: [{x:g}, {y:g}]" for lever, (x, y) in squares.items())
        return f"`levers: {{{written}}}` at the panel would do"

    def _does(self, larger: Description) -> bool:
        holes = panel_holes(larger, self.netlist, self.id)
        return not any(_pairs(holes)) and not _lamps_without(larger, self.netlist, self.id, holes)

    def hint(self, other: str) -> str:
        would_do = self.apart or self.larger
        return f"{would_do}; or {other}." if would_do else f"{other[0].upper()}{other[1:]}."


def hole_room(description: Description, netlist: Netlist) -> list[Problem]:
    """Once for a panel each: lever-without-hole (nuts or bodies of two levers), too-close, panel-too-thick."""
    return [problem for id_ in description.panels for problem in _of_panel(description, netlist, id_)]


def _of_panel(description: Description, netlist: Netlist, id_: str) -> Iterator[Problem]:
    holes = panel_holes(description, netlist, id_)
    panel = _Panel(description=description, netlist=netlist, id=id_, holes=holes)
    yield from _levers_on_each_other(panel)
    yield from _too_close(panel)
    yield from _too_thick(description, id_, holes)


def _pairs(holes: Sequence[PanelHole]) -> Iterator[Pair]:
    """Of each two the first need that is not met: nuts, then bodies, then fingers."""
    rooms = [hole.room for hole in holes]
    for a, b in near_rooms(rooms):
        first, second = holes[a], holes[b]
        needs: tuple[Need, ...] = ("nuts", "bodies", "fingers") if _worked(first, second) else ("nuts", "bodies")
        for need in needs:
            missing = shortfall(rooms[a], rooms[b], need)
            if missing > _ROUND_MM:
                yield Pair(first=first, second=second, rooms=(rooms[a], rooms[b]), need=need, missing=missing)
                break


def _worked(*holes: PanelHole) -> bool:
    return all(hole.use in ("lever", "route") for hole in holes)


def _hard(pair: Pair) -> bool:
    """Two levers that cannot be screwed in beside each other."""
    return pair.need != "fingers" and pair.first.use == pair.second.use == "lever"


def _levers_on_each_other(panel: _Panel) -> Iterator[Problem]:
    pairs = [pair for pair in panel.pairs if _hard(pair)]
    if not pairs:
        return
    worst, more = pairs[0], len(pairs) - 1
    what = "nuts" if worst.need == "nuts" else "bodies behind the panel"
    of_more = "1 more pair of levers is" if more == 1 else f"{more} more pairs of levers are"
    others = f"; {of_more} too close on panel {panel.id}" if more else ""
    yield Problem(
        code="lever-without-hole",
        message=f"the holes of {_both(worst.first, worst.second)} are {worst.apart}, and their {what} need"
        f" {worst.needed} mm{others}",
        hint=panel.hint("give one of each two another square under the panel's `levers:`"),
        place=panel.description.place_of_key(*(("panels", panel.id) if more else worst.second.path)),
    )


def _too_close(panel: _Panel) -> Iterator[Problem]:
    """Once for a panel: the worst pairs, and what size would do."""
    said = [pair for pair in panel.pairs if not _hard(pair) and not _of_routes(pair)]
    texts = [*(pair.text for pair in said), *(f"the lamp {lamp} finds no room on its road" for lamp in panel.dark)]
    if not texts:
        return
    more = f"; and {len(texts) - _NAMED} more" if len(texts) > _NAMED else ""
    yield Problem(
        code="too-close",
        message=f"on panel {panel.id} there is little room: {'; '.join(texts[:_NAMED])}{more}",
        hint=panel.hint("give one of each two another place under the panel's `levers:`, `routes:` or `lamps:`"),
        place=panel.description.place_of_key(*(said[0].second.path if said else ("panels", panel.id, "lamps"))),
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
    if first.use == second.use == "lever" and not first.contact and not second.contact:
        return f"levers {first.called.removeprefix('lever ')} and {second.called.removeprefix('lever ')}"
    return f"{first.called} and {second.called}"
