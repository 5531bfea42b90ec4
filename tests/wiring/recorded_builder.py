"""A railway that is made again and again: each time with the record of the time before, as a file would hold it."""

from pathlib import Path
from typing import Any

from wiring.wiring_builder import built_in_kinds, described

from labelgen.model.built.built_record import BuiltRecord
from labelgen.model.netlist import Netlist
from labelgen.problems import Problem, has_errors
from labelgen.reading.built_record_reader import read_record_bytes
from labelgen.rendering.built_record_text import built_record_bytes
from labelgen.wiring.expansion import Expansion
from labelgen.wiring.recorded_outcome import built_record


def remade(railway: str | dict[str, Any], record: BuiltRecord | None) -> tuple[Netlist, BuiltRecord, list[Problem]]:
    """The netlist and the record that follow; the record has been written and read back."""
    expansion = Expansion(described(railway), built_in_kinds(), record)
    netlist, problems = expansion.netlist()
    built = built_record(netlist, expansion.record)
    again = read_record_bytes(built_record_bytes(built), Path("marram-quay.built.yaml"))
    assert again == built, "what was written reads back the same"
    return netlist, built, problems


class Made:
    """One railway through its years."""

    def __init__(self, railway: str | dict[str, Any], record: BuiltRecord | None = None) -> None:
        self.netlist, self.record, problems = remade(railway, record)
        assert not has_errors(problems), problems

    def then(self, railway: str | dict[str, Any]) -> "Made":
        """The same railway after its description was changed to this."""
        return Made(railway, self.record)

    @property
    def wires(self) -> dict[int | str, str]:
        """Number: `L5.N A1.1`."""
        return {wire.number: f"{wire.start.name} {wire.finish.name}" for wire in self.netlist.wires}

    def ways(self, device: str) -> list[str]:
        """The ways of a device's group, in row order."""
        (group,) = [group for circuit in self.netlist.circuits for group in circuit.groups if device in group.devices]
        return [f"{group.strip}.{way}" for _, way in sorted(group.ways.items())]

    def chain(self, supply: str, terminal: str) -> set[str]:
        """The wires of one chain, as `A1.2 A1.5`: those that hang together from the supply's terminal."""
        wires = [wire for wire in self.netlist.wires if wire.circuit == supply]
        reached, found = {f"{supply}.{terminal}"}, set()
        for _ in wires:
            for wire in wires:
                if reached & {wire.start.name, wire.finish.name}:
                    reached |= {wire.start.name, wire.finish.name}
                    found.add(f"{wire.start.name} {wire.finish.name}")
        return found
