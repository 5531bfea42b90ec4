"""Netlists made by hand: strips of Marram Quay way by way, without the wiring stage."""

from collections.abc import Sequence
from dataclasses import replace
from types import MappingProxyType

from labelgen.model.description import Description
from labelgen.model.kinds import ChainRow, GroupRow, Kind
from labelgen.model.netlist import (
    Circuit,
    End,
    EndKind,
    Function,
    Group,
    LeverPlan,
    Netlist,
    Side,
    StripPlan,
    WayPlan,
    Wire,
)

FUNCTIONS = {
    name: Function(name=name, code=code, colour=colour, pattern=pattern, size=size)
    for name, code, colour, pattern, size in (
        ("normal", "N", "YE", "diagonal", "16/0.2"),
        ("reverse", "R", "BU", "back-diagonal", "16/0.2"),
        ("feed", "F", "RD", "solid", "16/0.2"),
        ("return", "C", "BK", "horizontal", "32/0.2"),
        ("lamp", "L", "WHGN", "dots", "7/0.2"),
    )
}
TWIN_COIL = Kind(
    about="solenoid point motor",
    terminals={"N": "sets normal", "C": "shared", "R": "sets reverse"},
    supply="pulse",
    lever_type="sprung",
    group=(
        GroupRow(function="normal", contact="N", terminal="N"),
        GroupRow(function="feed", contact="F", chain="feed"),
        GroupRow(function="reverse", contact="R", terminal="R"),
    ),
    chain=(ChainRow(function="return", terminal="C", supply="return"),),
)
LEVER, WAY, DEVICE, SUPPLY = EndKind.LEVER, EndKind.WAY, EndKind.DEVICE, EndKind.SUPPLY


def end(kind: EndKind, thing: str, terminal: str | int, side: Side | None = None, painted: str = "") -> End:
    return End(kind=kind, thing=thing, terminal=str(terminal), side=side, painted=painted)


class Wirer:
    """Numbers the wires of one strip after another as the contract says, points only: 7 wires a point."""

    def __init__(self, shown: dict[str, str] | None = None) -> None:
        self.wires: list[Wire] = []
        self.shown = shown or {}
        self.ways: dict[str, int] = {}
        self.taken: dict[tuple[str, int], str] = {}
        self.kept: set[tuple[str, int]] = set()
        self.circuits: list[Circuit] = []
        self.chain: list[End] = [end(SUPPLY, "PULSE", "feed")]
        self.returns: list[End] = [end(SUPPLY, "PULSE", "return")]
        self.roles: dict[tuple[str, int], tuple[str, str]] = {}

    def strip(self, id_: str, ways: int = 12) -> None:
        self.ways[id_] = ways

    def way(self, strip: str, number: int, side: Side) -> End:
        painted = f"{self.shown[strip]}.{number}" if strip in self.shown else ""
        return end(WAY, strip, number, side, painted)

    def wire(self, circuit: str, function: str, start: End, finish: End, **more: object) -> Wire:
        kind = FUNCTIONS[function]
        chain = start.kind is SUPPLY or circuit == "PULSE"
        values: dict[str, object] = {
            "number": len(self.wires) + 1,
            "circuit": circuit,
            "function": function,
            "code": kind.code,
            "head": kind.code if chain else f"{circuit}{kind.code}",
            "stem": "" if chain else circuit,
            "mark": "",
            "colour": kind.colour,
            "size": kind.size,
            "start": start,
            "finish": finish,
            "board": "WEST",
            "length": 300 + 50 * len(self.wires),
        }
        made = Wire(**(values | more))  # type: ignore[arg-type]
        self.wires.append(made)
        return made

    def point(self, lever: str, device: str, strip: str, first: int) -> None:
        """A twin-coil point on the three ways from `first`."""
        for offset, (function, contact) in enumerate((("normal", "N"), ("feed", "F"), ("reverse", "R"))):
            self.roles[strip, first + offset] = (lever, function)
            panel = self.way(strip, first + offset, Side.PANEL)
            self.wire(lever, function, end(LEVER, lever, contact), panel)
            if contact != "F":
                layout = self.way(strip, first + offset, Side.LAYOUT)
                self.wire(lever, function, layout, end(DEVICE, device, contact))
        self.chain.append(self.way(strip, first + 1, Side.LAYOUT))
        self.returns.append(end(DEVICE, device, "C"))
        group = Group(board="WEST", strip=strip, devices=(device,), ways={0: first, 1: first + 1, 2: first + 2})
        self.circuits.append(
            Circuit(
                id=lever,
                lever=lever,
                devices=(device,),
                kind_name="twin-coil",
                kind=TWIN_COIL,
                supplies={"": "PULSE"},
                groups=(group,),
            )
        )

    def netlist(self, railway: str = "Marram Quay") -> Netlist:
        for before, after in zip(self.chain, self.chain[1:], strict=False):
            link = before.kind is WAY and before.thing == after.thing
            self.wire("PULSE", "feed", before, after, link=link, length=60 if link else None)
        for before, after in zip(self.returns, self.returns[1:], strict=False):
            self.wire("PULSE", "return", before, after)
        return Netlist(
            railway=railway,
            circuits=tuple(self.circuits),
            strips=tuple(self._strip(id_, ways) for id_, ways in self.ways.items()),
            levers=tuple(self._lever(circuit) for circuit in self.circuits),
            wires=tuple(self.wires),
            functions=MappingProxyType(FUNCTIONS),
            shown=MappingProxyType(self.shown),
        )

    def _lever(self, circuit: Circuit) -> LeverPlan:
        return LeverPlan(
            id=circuit.id,
            shown=circuit.id,
            name="",
            type="sprung",
            panel=None,
            board="WEST",
            normal="up",
            spare=False,
            devices=circuit.devices,
            path=("levers", circuit.id),
        )

    def _strip(self, id_: str, ways: int) -> StripPlan:
        return StripPlan(
            id=id_,
            shown=self.shown.get(id_, id_),
            board="WEST",
            pitch=10,
            measured=True,
            way_1="left",
            panel_side="front",
            ways=tuple(self._way(id_, number) for number in range(1, ways + 1)),
            supplies=("PULSE",),
        )

    def _way(self, strip: str, number: int) -> WayPlan:
        entries = {side: self._entry(strip, number, side) for side in Side}
        circuit, function = self.roles.get((strip, number), ("", ""))
        plan = WayPlan(number=number, state="spare", panel=entries[Side.PANEL], layout=entries[Side.LAYOUT])
        if function:
            code = FUNCTIONS[function].code
            head = code if function == "feed" else f"{circuit}{code}"
            return replace(plan, state="used", function=function, head=head, code=code)
        if (strip, number) in self.taken:
            return replace(plan, state="taken", head=self.taken[strip, number])
        if entries[Side.PANEL] or entries[Side.LAYOUT]:
            return replace(plan, state="used")
        return replace(plan, state="kept") if (strip, number) in self.kept else plan

    def _entry(self, strip: str, number: int, side: Side) -> tuple[Wire, ...]:
        return tuple(
            wire
            for wire in self.wires
            if any((e.kind, e.thing, e.terminal, e.side) == (WAY, strip, str(number), side) for e in wire.ends)
        )


def harbour(points: int = 4, ways: int = 12, shown: dict[str, str] | None = None) -> Netlist:
    """One strip, A1, full of points P1, P2 …, each on its own lever."""
    wirer = Wirer(shown)
    wirer.strip("A1", ways)
    for index in range(points):
        wirer.point(str(index + 1), f"P{index + 1}", "A1", 1 + 3 * index)
    return wirer.netlist()


def described(netlist: Netlist, **keys: object) -> Description:
    strips = {strip.id: {"ways": len(strip.ways)} for strip in netlist.strips}
    return Description.model_validate(
        {"railway": netlist.railway, "strips": strips, "boards": {"WEST": {"name": "Harbour board"}}, **keys}
    )


def wires_of(netlist: Netlist, strip: str) -> Sequence[Wire]:
    return [wire for wire in netlist.wires if any(e.kind is WAY and e.thing == strip for e in wire.ends)]
