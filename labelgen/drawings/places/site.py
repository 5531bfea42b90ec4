"""Where things under the boards get their labels: every device with wires, its terminals, and on which board it is."""

from collections.abc import Iterator
from dataclasses import dataclass

from labelgen.drawings.places.wires import Landing, landings
from labelgen.model.description import Description, Device
from labelgen.model.lamp_resistors import lamp_resistors, ohms_in_words
from labelgen.model.netlist import Circuit, EndKind, Netlist
from labelgen.natural_order import natural
from labelgen.places import Path

RAIL_FUNCTIONS = ("track", "track-return")
RAIL_SUPPLIES = ("track", "digital")


@dataclass(frozen=True, slots=True, kw_only=True)
class Site:
    """A device where it stands."""

    id: str
    path: Path
    device: Device
    circuit: Circuit
    board: str | None
    found: tuple[Landing, ...]
    resistors: tuple[tuple[str, str], ...] = ()
    """Of its lamps: the terminal at which each is in series, and its ohms."""

    @property
    def is_rails(self) -> bool:
        """A stretch of track: all its wires end at its two rails, each at a hole of its own."""
        kind = self.circuit.kind
        fed = set(kind.supply.values()) <= set(RAIL_SUPPLIES)
        wires = [wire.function for landing in self.found for wire in landing.wires]
        return fed and not kind.inside and not kind.gives and set(wires) <= set(RAIL_FUNCTIONS)


def sites(description: Description, netlist: Netlist) -> list[Site]:
    """Board by board as described, in natural order; without what stands in a panel, and what has no wires."""
    circuits = {device: circuit for circuit in netlist.circuits for device in circuit.devices}
    found = list(_sites(description, netlist, circuits))
    boards = [*description.boards, None]
    return sorted(found, key=lambda site: (boards.index(site.board), natural(site.id)))


def _sites(description: Description, netlist: Netlist, circuits: dict[str, Circuit]) -> Iterator[Site]:
    landed, resistors = landings(netlist), _resistors(description, netlist)
    for id_, device in {**description.points, **description.devices}.items():
        found = landed.get((EndKind.DEVICE, id_), ())
        if found and device.panel is None and id_ in circuits:
            yield Site(
                id=id_, path=description.device_path(id_), device=device, circuit=circuits[id_],
                board=_board(device, circuits[id_], id_, found), found=found,
                resistors=tuple(resistors.get(id_, ())),
            )  # fmt: skip


def _resistors(description: Description, netlist: Netlist) -> dict[str, list[tuple[str, str]]]:
    found: dict[str, list[tuple[str, str]]] = {}
    for one in lamp_resistors(description, netlist):
        if one.resistor is not None and one.lever is None:
            terminal = one.place(netlist).rpartition(".")[2]
            found.setdefault(one.device, []).append((terminal, ohms_in_words(one.resistor.ohms)))
    return found


def _board(device: Device, circuit: Circuit, id_: str, found: tuple[Landing, ...]) -> str | None:
    """Where its group is; of what takes no ways, where it says, or where its first wire runs."""
    groups = (group.board for group in circuit.groups if id_ in group.devices)
    return next(groups, None) or device.board or found[0].wires[0].board
