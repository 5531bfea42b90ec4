"""Motors with two coils: which of the three leads is the common is proved by meter, never by its colour."""

from collections.abc import Iterator

from labelgen.model.description import Description, Device
from labelgen.model.kind_loads import Load, loads_of
from labelgen.model.kinds import Kind
from labelgen.model.netlist import EndKind, Netlist
from labelgen.model.test_plan import MotorRow
from labelgen.natural_order import natural
from labelgen.probing.places import Places


def motor_rows(description: Description, netlist: Netlist, places: Places) -> list[MotorRow]:
    """In natural order; of every two coils that share an end."""
    given = {**description.points, **description.devices}
    found: list[MotorRow] = []
    for circuit in netlist.circuits:
        for device in circuit.devices:
            own = given.get(device, Device())
            for common, coils in _coils(circuit.kind):
                shown = [places.shown((EndKind.DEVICE, device, end, "")).rpartition(".")[2] for end in (*coils, common)]
                found.append(
                    MotorRow(
                        device=device,
                        shown=netlist.shown_id(device),
                        name=own.name,
                        board=places.board((EndKind.DEVICE, device, common, "")),
                        common=shown[2],
                        coils=(shown[0], shown[1]),
                        ohms=own.ohms or circuit.kind.ohms,
                        not_in_use=own.not_in_use,
                    )
                )
    return sorted(found, key=lambda row: natural(row.device))


def _coils(kind: Kind) -> Iterator[tuple[str, tuple[str, str]]]:
    """Two by two, those of a pulse supply that end at one terminal."""
    by_common: dict[str, list[Load]] = {}
    for load in loads_of(kind):
        if kind.supply[load.role] == "pulse":
            by_common.setdefault(load.terminals[1], []).append(load)
    for common, loads in by_common.items():
        ends = [load.terminals[0] for load in loads]
        yield from ((common, pair) for pair in zip(ends[::2], ends[1::2], strict=False))
