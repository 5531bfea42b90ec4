"""Bridges: combs and jumpers that make several ways of a strip one piece of metal."""

from collections.abc import Hashable, Iterable, Mapping

from labelgen.wiring.circuits import WantedCircuit, WantedGroup


def joined(bridges: Iterable[Iterable[int]]) -> list[set[int]]:
    """Bridges that share a way are one piece of metal."""
    pieces: list[set[int]] = []
    for bridge in bridges:
        piece = set(bridge)
        for touching in [other for other in pieces if other & piece]:
            pieces.remove(touching)
            piece |= touching
        pieces.append(piece)
    return pieces


def nets_of(circuit: WantedCircuit, group: WantedGroup) -> list[Hashable]:
    """The net on which each row of a group lies, in row order: rows of equal nets may share a piece of metal.

    A chained row is on its supply's terminal, whoever it feeds; any other is the circuit's, or one device's, alone.
    """
    kind = circuit.kind
    return [
        circuit.first.fed_from(chain)
        if (chain := kind.group[row].chain) is not None
        else (circuit.key, row, group.devices[0].id if kind.is_own(kind.group[row]) else "")
        for row in group.rows
    ]


def meets_another(
    pieces: Iterable[Iterable[int]], held: Mapping[int, Hashable], wanted: Mapping[int, Hashable]
) -> bool:
    """Whether a piece of metal would join two nets. `held`, `wanted`: the net on each way, now and to come."""
    nets = {**held, **wanted}
    touched = [piece for piece in pieces if not wanted.keys().isdisjoint(piece)]
    return any(len({nets[way] for way in piece if way in nets}) > 1 for piece in touched)
