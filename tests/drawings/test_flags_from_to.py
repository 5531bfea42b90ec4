"""IEC 62491, connection at both ends: what a flag says of the near end, the wire's other flag says of the far end."""

from collections import defaultdict

from drawn_extents import texts
from hypothesis import given
from hypothesis import strategies as st
from small_railway import description, points_railway

from labelgen.drawings.flags.flags import flag_drawings
from labelgen.model.drawing import Drawing
from labelgen.model.look import CellSize, Look
from labelgen.model.netlist import Netlist

LEVERS = st.lists(st.integers(1, 99).map(str), min_size=1, max_size=6, unique=True)


def flags(netlist: Netlist) -> list[Drawing]:
    drawings, problems = flag_drawings(description(), netlist, Look(), CellSize(width=38.1, height=21.2))
    assert problems == []
    return drawings


def far_and_near(flag: Drawing, ends: set[str]) -> tuple[list[str], list[str]]:
    """The ends that stand before the fold, and those behind it."""
    fold = flag.width / 2
    said = [text for text in texts(flag) if text.text in ends]
    return [text.text for text in said if text.x < fold], [text.text for text in said if text.x >= fold]


@given(LEVERS)
def test_the_two_flags_of_a_wire_mirror_each_other(levers: list[str]) -> None:
    netlist = points_railway(levers).netlist()
    ends = {end.name for wire in netlist.wires for end in wire.ends}
    flags_of: dict[str, list[tuple[list[str], list[str]]]] = defaultdict(list)
    for flag in flags(netlist):
        (number,) = [text.text for text in texts(flag) if text.text.startswith("#")]
        flags_of[number].append(far_and_near(flag, ends))
    wires = {f"#{wire.number}": wire for wire in netlist.wires if not wire.link}
    assert flags_of.keys() == wires.keys()
    for number, (one, other) in flags_of.items():
        assert one == other[::-1]
        assert sorted([one, other]) == sorted(
            [
                ([wires[number].start.name], [wires[number].finish.name]),
                ([wires[number].finish.name], [wires[number].start.name]),
            ]
        )
