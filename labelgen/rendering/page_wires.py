"""The wires as the pages say them: each end with a link to its other end."""

from collections.abc import Mapping
from dataclasses import dataclass

from labelgen.model.description import Description
from labelgen.model.netlist import End, EndKind, Function, Netlist, Side, WayPlan, Wire
from labelgen.rendering.page_addresses import PageAddresses
from labelgen.standards.colour_letters import COLOURS, Colour, letters_of

Issues = Mapping[tuple[str, str], str]
"""Kind of label, and strip, plug, lever or number of the wire: the letter of the issue in force."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """A text, and the page that it leads to, below the schedule's folder; "" when it leads nowhere."""

    text: str
    href: str = ""
    words: str = ""
    """What the thing is called besides."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WireFacts:
    """What is the same at both ends of a wire."""

    wire: Wire
    number: str
    function: Function
    colours: tuple[Colour, ...]
    holes: tuple[str, ...]
    issue: str
    """The letter of its flags; "" of the first issue."""


@dataclass(frozen=True, slots=True, kw_only=True)
class EndFacts:
    """One end of a wire: what it is, where it is, and the other end."""

    wire: WireFacts
    end: End
    here: Link
    far: Link
    tick: str
    """By this its ticks are known: the wire's number and the end. An end that moves has to be fitted anew."""


class PageWires:
    """Ends and wires of one railway, looked up by thing."""

    def __init__(self, description: Description, netlist: Netlist, addresses: PageAddresses, issues: Issues) -> None:
        self._description, self._netlist, self._addresses = description, netlist, addresses
        self._levers = {lever.id: lever.name for lever in netlist.levers}
        self.wires = [self._wire(wire, issues) for wire in netlist.wires]
        self._links = {id(end): self._link(end) for wire in netlist.wires for end in wire.ends}
        self.ends = [self._ends(wire) for wire in self.wires]
        """In the order of the wires: start and finish."""
        self.of_wire = {pair[0].wire.number: pair for pair in self.ends}
        self._at: dict[tuple[EndKind, str], dict[str, list[EndFacts]]] = {}
        for pair in self.ends:
            for each in pair:
                at = self._at.setdefault((each.end.kind, each.end.thing), {})
                at.setdefault(each.end.terminal, []).append(each)

    def at(self, kind: EndKind, thing: str) -> dict[str, list[EndFacts]]:
        """Terminal: the ends that land on it; terminals without a wire are not there."""
        return self._at.get((kind, thing), {})

    def at_way(self, strip: str, way: WayPlan, side: Side) -> list[EndFacts]:
        """What is in one of its two entries, in the order of the plan."""
        here = (EndKind.WAY, strip, str(way.number))
        pairs = [self.of_wire[str(wire.number)] for wire in way.entry(side)]
        return [one if one.end.point == here else other for one, other in pairs]

    def device_name(self, device: str) -> str:
        """And why it is out of use, where it is."""
        written = self._description.points.get(device) or self._description.devices.get(device)
        if written is None:
            return ""
        idle = f"out of use: {written.not_in_use}" if written.not_in_use else ""
        return ", ".join(part for part in (written.name, idle) if part)

    def _wire(self, wire: Wire, issues: Issues) -> WireFacts:
        return WireFacts(
            wire=wire,
            number=str(wire.number),
            function=self._netlist.functions[wire.function],
            colours=colours_of(wire.colour),
            holes=tuple(self._netlist.shown_id(hole) for hole in wire.holes),
            issue=issues.get(("flags", str(wire.number)), ""),
        )

    def _ends(self, wire: WireFacts) -> tuple[EndFacts, EndFacts]:
        start, finish = wire.wire.ends
        one, other = (
            EndFacts(
                wire=wire, end=end, here=self._links[id(end)], far=self._links[id(far)],
                tick=f"{wire.number}@{end.name}",
            )
            for end, far in ((start, finish), (finish, start))
        )  # fmt: skip
        return one, other

    def _link(self, end: End) -> Link:
        return Link(text=end.shown, href=self._addresses.of_end(end), words=self._name(end))

    def _name(self, end: End) -> str:
        match end.kind:
            case EndKind.LEVER:
                return self._levers.get(end.thing, "")
            case EndKind.SUPPLY:
                supply = self._description.supplies.get(end.thing)
                return supply.name if supply else ""
            case EndKind.DEVICE:
                return self.device_name(end.thing)
            case EndKind.PIN:
                return f"on {self._netlist.shown_id(end.board)}" if end.board else ""
            case _:
                return ""


def colours_of(letters: str) -> tuple[Colour, ...]:
    """The colour or colours that the letters name; none when they name none."""
    return tuple(COLOURS[each] for each in letters_of(letters) or ())
