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

    def look_there(self, faults: list[Fault]) -> str:
        """What to do where a fault must be."""
        kinds = {fault.kind for fault in faults}
        return LOOK_THERE[next(kind for kind in LOOK_THERE if kind in kinds)]

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
            range_ = f" (meter on its diode range, red lead at {one})" if self._netlist.diodes else ""
            return f"{self.isolate} Take {called} out of {near}, then measure the resistance {between}{range_}."
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


LOOK_THERE = {
    "broken-wire": "Look there: pull gently at the wire, tighten its screws; it may be broken inside its insulation.",
    "bad-pin": "Look there: unplug, look for a bent pin or one that was pushed back, and push the plug home.",
    "bad-joint": "Look there: tighten the screws of the bridge.",
    "dead-contact": "Look there: work it ten times and measure again; clean its contacts, or change it.",
    "dead-supply": "Look there: at the mains plug, the switch and the fuse first; then at what hangs on it.",
    "open-coil": "Look there: at its own joints first; a lamp may be burnt out, a coil's thin wire off its tag.",
    "swapped-pair": "Look there: change the two wires over at one end, and try again.",
    "stuck-contact": "Look there: does it spring back? A contact may be welded, a terminal may touch the next.",
    "open-diode": "Look there: at its two joints, and whether it is in the right way round.",
    "short": "Look there: for a stray strand, a blob of solder, a screw that touches its neighbour.",
}
"""What to do at the last place, by the fault that is likeliest there."""
NO_MORE = "If all is well there, more than one thing is wrong: mend what you find, and ask again."
TO_BE_SURE = "Be sure before you mend:"
NOT_THAT = "not that, but something else, or two things at once"
NAMES = {
    "bad-pin": "the plug's contact",
    "bad-joint": "the bridge",
    "dead-contact": "the contact",
    "open-coil": "the coil, motor or lamp",
    "open-diode": "the diode",
}
