"""What all wires of one chain are called: it is one net, and changes neither head, colour nor size on its way."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from labelgen.model.built.built_record import BuiltRecord
from labelgen.model.description import Description
from labelgen.model.kinds import SUPPLY_TERMINALS
from labelgen.model.netlist import Function
from labelgen.model.panel.routes import Matrix
from labelgen.standards.conductors import parse_size
from labelgen.wiring.chain_order import ChainKey
from labelgen.wiring.circuits import WantedCircuit

OWN_FUNCTIONS = {"feed": "feed", "return": "return", "A": "track", "B": "track-return"}
"""What a supply's terminal is for, where its stops do not agree."""


def chain_functions(
    description: Description,
    circuits: Iterable[WantedCircuit],
    matrices: Iterable[Matrix],
    functions: Mapping[str, Function],
    record: BuiltRecord,
) -> dict[ChainKey, Function]:
    """Of each terminal of a supply: the function of its stops; where they differ, that of the terminal.

    A chain that is recorded keeps what it is called, for its flags are stuck on, as long as one of its stops is called
    so. Its size is that of the thickest of its stops: a trunk is never thinner than a branch.
    """
    stops: dict[ChainKey, dict[str, None]] = {}
    for id_, supply in description.supplies.items():
        stops |= {(id_, terminal): {} for terminal in SUPPLY_TERMINALS[supply.kind]}
    for key, function in (*_of_circuits(circuits), *_others(description, matrices)):
        stops.setdefault(key, {})[function] = None
    called = {(wire.circuit, end): wire.function for wire in record.wires for end in wire.ends}
    return {key: _trunk(key, [*names], functions, called.get((key[0], ".".join(key)))) for key, names in stops.items()}


def _of_circuits(circuits: Iterable[WantedCircuit]) -> Iterator[tuple[ChainKey, str]]:
    for circuit in circuits:
        for _, row in circuit.rows():
            if row.chain is not None:
                yield circuit.first.fed_from(row.chain), row.function
        for _, shared in circuit.chain_rows():
            yield circuit.first.fed_from(shared.supply), shared.function


def _others(description: Description, matrices: Iterable[Matrix]) -> Iterator[tuple[ChainKey, str]]:
    """The supplies that a supply feeds, and the buttons of routes."""
    for supply in description.supplies.values():
        if supply.fed_by in description.supplies:
            for terminal in SUPPLY_TERMINALS[description.supplies[supply.fed_by].kind]:
                yield (supply.fed_by, terminal), OWN_FUNCTIONS[terminal]
    for matrix in matrices:
        yield (matrix.supply, "feed"), OWN_FUNCTIONS["feed"]


def _trunk(key: ChainKey, names: list[str], functions: Mapping[str, Function], recorded: str | None) -> Function:
    own = names[0] if len(names) == 1 else OWN_FUNCTIONS[key[1]]
    trunk = functions[recorded if recorded in names else own]
    thickest = max((functions[name].size for name in names), key=_copper, default="")
    return trunk if _copper(trunk.size) >= _copper(thickest) else replace(trunk, size=thickest)


def _copper(size: str) -> float:
    parsed = parse_size(size) if size else None
    return parsed.copper_mm2 if parsed else 0
