"""A piece of Marram Quay, wired by hand: what the drawings read, without the stages before them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from labelgen.model.description import Description
from labelgen.model.kinds import Kind
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
from labelgen.standards.functions import DEFAULT_FUNCTIONS

FUNCTIONS = {
    name: Function(name=name, code=usual.code, colour=usual.colour, pattern=usual.pattern, size=usual.size)
    for name, usual in DEFAULT_FUNCTIONS.items()
}


def lever_end(lever: str, contact: str) -> End:
    return End(kind=EndKind.LEVER, thing=lever, terminal=contact)


def way_end(strip: str, way: int, side: Side) -> End:
    return End(kind=EndKind.WAY, thing=strip, terminal=str(way), side=side)


def device_end(device: str, terminal: str) -> End:
    return End(kind=EndKind.DEVICE, thing=device, terminal=terminal)


def supply_end(supply: str, terminal: str) -> End:
    return End(kind=EndKind.SUPPLY, thing=supply, terminal=terminal)


@dataclass
class Railway:
    """Collects wires and strips; `netlist()` puts them together."""

    wires: list[Wire] = field(default_factory=list)
    strips: list[StripPlan] = field(default_factory=list)
    levers: list[LeverPlan] = field(default_factory=list)
    circuits: list[Circuit] = field(default_factory=list)

    def wire(self, function: str, start: End, finish: End, *, stem: str = "", mark: str = "", **more: object) -> Wire:
        usual = FUNCTIONS[function]
        values: dict[str, object] = {
            "number": len(self.wires) + 1,
            "size": usual.size,
            "colour": usual.colour,
            "board": "A",
            "code": usual.code,
        }
        made = Wire(
            circuit=stem,
            function=function,
            head=f"{stem}{values['code']}{mark}",
            stem=stem,
            mark=mark,
            start=start,
            finish=finish,
            **(values | more),  # type: ignore[arg-type]
        )
        self.wires.append(made)
        return made

    def way(self, number: int, function: str, *, stem: str = "", mark: str = "", strip: str) -> WayPlan:
        """A used way with whatever wires of this railway land on it."""
        code = FUNCTIONS[function].code
        landing = {
            side: tuple(w for w in self.wires for e in w.ends if e == way_end(strip, number, side)) for side in Side
        }
        return WayPlan(
            number=number,
            state="used",
            function=function,
            head=f"{stem}{code}{mark}",
            stem=stem,
            code=code,
            mark=mark,
            panel=landing[Side.PANEL],
            layout=landing[Side.LAYOUT],
        )

    def strip(self, id: str, ways: Sequence[WayPlan], **more: object) -> StripPlan:  # noqa: A002
        made = strip_plan(id, ways, **more)
        self.strips.append(made)
        return made

    def lever(self, id: str, **more: object) -> LeverPlan:  # noqa: A002
        made = lever_plan(id, **more)
        self.levers.append(made)
        return made

    def netlist(self) -> Netlist:
        return Netlist(
            railway="Marram Quay",
            circuits=tuple(self.circuits),
            strips=tuple(self.strips),
            levers=tuple(self.levers),
            wires=tuple(self.wires),
            functions=FUNCTIONS,
        )


def strip_plan(id: str, ways: Sequence[WayPlan], **more: object) -> StripPlan:  # noqa: A002
    usual: dict[str, object] = {
        "shown": id,
        "board": "A",
        "pitch": 8.0,
        "measured": True,
        "way_1": "left",
        "panel_side": "front",
        "supplies": ("PULSE",),
    }
    return StripPlan(id=id, ways=tuple(ways), **(usual | more))  # type: ignore[arg-type]


def lever_plan(id: str, **more: object) -> LeverPlan:  # noqa: A002
    usual: dict[str, object] = {
        "shown": id,
        "name": "",
        "type": "sprung",
        "panel": "QUAY",
        "board": "A",
        "normal": "up",
        "spare": False,
        "devices": (),
    }
    return LeverPlan(id=id, path=("levers", id), **(usual | more))  # type: ignore[arg-type]


def plain_ways(count: int, first: int = 1) -> list[WayPlan]:
    """Ways N F R of levers 1, 2, 3 …, without wires."""
    names = ("normal", "feed", "reverse")
    made = []
    for number in range(first, first + count):
        function = names[(number - 1) % 3]
        stem = "" if function == "feed" else str((number - 1) // 3 + 1)
        code = FUNCTIONS[function].code
        made.append(WayPlan(number=number, state="used", function=function, head=stem + code, stem=stem, code=code))
    return made


def description(**more: object) -> Description:
    return Description.model_validate({"railway": "Marram Quay", **more})


def points_railway(levers: Sequence[str] = ("1", "2"), strip: str = "A1") -> Railway:
    """Points, each on its own lever, on one strip with one pulse supply: 7n wires, wired as the format says."""
    railway = Railway()
    for index, lever in enumerate(levers):
        _point(railway, lever, strip, 3 * index + 1)
    feeds = [3 * index + 2 for index in range(len(levers))]
    railway.wire("feed", supply_end("PULSE", "feed"), way_end(strip, feeds[0], Side.LAYOUT))
    for a, b in pairwise(feeds):
        railway.wire("feed", way_end(strip, a, Side.LAYOUT), way_end(strip, b, Side.LAYOUT), link=True)
    before = supply_end("PULSE", "return")
    for lever in levers:
        railway.wire("return", before, device_end(f"P{lever}", "C"))
        before = device_end(f"P{lever}", "C")
    ways: list[WayPlan] = []
    for index, lever in enumerate(levers):
        rows = (("normal", lever), ("feed", ""), ("reverse", lever))
        ways += [railway.way(3 * index + 1 + row, f, stem=s, strip=strip) for row, (f, s) in enumerate(rows)]
    ways.append(WayPlan(number=len(ways) + 1, state="spare"))
    ways.append(WayPlan(number=len(ways) + 1, state="taken", head="doorbell"))
    ways.append(WayPlan(number=len(ways) + 1, state="kept"))
    railway.strip(strip, ways)
    return railway


def _point(railway: Railway, lever: str, strip: str, first: int) -> None:
    point = f"P{lever}"
    for row, function in enumerate(("normal", "feed", "reverse")):
        code = FUNCTIONS[function].code
        way = first + row
        railway.wire(function, lever_end(lever, code), way_end(strip, way, Side.PANEL), stem=lever)
        if function != "feed":
            railway.wire(function, way_end(strip, way, Side.LAYOUT), device_end(point, code), stem=lever)
    railway.lever(lever, name=f"Siding {lever}", devices=(point,))
    railway.circuits.append(_circuit(lever, point, strip, {0: first, 1: first + 1, 2: first + 2}))


def _circuit(lever: str, device: str, strip: str, ways: Mapping[int, int]) -> Circuit:
    kind = Kind.model_validate({"terminals": {"N": "", "C": "", "R": ""}, "supply": "pulse"})
    group = Group(board="A", strip=strip, devices=(device,), ways=ways)
    return Circuit(
        id=lever,
        lever=lever,
        devices=(device,),
        kind_name="twin-coil",
        kind=kind,
        supplies={"": "PULSE"},
        groups=(group,),
    )
