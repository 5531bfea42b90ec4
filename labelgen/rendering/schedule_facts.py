"""What the schedule pages say, ready to be set: texts, relative links and colours. No markup is made here."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from labelgen.model.description import Description, Supply
from labelgen.model.netlist import End, EndKind, Function, LeverPlan, Netlist, Side, StripPlan, WayPlan, Wire
from labelgen.standards.colour_letters import COLOURS, Colour, letters_of

SUPPLY_WORDS = {
    "pulse": "pulse supply (capacitor bank)",
    "dc": "direct current",
    "ac": "alternating current",
    "track": "track controller",
    "digital": "digital track supply",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """A text, and the page that it leads to; "" when it leads nowhere."""

    text: str
    href: str = ""
    words: str = ""
    """What the thing is called besides."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WireFacts:
    """A wire as it is seen from one of its ends."""

    number: str
    head: str
    function: Function
    colours: tuple[Colour, ...]
    size: str
    far: Link
    link: bool
    length: int | None
    holes: tuple[str, ...]
    note: str


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
    function: Function | None
    panel: tuple[WireFacts, ...]
    layout: tuple[WireFacts, ...]
    swap: Swap | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class StripFacts:
    id: str
    shown: str
    name: str
    board: str
    supplies: tuple[str, ...]
    bridges: tuple[str, ...]
    ways: int
    busy: int
    """Ways that are not spare and not kept free."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LeverFacts:
    shown: str
    name: str
    spare: bool
    works: tuple[Link, ...]
    ways: tuple[Link, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SupplyFacts:
    shown: str
    name: str
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """Answers what the pages ask of one railway."""

    description: Description
    netlist: Netlist

    def strips(self) -> list[StripFacts]:
        return [self.strip(strip) for strip in self.netlist.strips]

    def strip(self, strip: StripPlan) -> StripFacts:
        written = self.description.strips.get(strip.id)
        return StripFacts(
            id=strip.id,
            shown=strip.shown,
            name=written.name if written else "",
            board=self._board(strip.board),
            supplies=strip.supplies,
            bridges=tuple(" + ".join(map(str, ways)) for ways in strip.bridges),
            ways=len(strip.ways),
            busy=sum(way.state not in ("spare", "kept") for way in strip.ways),
        )

    def ways(self, strip: StripPlan) -> list[WayFacts]:
        return [
            WayFacts(
                way=way,
                function=self.netlist.functions.get(way.function),
                panel=tuple(self._wire(wire, strip, way) for wire in way.entry(Side.PANEL)),
                layout=tuple(self._wire(wire, strip, way) for wire in way.entry(Side.LAYOUT)),
                swap=_swap(way, strip),
            )
            for way in strip.ways
        ]

    def levers(self) -> list[LeverFacts]:
        return [
            LeverFacts(
                shown=lever.shown,
                name=lever.name,
                spare=lever.spare,
                works=tuple(
                    Link(text=self.netlist.shown_id(device), words=self._device_name(device))
                    for device in lever.devices
                ),
                ways=tuple(self._ways_of(lever)),
            )
            for lever in self.netlist.levers
        ]

    def supplies(self) -> list[SupplyFacts]:
        return [
            SupplyFacts(
                shown=self.netlist.shown_id(id_),
                name=supply.name,
                kind=SUPPLY_WORDS[supply.kind],
                figures=tuple(_figures(supply)),
            )
            for id_, supply in self.description.supplies.items()
        ]

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

    def _wire(self, wire: Wire, strip: StripPlan, way: WayPlan) -> WireFacts:
        here = (EndKind.WAY, strip.id, str(way.number))
        far = wire.finish if wire.start.point == here else wire.start
        return WireFacts(
            number=str(wire.number),
            head=wire.head,
            function=self.netlist.functions[wire.function],
            colours=colours_of(wire.colour),
            size=wire.size,
            far=Link(text=far.shown, href=self._href(far, strip), words=self._end_name(far)),
            link=wire.link,
            length=wire.length,
            holes=tuple(self.netlist.shown_id(hole) for hole in wire.holes),
            note=wire.note,
        )

    def _href(self, end: End, here: StripPlan) -> str:
        if end.kind is not EndKind.WAY:
            return ""
        page = "" if end.thing == here.id else f"../{end.thing}/index.html"
        return f"{page}#way-{end.terminal}"

    def _end_name(self, end: End) -> str:
        if end.kind is EndKind.LEVER:
            return next((lever.name for lever in self.netlist.levers if lever.id == end.thing), "")
        if end.kind is EndKind.SUPPLY:
            supply = self.description.supplies.get(end.thing)
            return supply.name if supply else ""
        return self._device_name(end.thing) if end.kind is EndKind.DEVICE else ""

    def _device_name(self, device: str) -> str:
        written = self.description.points.get(device) or self.description.devices.get(device)
        return written.name if written else ""

    def _board(self, board: str | None) -> str:
        written = self.description.boards.get(board or "")
        return (written.name if written else "") or self.netlist.shown_id(board or "")

    def _ways_of(self, lever: LeverPlan) -> Iterable[Link]:
        """One for each group of each circuit that the lever works."""
        for circuit in self.netlist.circuits:
            if circuit.lever != lever.id:
                continue
            for group in circuit.groups:
                numbers = sorted(group.ways.values())
                strip = self.netlist.shown_id(group.strip)
                text = ", ".join(f"{strip}.{number}" for number in numbers)
                if len(numbers) > 2 and numbers[-1] - numbers[0] == len(numbers) - 1:
                    text = f"{strip}.{numbers[0]} to {numbers[-1]}"
                yield Link(text=text, href=f"{group.strip}/index.html#way-{numbers[0]}" if numbers else "")


def _swap(way: WayPlan, strip: StripPlan) -> Swap | None:
    others = [other for other in strip.ways if other.number == way.swap_with]
    if not others:
        return None
    return Swap(here=_device_heads(way), there=_device_heads(others[0]), way=way.swap_with)


def _device_heads(way: WayPlan) -> str:
    """The wires of a way that lead to the device itself, and not along the strip."""
    wires = [w for w in (*way.panel, *way.layout) if EndKind.DEVICE in (w.start.kind, w.finish.kind) and w.stem]
    return ", ".join(dict.fromkeys(wire.head for wire in wires)) or way.head


def colours_of(letters: str) -> tuple[Colour, ...]:
    """The colour or colours that the letters name; none when they name none."""
    return tuple(COLOURS[each] for each in letters_of(letters) or ())


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
