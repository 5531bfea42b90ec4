"""What the schedule's index and strip pages say, ready to be set: texts, links and colours. No markup is made here."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from labelgen.model.description import Description, Supply
from labelgen.model.netlist import End, EndKind, Function, LeverPlan, Netlist, Side, StripPlan, WayPlan, Wire
from labelgen.model.way_diodes import DiodeEnd, diode_ends
from labelgen.rendering.page_addresses import PageAddresses
from labelgen.rendering.page_wires import EndFacts, Issues, Link, PageWires
from labelgen.standards.trade_words import said

SUPPLY_WORDS = {
    "pulse": "pulse supply (capacitor bank)",
    "dc": "direct current",
    "ac": "alternating current",
    "track": "track controller",
    "digital": "digital track supply",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Hanging:
    """How a strip lies before the eyes of one who looks up at it from below, turned so that its ways run downward."""

    panel: Literal["left", "right"] = "left"
    """On which hand its panel side is."""
    front: Literal["up", "down", "left", "right", ""] = ""
    """Where the board's front edge is; "" where that is not known."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Swap:
    """Two ways whose device wires may have to be exchanged."""

    here: str
    """The heads of the wires here, and of those at the other way."""
    there: str
    way: int


@dataclass(frozen=True, slots=True, kw_only=True)
class WayFacts:
    way: WayPlan
    panel: list[EndFacts]
    layout: list[EndFacts]
    swap: Swap | None
    bridged: str
    """The other ways of its bar."""
    diodes: list[tuple[DiodeEnd, Link]]
    """What each is to this way, and the other one."""
    tier: bool
    """A further row of the strip begins with it."""

    @property
    def shows(self) -> bool:
        live = self.way.state == "used" and self.way.bridged_to is None
        return live or bool(self.panel or self.layout)


@dataclass(frozen=True, slots=True, kw_only=True)
class StripFacts:
    id: str
    href: str
    shown: str
    name: str
    board: Link
    supplies: tuple[str, ...]
    bridges: tuple[str, ...]
    tiers: int
    ways: int
    busy: int
    """Ways that are not spare and not kept free."""
    issues: tuple[str, ...] = ()
    """Of its labels: `marker B`, `tag A`; none where they are not known."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SupplyFacts:
    link: Link
    kind: str
    figures: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Total:
    """Of the wires of one function, or of all."""

    function: Function | None
    wires: int
    links: int
    length: int
    """mm, of those whose length is known."""
    unknown: int


class Facts:
    """Answers what the pages ask of one railway."""

    def __init__(self, description: Description, netlist: Netlist, issues: Issues) -> None:
        self.description, self.netlist, self.issues = description, netlist, issues
        self.addresses = PageAddresses(description, netlist)
        self.wires = PageWires(description, netlist, self.addresses, issues)

    def says(self, text: str) -> str:
        """A text of ours in the trade words that are wanted."""
        return said(text, self.description.words)

    @cached_property
    def strips(self) -> list[StripFacts]:
        return [self._strip(strip) for strip in self.netlist.strips]

    def _strip(self, strip: StripPlan) -> StripFacts:
        written = self.description.strips.get(strip.id)
        return StripFacts(
            id=strip.id,
            href=self.addresses.of_thing(EndKind.WAY, strip.id),
            shown=strip.shown,
            name=written.name if written else "",
            board=self.board(strip.board),
            supplies=strip.supplies,
            bridges=tuple(" + ".join(map(str, ways)) for ways in strip.bridges),
            tiers=strip.tiers,
            ways=len(strip.ways),
            busy=sum(way.state not in ("spare", "kept") for way in strip.ways),
            issues=self.in_force(strip.id, markers="marker", tags="tag"),
        )

    def in_force(self, thing: str, **labels: str) -> tuple[str, ...]:
        """The issues of a thing's labels: kind of label, and what it is called."""
        known = ((word, self.issues.get((kind, thing), "")) for kind, word in labels.items())
        return tuple(f"{word} {issue}" for word, issue in known if issue)

    def ways(self, strip: StripPlan) -> list[WayFacts]:
        row = -(-len(strip.ways) // strip.tiers)
        return [
            WayFacts(
                way=way,
                panel=self.wires.at_way(strip.id, way, Side.PANEL),
                layout=self.wires.at_way(strip.id, way, Side.LAYOUT),
                swap=_swap(way, strip),
                bridged=", ".join(
                    str(other) for bar in strip.bridges if way.number in bar for other in bar if other != way.number
                ),
                diodes=[(each, self.end_link(each.far)) for each in diode_ends(way)],
                tier=way.number > 1 and way.number % row == 1,
            )
            for way in strip.ways
        ]

    def end_link(self, end: End) -> Link:
        return Link(text=end.shown, href=self.addresses.of_end(end))

    def board(self, board: str | None) -> Link:
        """By its name, with what is painted on it besides."""
        written = self.description.boards.get(board or "")
        shown = self.netlist.shown_id(board or "")
        name = written.name if written else ""
        return Link(text=name or shown, href=self.addresses.of_board(board), words=shown if name else "")

    def supplies(self, ids: Iterable[str]) -> list[SupplyFacts]:
        given = self.description.supplies
        return [self._supply(id_, given[id_]) for id_ in ids if id_ in given]

    def _supply(self, id_: str, supply: Supply) -> SupplyFacts:
        page = self.addresses.of_thing(EndKind.SUPPLY, id_)
        link = Link(text=self.netlist.shown_id(id_), href=f"{page}#{thing_anchor('supply', id_)}", words=supply.name)
        return SupplyFacts(link=link, kind=self.says(SUPPLY_WORDS[supply.kind]), figures=tuple(_figures(supply)))

    def totals(self) -> list[Total]:
        """One for each function that is used, in the order of the functions, then one of all."""
        wires = self.netlist.wires
        by_function = [(f, [w for w in wires if w.function == name]) for name, f in self.netlist.functions.items()]
        return [_total(f, of_it) for f, of_it in by_function if of_it] + [_total(None, wires)]

    def functions(self, strip: StripPlan | None = None) -> list[Function]:
        """Those that occur, on one strip or anywhere."""
        ways = strip.ways if strip else ()
        wires: Iterable[Wire] = [w for way in ways for w in (*way.panel, *way.layout)] if strip else self.netlist.wires
        used = {wire.function for wire in wires} | {way.function for way in ways}
        return [function for name, function in self.netlist.functions.items() if name in used]

    def ways_of(self, lever: LeverPlan) -> Iterable[Link]:
        """One for each group of each circuit that the lever works."""
        for circuit in self.netlist.circuits:
            for group in circuit.groups if circuit.lever == lever.id else ():
                numbers = sorted(group.ways.values())
                strip = self.netlist.shown_id(group.strip)
                text = ", ".join(f"{strip}.{number}" for number in numbers)
                if len(numbers) > 2 and numbers[-1] - numbers[0] == len(numbers) - 1:
                    text = f"{strip}.{numbers[0]} to {numbers[-1]}"
                page = self.addresses.of_thing(EndKind.WAY, group.strip)
                if numbers:
                    yield Link(text=text, href=f"{page}#way-{numbers[0]}")


def thing_anchor(kind: str, thing: str) -> str:
    """Of a device, supply, route or hole as a whole; ids are fit for it as they are."""
    return f"{kind}-{thing}"


def _swap(way: WayPlan, strip: StripPlan) -> Swap | None:
    others = [other for other in strip.ways if other.number == way.swap_with]
    if not others:
        return None
    return Swap(here=_device_heads(way), there=_device_heads(others[0]), way=way.swap_with)


def _device_heads(way: WayPlan) -> str:
    """The wires of a way that lead to the device itself, and not along the strip."""
    wires = [w for w in (*way.panel, *way.layout) if EndKind.DEVICE in (w.start.kind, w.finish.kind) and w.stem]
    return ", ".join(dict.fromkeys(wire.head for wire in wires)) or way.head


def _figures(supply: Supply) -> Iterable[str]:
    units: Mapping[str, float | None] = {
        "V": supply.volts,
        "A": supply.amps,
        "µF": supply.microfarads,
        "Ω": supply.charge_ohms,
    }
    return (f"{figure:g} {unit}" for unit, figure in units.items() if figure is not None)


def _total(function: Function | None, wires: Iterable[Wire]) -> Total:
    listed = list(wires)
    return Total(
        function=function,
        wires=len(listed),
        links=sum(wire.link for wire in listed),
        length=sum(wire.length or 0 for wire in listed),
        unknown=sum(wire.length is None for wire in listed),
    )
