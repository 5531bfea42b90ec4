"""The order of the flags: that of the cut list, both flags of a wire together, since both go on before it is pulled."""

from collections.abc import Iterator
from dataclasses import dataclass

from labelgen.model.flag_form import FlagForm
from labelgen.model.netlist import End, EndKind, Netlist, Wire
from labelgen.model.pulling_order import pulling_order


@dataclass(frozen=True, slots=True)
class FlagEnd:
    """A wire, and at which of its ends the flag goes: 0 its start, 1 its finish."""

    wire: Wire
    index: int

    @property
    def end(self) -> End:
        return self.wire.ends[self.index]

    @property
    def far(self) -> End:
        return self.wire.ends[1 - self.index]


def in_order_of_work(netlist: Netlist, form: FlagForm | None = None) -> list[FlagEnd]:
    """Both ends of every wire that is not a link, one behind the other: first that at the strip to which it belongs.

    `form`: of the wires with flags of that form alone.

    Strip by strip, hole by hole, way by way, as wires are cut, tagged and threaded: common practice is to tag both
    ends before pulling, no source.
    """
    return [
        flag
        for pull in pulling_order(netlist)
        if not pull.links
        for wire in pull.wires
        if form in (None, wire.flag_form)
        for flag in _both_ends(wire, pull.strip)
    ]


def _both_ends(wire: Wire, strip: str | None) -> Iterator[FlagEnd]:
    here = [end.kind is EndKind.WAY and end.thing == strip for end in wire.ends]
    first = 1 if here == [False, True] else 0
    yield FlagEnd(wire, first)
    yield FlagEnd(wire, 1 - first)
