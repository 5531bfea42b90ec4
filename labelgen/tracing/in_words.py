"""Faults and measurements in the builder's words."""

from labelgen.model.copper_tree import Part, Point, name_of
from labelgen.model.description import Description
from labelgen.model.netlist import EndKind, Netlist, Wire
from labelgen.tracing.evidence import Measure
from labelgen.tracing.faults import Fault

ISOLATE = "Switch off and unplug the supply first."
ISOLATE_BANK = "Switch off, unplug the supply and discharge the capacitor bank first."
SCREWED = (EndKind.WAY,)


class Words:
    """Says what is where on one railway, by the names that are painted there."""

    def __init__(self, description: Description, netlist: Netlist) -> None:
        self._netlist = netlist
        self.volts = {id_: supply.volts for id_, supply in description.supplies.items()}
        has_bank = any(supply.kind == "pulse" for supply in description.supplies.values())
        self.isolate = ISOLATE_BANK if has_bank else ISOLATE
        given = {**description.points, **description.devices}
        kinds = {device: circuit.kind for circuit in netlist.circuits for device in circuit.devices}
        self.ohms = {d: (given[d].ohms if d in given else None) or kind.ohms for d, kind in kinds.items()}
        self._painted = {end.point: end.shown for wire in netlist.wires for end in wire.ends}

    def point(self, point: Point) -> str:
        """`L5.N`, or as it is painted; of a pin, on which board."""
        shown = self._painted.get(point[:3], name_of(point))
        return f"{shown} on {self._netlist.shown_id(point[3])}" if point[3] else shown

    def place(self, faults: list[Fault]) -> str:
        """What a meter at the ends cannot tell apart, in one phrase."""
        first = faults[0]
        part, ends = first.part, " and ".join(self.point(point) for point in first.where)
        if first.kind == "dead-supply":
            return f"the supply {self._netlist.shown_id(first.where[0][1])}, or its fuse"
        if first.kind == "swapped-pair":
            return f"two wires that have changed places: {self._exchanged(first)}"
        if part is None:
            return ", or ".join(self._touching(fault) for fault in faults)
        if part.wire is not None:
            return self._wire(part)
        return f"{NAMES[first.kind]} between {ends}"

    def _touching(self, fault: Fault) -> str:
        ends = " and ".join(self.point(point) for point in fault.where)
        return f"a contact that stays made: {ends}" if fault.kind == "stuck-contact" else f"{ends}, which touch"

    def _wire(self, part: Part) -> str:
        wire: Wire | None = part.wire
        assert wire is not None
        one, other = self.point(part.one), self.point(part.other)
        screws = "screws" if part.one[0] in SCREWED and part.other[0] in SCREWED else "ends"
        if wire.link:
            return f"the link {one}–{other}, or either of its {screws}"
        return f"the wire {wire.number} ({wire.head}) from {one} to {other}, or either of its {screws}"

    def _exchanged(self, fault: Fault) -> str:
        numbers = [str(number) for number in fault.place[1:]]
        wires = [f"{wire.number} ({wire.head})" for wire in self._netlist.wires if str(wire.number) in numbers]
        return " and ".join(wires)

    def task(self, measure: Measure) -> str:
        """What to do, and what should be read."""
        one, other = self.point(measure.one), self.point(measure.other)
        between = f"between {one} and {other}"
        if measure.expected == "volts":
            return f"With the power on and no lever touched, measure the voltage {between}."
        if measure.lifted is not None:
            wire = measure.lifted.wire
            assert wire is not None
            near = self.point(measure.lifted.beyond(measure.one))
            called = "the link" if wire.link else f"wire {wire.number} ({wire.head})"
            return f"{self.isolate} Take {called} out of {near}, then measure the resistance {between}."
        hold = f" Hold {measure.hold}." if measure.hold else ""
        return f"{self.isolate}{hold} Measure the resistance {between}."

    def expected(self, measure: Measure) -> str:
        """What a sound railway reads there."""
        if measure.expected == "volts":
            volts = self.volts.get(measure.supply)
            return f"about {volts:g} V" if volts is not None else "its full voltage"
        if measure.expected == "load" and measure.load is not None:
            ohms = self.ohms.get(measure.load.one[1])
            if measure.load.kind == "diode":
                return "a diode: one way a reading, the other way none"
            return f"about {ohms:g} ohms" if ohms is not None else "some resistance, but neither a short nor nothing"
        return {"joined": "under 1 ohm", "apart": "well over 1 ohm", "clear": "no connection"}[measure.expected]


NAMES = {
    "bad-pin": "the plug's contact",
    "bad-joint": "the bridge",
    "dead-contact": "the contact",
    "open-coil": "the coil, motor or lamp",
    "open-diode": "the diode",
}
