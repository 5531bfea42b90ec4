"""What is behind a panel: each part with its contacts, their tabs, and the wires that are soldered there."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from labelgen.drawings.back.tabs import Tab, jumpers, tabs_of
from labelgen.lengths import Point, Rectangle
from labelgen.model.description import Description
from labelgen.model.kinds import LEVER_CONTACTS
from labelgen.model.lamp_leads import LEADS, SHARED, lamp_lead
from labelgen.model.lamp_resistors import lamp_resistors, ohms_in_words
from labelgen.model.netlist import End, EndKind, LeverPlan, Netlist, Wire
from labelgen.model.panel.hole_marks import PREFIXES, hole_marks
from labelgen.model.panel.holes import PanelHole, panel_holes
from labelgen.model.panel.routes import FEED, OUTPUT, MatrixRow

RETURN_FUNCTION = "return"


@dataclass(frozen=True, slots=True, kw_only=True)
class Soldered:
    """A wire at a contact."""

    wire: Wire
    far: End


@dataclass(frozen=True, slots=True, kw_only=True)
class Contact:
    end: tuple[EndKind, str, str]
    """The metal it is: `End.point`."""
    tab: Tab
    wires: tuple[Soldered, ...]
    lead: str = ""
    """Of a lamp: the colour of its lead, IEC 60757 letters."""
    resistor: str = ""
    """In series with its lamp, or with the lamps that share this end: `510 ohms`, `510 ohms for both`."""
    joined: str = ""
    """Of the feed that all buttons of a lever share: what the hole of the one before is called, which brings it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BackPart:
    hole: PanelHole
    mark: str
    """What its hole is called on the drilling template."""
    short: str
    """What is written on it: the number of its lever, of its route."""
    name: str
    """In the builder's words, for a heading: lever 5, Crossover."""
    at: Point
    """The middle of its hole, from the top left corner of the back."""
    lever: LeverPlan | None
    contacts: tuple[Contact, ...]
    loose: tuple[Contact, ...] = ()
    """What has no tab of its own: things beside a lever."""

    @property
    def body(self) -> Rectangle:
        """What it takes behind the panel."""
        if self.hole.part is None:
            side = self.hole.diameter
            return Rectangle(self.at.x - side / 2, self.at.y - side / 2, side, side)
        width, height = self.hole.part.body
        return Rectangle(self.at.x - width / 2, self.at.y - height / 2, width, height)

    @property
    def tabs(self) -> list[Tab]:
        return [contact.tab for contact in self.contacts]

    def jumpers(self) -> list[tuple[Tab, Point]]:
        return jumpers(self.tabs) if self.lever is not None and self.lever.type == "changeover" else []


def back_parts(description: Description, netlist: Netlist, panel_id: str) -> tuple[BackPart, ...]:
    """Every hole of the panel with what is screwed into it, in the order of the holes."""
    return tuple(_Back(description, netlist, panel_id).parts())


class _Back:
    def __init__(self, description: Description, netlist: Netlist, panel_id: str) -> None:
        self._netlist = netlist
        self._holes = panel_holes(description, netlist, panel_id)
        size = description.panels[panel_id].size
        self._width = size[0] if size is not None else 0.0
        self._routes = {row.route: row for matrix in netlist.matrices for row in matrix.rows}
        self._ends = _landing(netlist)
        self._resistors = _resistors(description, netlist)
        self._leads = {hole.thing: lamp_lead(netlist, hole.thing) for hole in self._holes if hole.use == "lamp"}
        self._lamp_ends = {
            end.point
            for thing, lead in self._leads.items()
            for wire in (*lead.wires, *lead.shared)
            for end in wire.ends
            if _at_lamp(end, thing)
        }

    def parts(self) -> Iterator[BackPart]:
        for mark, hole in zip(hole_marks(self._netlist, self._holes), self._holes, strict=True):
            lever = self._netlist.lever_by_id.get(hole.thing) if hole.use == "lever" else None
            contacts, loose = self._contacts(hole, lever)
            yield BackPart(
                hole=hole,
                mark=mark,
                short=self._short(hole, lever),
                name=_name(hole, lever),
                at=Point(self._width - hole.at.x, hole.at.y),
                lever=lever,
                contacts=self._with_resistors(contacts),
                loose=self._with_resistors(loose),
            )

    def _with_resistors(self, contacts: Sequence[Contact]) -> tuple[Contact, ...]:
        """Each is soldered in once, at the first of the lamps that share it."""
        return tuple(replace(one, resistor=self._resistors.pop(one.end, "")) for one in contacts)

    def _short(self, hole: PanelHole, lever: LeverPlan | None) -> str:
        if lever is not None:
            return lever.shown
        row = self._routes.get(hole.thing) if hole.use == "route" else None
        return row.number if row is not None else ""

    def _contacts(self, hole: PanelHole, lever: LeverPlan | None) -> tuple[tuple[Contact, ...], tuple[Contact, ...]]:
        if hole.part is None:
            return (), ()
        if lever is not None:
            return self._of_lever(hole, lever)
        if hole.use == "route":
            return self._of_route(hole, self._routes[hole.thing]), ()
        return self._of_lamp(hole), ()

    def _of_lever(self, hole: PanelHole, lever: LeverPlan) -> tuple[tuple[Contact, ...], tuple[Contact, ...]]:
        if hole.contact:
            return self._of_button(hole, lever), ()
        fixed = LEVER_CONTACTS.get(lever.type) or ()
        landed = list(self._ends.get((EndKind.LEVER, lever.id), {}))
        beside = [end for end in landed if end not in fixed and end in self._beside(lever)]
        named = list(dict.fromkeys([*fixed, *(end for end in landed if end not in beside)]))
        assert hole.part is not None
        ends = {name: (EndKind.LEVER, lever.id, name) for name in [*named, *beside]}
        tabs = tabs_of(hole.part, named, lever.normal)
        loose = [Tab(contact=name, at=Point(0, 0), known=False) for name in beside if ends[name] not in self._lamp_ends]
        return self._with_wires(ends, tabs), self._with_wires(ends, loose)

    def _of_button(self, hole: PanelHole, lever: LeverPlan) -> tuple[Contact, ...]:
        """One of several buttons of a lever, the feed of each joined to that of the one before; a stud has none."""
        assert hole.part is not None
        named = [hole.contact] if hole.part.use == "stud" else [FEED, hole.contact]
        ends = {name: (EndKind.LEVER, lever.id, name) for name in named}
        contacts = self._with_wires(ends, tabs_of(hole.part, named))
        before = lever.buttons.index(hole.contact) - 1
        if before < 0 or hole.part.use == "stud":
            return contacts
        joined = f"{PREFIXES['lever']}{lever.id}{lever.buttons[before].upper()}"
        feed = Contact(end=(EndKind.LEVER, lever.id, ""), tab=contacts[0].tab, wires=(), joined=joined)
        return feed, contacts[1]

    def _beside(self, lever: LeverPlan) -> set[str]:
        """Things beside a lever to which its kind leads wires: lamps."""
        kinds = [circuit.kind for circuit in self._netlist.circuits if circuit.lever == lever.id]
        return {row.across for kind in kinds for row in kind.group if row.across is not None}

    def _of_route(self, hole: PanelHole, row: MatrixRow) -> tuple[Contact, ...]:
        named = [OUTPUT] if row.stud else [FEED, OUTPUT]
        assert hole.part is not None
        return self._with_wires({c: (EndKind.ROUTE, row.number, c) for c in named}, tabs_of(hole.part, named))

    def _of_lamp(self, hole: PanelHole) -> tuple[Contact, ...]:
        """Plus from what lights it, minus to the return, as far as the description says."""
        assert hole.part is not None
        lead = self._leads[hole.thing]
        shared = self._netlist.functions.get(RETURN_FUNCTION)
        minus = lead.shared[0].colour if lead.shared else shared.colour if shared else ""
        wires = {"+": (lead.wires, lead.colour), "-": (lead.shared, minus)}
        return tuple(_lamp_contact(hole.thing, tab, *wires[tab.contact]) for tab in tabs_of(hole.part, list(wires)))

    def _with_wires(self, ends: Mapping[str, tuple[EndKind, str, str]], tabs: Sequence[Tab]) -> tuple[Contact, ...]:
        found = []
        for tab in tabs:
            kind, thing, terminal = ends[tab.contact]
            wires = tuple(self._ends.get((kind, thing), {}).get(terminal, ()))
            found.append(Contact(end=ends[tab.contact], tab=tab, wires=wires))
        return tuple(found)


def _lamp_contact(thing: str, tab: Tab, wires: Sequence[Wire], colour: str) -> Contact:
    near = [end for wire in wires for end in wire.ends if _at_lamp(end, thing)]
    end = near[0].point if near else (EndKind.DEVICE, thing, tab.contact)
    soldered = [
        Soldered(wire=wire, far=next((one for one in wire.ends if not _at_lamp(one, thing)), wire.finish))
        for wire in wires
    ]
    return Contact(end=end, tab=tab, wires=tuple(soldered), lead=colour)


def _at_lamp(end: End, thing: str) -> bool:
    """Whether a wire's end is that of a lamp: beside the lever of its point, or on its own device."""
    if end.kind is EndKind.LEVER:
        return end.terminal in LAMP_ENDS
    return end.kind is EndKind.DEVICE and end.thing == thing.partition(".")[0]


LAMP_ENDS = {SHARED, *(beside for beside, _ in LEADS.values())}


def _resistors(description: Description, netlist: Netlist) -> dict[tuple[EndKind, str, str], str]:
    """`End.point`: the resistor that belongs there."""
    return {
        one.point: f"{ohms_in_words(one.resistor.ohms)}{' for both' if len(one.lamps) > 1 else ''}"
        for one in lamp_resistors(description, netlist)
        if one.resistor is not None
    }


def _landing(netlist: Netlist) -> dict[tuple[EndKind, str], dict[str, list[Soldered]]]:
    """Thing: its contacts in the order of the wires, with what lands on each."""
    found: dict[tuple[EndKind, str], dict[str, list[Soldered]]] = {}
    for wire in netlist.wires:
        for end, far in (wire.ends, wire.ends[::-1]):
            landed = found.setdefault((end.kind, end.thing), {})
            landed.setdefault(end.terminal, []).append(Soldered(wire=wire, far=far))
    return found


def _name(hole: PanelHole, lever: LeverPlan | None) -> str:
    called = hole.called[:1].upper() + hole.called[1:]
    return f"{called}: {lever.name}" if lever is not None and lever.name else called
