"""What the schedule says of levers, devices, supplies, routes and plugs: what lands on each, terminal by terminal."""

from collections.abc import Iterator, Mapping
from functools import cached_property

from labelgen.model.description import Device
from labelgen.model.figure_views import FigureView, FigureViews
from labelgen.model.figures import Figures
from labelgen.model.kinds import LEVER_CONTACTS
from labelgen.model.lamp_resistors import lamp_resistors, ohms_said
from labelgen.model.netlist import Circuit, EndKind, LeverPlan, PlugPlan
from labelgen.model.panel.lever_looks import lever_look
from labelgen.model.panel.routes import MatrixRow
from labelgen.model.way_diodes import diodes_of
from labelgen.rendering.page_addresses import anchor, slug
from labelgen.rendering.page_wires import EndFacts, Link, colours_of
from labelgen.rendering.schedule_facts import Facts, thing_anchor
from labelgen.rendering.thing_records import LeverFacts, Pin, PlugFacts, RouteFacts, Terminal, ThingFacts

TYPE_WORDS = {
    "sprung": "springs back to the middle",
    "passing": "makes contact while it passes",
    "latching": "stays where it is put",
    "on-off": "on or off",
    "button": "a button",
    "buttons": "buttons",
    "rotary": "turns from position to position",
    "changeover": "two-pole changeover, jumpers crossed",
    "two-pole": "two-pole",
    "stud": "studs, touched with the probe",
}


class Things:
    """Answers for one railway; everything is looked up once."""

    def __init__(self, facts: Facts, figures: Figures) -> None:
        self._facts, self._description, self._netlist = facts, facts.description, facts.netlist
        self._addresses, self._wires = facts.addresses, facts.wires
        self._views = FigureViews(figures, facts.netlist)
        self._circuits = {device: circuit for circuit in self._netlist.circuits for device in circuit.devices}

    # things with terminals

    def things(self, home: str, kind: EndKind) -> list[ThingFacts]:
        """What stands at a place that has no page of its own; what nothing is wired to is left out."""
        found = self._addresses.things_at(home, kind)
        return [self._thing(kind, id_) for _, id_ in found if self._wires.at(kind, id_)]

    def _thing(self, kind: EndKind, id_: str) -> ThingFacts:
        device = self._device(id_) if kind is EndKind.DEVICE else None
        supply = self._description.supplies.get(id_) if kind is EndKind.SUPPLY else None
        circuit = self._circuits.get(id_) if device is not None else None
        given = (
            {name: self._of_kind(circuit, said or "") for name, said in circuit.kind.terminals.items()}
            if circuit
            else {}
        )
        lever = self._netlist.lever_by_id.get(circuit.lever or "") if circuit is not None else None
        return ThingFacts(
            anchor=thing_anchor(kind.value, id_),
            shown=self._netlist.shown_id(id_),
            name=device.name if device is not None else supply.name if supply is not None else "",
            about=tuple(self._about(id_, device)),
            terminals=self._terminals(kind, id_, given),
            diodes=tuple(self._diodes(circuit)) if circuit is not None else (),
            lever=self.lever_link(lever) if lever is not None else None,
            idle=device.not_in_use if device is not None else "",
            issues=self._facts.in_force(id_, places="label"),
        )

    def _diodes(self, circuit: Circuit) -> Iterator[tuple[Link, Link]]:
        for diode in diodes_of(self._netlist, circuit):
            yield self._facts.end_link(diode.anode), self._facts.end_link(diode.cathode)

    def _device(self, id_: str) -> Device | None:
        return self._description.points.get(id_) or self._description.devices.get(id_)

    def _about(self, id_: str, device: Device | None) -> Iterator[str]:
        if device is None:
            return
        circuit = self._circuits.get(id_)
        if circuit is not None and circuit.kind.about:
            yield self._of_kind(circuit, circuit.kind.about)
        if device.swapped:
            yield "normal and reverse change places at this one"
        if device.addresses is not None:
            first, last = device.addresses
            yield f"address {first}" if first == last else f"addresses {first} to {last}"

    def _of_kind(self, circuit: Circuit, text: str) -> str:
        """What a kind says: of a built-in one, in the trade words that are wanted."""
        return text if circuit.kind_name in self._description.kinds else self._facts.says(text)

    def _terminals(self, kind: EndKind, id_: str, given: dict[str, str]) -> list[Terminal]:
        """In the order of its kind; then the others that something lands on."""
        landed = self._wires.at(kind, id_)
        names = [name for name in dict.fromkeys((*given, *landed)) if name in landed]
        return [
            Terminal(
                shown=landed[name][0].here.text,
                about=given.get(name, ""),
                anchor=anchor(kind, id_, name),
                ends=landed[name],
                resistor=self._resistors.get((kind, id_, name), ""),
            )
            for name in names
        ]

    @cached_property
    def _resistors(self) -> dict[tuple[EndKind, str, str], str]:
        found = lamp_resistors(self._description, self._netlist)
        return {one.point: ohms_said(one.resistor.ohms) for one in found if one.resistor is not None}

    def figures_of_strip(self, strip: str) -> FigureView:
        return self._views.of_strip(strip)

    # levers and routes

    @cached_property
    def levers(self) -> list[LeverFacts]:
        return [self._lever(lever) for lever in self._netlist.levers]

    def lever_link(self, lever: LeverPlan) -> Link:
        return Link(text=lever.shown, href=self._addresses.of_thing(EndKind.LEVER, lever.id), words=lever.name)

    def _lever(self, lever: LeverPlan) -> LeverFacts:
        look = lever_look(self._description, self._netlist, lever)
        contacts = dict.fromkeys(LEVER_CONTACTS.get(lever.type) or lever.buttons, "")
        return LeverFacts(
            id=lever.id,
            link=self.lever_link(lever),
            spare=lever.spare,
            look=look.words,
            colours=tuple(colour for letters in look.colours for colour in colours_of(letters)),
            type=TYPE_WORDS.get(lever.type, lever.type),
            normal=lever.normal,
            panel=self.panel_link(lever.panel),
            works=[self._thing(EndKind.DEVICE, device) for device in lever.devices],
            ways=list(self._facts.ways_of(lever)),
            terminals=self._terminals(EndKind.LEVER, lever.id, contacts),
            routes=self._routes_of.get(lever.id, []),
            figures=self._views.of_lever(lever.id),
            issues=self._facts.in_force(lever.id, plates="plate"),
        )

    @cached_property
    def _routes_of(self) -> dict[str, list[tuple[RouteFacts, str]]]:
        found: dict[str, list[tuple[RouteFacts, str]]] = {}
        for panel, routes in self._routes.items():
            lies = {row.route: row for matrix in self._netlist.matrices if matrix.panel == panel for row in matrix.rows}
            columns = {c.number: c for m in self._netlist.matrices if m.panel == panel for c in m.columns}
            for route in routes:
                for number in lies[route.name].columns:
                    column = columns[number]
                    found.setdefault(column.lever, []).append((route, column.lie))
        return found

    @cached_property
    def _routes(self) -> dict[str | None, list[RouteFacts]]:
        """By panel."""
        found: dict[str | None, list[RouteFacts]] = {}
        for matrix in self._netlist.matrices:
            levers = {column.number: (column.lever, column.lie) for column in matrix.columns}
            own = found.setdefault(matrix.panel, [])
            own += [self._route(row, levers) for row in matrix.rows]
        return found

    def _route(self, row: MatrixRow, levers: Mapping[int, tuple[str, str]]) -> RouteFacts:
        by_id = self._netlist.lever_by_id
        lies = [levers[number] for number in row.columns]
        mark = f"route-{slug(row.number)}"
        return RouteFacts(
            name=row.route,
            number=row.number,
            href=f"{self._addresses.of_thing(EndKind.ROUTE, row.number)}#{mark}",
            anchor=mark,
            stud=row.stud,
            lies=[(self.lever_link(by_id[lever]), lie) for lever, lie in lies if lever in by_id],
            diodes=[f"{row.letter}{number}" for number in row.columns],
            terminals=self._terminals(EndKind.ROUTE, row.number, {}),
        )

    def routes(self, panel: str | None) -> list[RouteFacts]:
        return self._routes.get(panel, [])

    def route(self, name: str) -> RouteFacts | None:
        return next((route for routes in self._routes.values() for route in routes if route.name == name), None)

    # plugs

    @cached_property
    def plugs(self) -> list[PlugFacts]:
        return [self._plug(plug) for plug in self._netlist.plugs]

    def _plug(self, plug: PlugPlan) -> PlugFacts:
        one, other = plug.boards
        written = self._description.plugs.get(plug.id)
        genders = written.gender if written is not None else {}
        landed = self._wires.at(EndKind.PIN, plug.id)
        pins = [
            Pin(pin=pin, sides=(_on(landed.get(str(pin.number), []), one), _on(landed.get(str(pin.number), []), other)))
            for pin in plug.pins
        ]
        return PlugFacts(
            link=Link(text=plug.shown, href=self._addresses.of_thing(EndKind.PIN, plug.id), words=plug.name),
            boards=(self._facts.board(one), self._facts.board(other)),
            genders=(genders.get(one, ""), genders.get(other, "")),
            pins=pins,
            used=sum(pin.state == "used" for pin in plug.pins),
            issues=self._facts.in_force(plug.id, markers="plate", places="label"),
        )

    def panel_link(self, panel: str | None) -> Link | None:
        written = self._description.panels.get(panel or "")
        if panel is None or written is None:
            return None
        shown = self._netlist.shown_id(panel)
        return Link(
            text=written.name or shown, href=self._addresses.of_panel(panel), words=shown if written.name else ""
        )


def _on(ends: list[EndFacts], board: str) -> list[EndFacts]:
    return [each for each in ends if each.end.board == board]
