"""Where everything stands in a booklet, and which wires end there."""

from collections.abc import Mapping
from dataclasses import dataclass

from labelgen.model.description import Description
from labelgen.model.netlist import End, EndKind, Netlist, Wire

Landed = tuple[Wire, End]
"""A wire that ends somewhere, and its other end."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Contents:
    """What is in a booklet: everything, or what is of one board."""

    strips: tuple[str, ...]
    levers: tuple[str, ...]
    devices: tuple[str, ...]
    supplies: tuple[str, ...]
    plugs: tuple[str, ...]
    wires: tuple[Wire, ...]


def contents_of(description: Description, netlist: Netlist, board: str | None) -> Contents:
    """`board`: what stands on that one alone."""
    devices = {**description.points, **description.devices}
    homes = _homes(netlist)
    return Contents(
        strips=tuple(strip.id for strip in netlist.strips if board in (None, strip.board)),
        levers=tuple(lever.id for lever in netlist.levers if board in (None, lever.board)),
        devices=tuple(id_ for id_, one in devices.items() if board in (None, homes.get(id_) or one.board)),
        supplies=tuple(id_ for id_, one in description.supplies.items() if board in (None, one.board)),
        plugs=tuple(plug.id for plug in netlist.plugs if board is None or board in plug.boards),
        wires=tuple(wire for wire in netlist.wires if board in (None, wire.board)),
    )


def _homes(netlist: Netlist) -> dict[str, str | None]:
    return {
        device: group.board
        for circuit in netlist.circuits
        for group in circuit.groups
        for device in group.devices
    }  # fmt: skip


class Index:
    """Answers for one booklet."""

    def __init__(self, netlist: Netlist, contents: Contents) -> None:
        self._at: dict[tuple[EndKind, str], dict[str, list[Landed]]] = {}
        for wire in netlist.wires:
            for here, far in (wire.ends, wire.ends[::-1]):
                self._at.setdefault((here.kind, here.thing), {}).setdefault(here.terminal, []).append((wire, far))
        self._inside: Mapping[EndKind, frozenset[str]] = {
            EndKind.WAY: frozenset(contents.strips),
            EndKind.LEVER: frozenset(contents.levers),
            EndKind.DEVICE: frozenset(contents.devices),
            EndKind.SUPPLY: frozenset(contents.supplies),
            EndKind.PIN: frozenset(contents.plugs),
        }
        self._routes = bool(netlist.matrices)

    def at(self, kind: EndKind, thing: str) -> Mapping[str, list[Landed]]:
        """Terminal: the wires that land on it, in the order of the wires; terminals without any are not there."""
        return self._at.get((kind, thing), {})

    def stop(self, end: End) -> str:
        """Where the booklet shows an end; "" where it does not."""
        if end.kind in (EndKind.ROUTE, EndKind.MATRIX):
            return "routes" if self._routes else ""
        if end.thing not in self._inside[end.kind]:
            return ""
        return way_stop(end.thing, end.terminal) if end.kind is EndKind.WAY else thing_stop(end.kind, end.thing)


def thing_stop(kind: EndKind, thing: str) -> str:
    return f"{kind.value} {thing}"


def way_stop(strip: str, way: object) -> str:
    return f"way {strip}.{way}"
