"""Every net of the description is one piece of copper, and no two nets touch; networkx is the judge.

What belongs together is written down here by hand for each kind, from the trade page (section 4), and worked out from
the description alone: no row of a kind, no way of a strip and no wire is asked.
"""

from typing import Any

import networkx as nx
from hypothesis import given
from hypothesis import strategies as st
from properties.test_wiring_laws import railways
from wiring.wiring_builder import netlist_of

from labelgen.model.netlist import EndKind

# Terminal of the device: contact of the lever that works it.
SWITCHED = {
    "twin-coil": {"N": "N", "R": "R"},
    "section": {"A": "2"},
    "lamps": {},
    "signal": {"g": "green", "r": "red"},
    "clock": {},
}
# Terminal of the device, or contact of its lever (`L.F`): terminal of its supply.
FED = {
    "twin-coil": {"L.F": "PULSE.feed", "C": "PULSE.return"},
    "section": {"L.1": "CAB.A", "B": "CAB.B"},
    "lamps": {"L": "LIGHTS.feed", "C": "LIGHTS.return"},
    "signal": {"L.F": "LIGHTS.feed", "c": "LIGHTS.return"},
    "clock": {"p": "LIGHTS.feed", "m": "LIGHTS.return"},
}
TURNED = {"N": "R", "R": "N"}


def nets(railway: dict[str, Any]) -> set[frozenset[str]]:
    """What the description says belongs together: terminals and contacts, without ways and pins."""
    found: dict[str, set[str]] = {}
    points = [(id_, "twin-coil", id_[1:].rstrip("AB"), point) for id_, point in railway["points"].items()]
    devices = [(id_, device["kind"], device.get("lever"), device) for id_, device in railway["devices"].items()]
    for id_, kind, lever, given_ in points + devices:
        for terminal, contact in SWITCHED[kind].items():
            painted = TURNED[terminal] if given_.get("swapped") == "yes" else terminal
            found.setdefault(f"L{lever}.{contact}", {f"L{lever}.{contact}"}).add(f"{id_}.{painted}")
        for end, source in FED[kind].items():
            name = f"L{lever}{end[1:]}" if end.startswith("L.") else f"{id_}.{end}"
            found.setdefault(source, {source}).add(name)
    return {frozenset(net) for net in found.values()}


def pieces(railway: dict[str, Any]) -> set[frozenset[str]]:
    """What the wires join."""
    wires: nx.Graph[tuple[EndKind, str, str]] = nx.Graph()
    for wire in netlist_of(railway).wires:
        wires.add_edge(wire.start.point, wire.finish.point)
    passed = (EndKind.WAY, EndKind.PIN)
    return {
        frozenset(f"{'L' * (kind is EndKind.LEVER)}{thing}.{terminal}" for kind, thing, terminal in piece)
        for piece in (
            {end for end in component if end[0] not in passed} for component in nx.connected_components(wires)
        )
    }


@given(railways())
def test_boards_that_are_fixed_together(railway: dict[str, Any]) -> None:
    assert pieces(railway) == nets(railway)


@given(railways(), st.sampled_from(["1", "2"]))
def test_boards_with_plugs_between_them(railway: dict[str, Any], pins: str) -> None:
    boards = list(railway["boards"])
    plugs = {f"J{number}": {"boards": [boards[0], board], "pins": "200"} for number, board in enumerate(boards[1:], 1)}
    functions = {"return": {"pins": pins}}
    panels = {"QUAY": {**railway["panels"].get("QUAY", {}), "board": boards[0]}}
    assert pieces({**railway, "plugs": plugs, "functions": functions, "panels": panels}) == nets(railway)
