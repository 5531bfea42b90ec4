"""What the railway can be asked to do: a lever thrown, a route's button pressed, or everything at rest."""

from collections.abc import Iterator
from dataclasses import dataclass

from labelgen.model.copper_tree import Part, Point
from labelgen.model.kind_loads import loads_of
from labelgen.model.netlist import Circuit, EndKind, Netlist
from labelgen.model.switching import Contact, contact_of_route, contacts_by_lie
from labelgen.natural_order import natural

TRACK = frozenset({"track", "track-return"})
"""Functions of the two rails of a track: a train runs when both are fed."""
Rails = tuple[Point, ...]
"""Terminals of one device that must be fed together: both rails of a track, or a crossing."""


@dataclass(frozen=True, slots=True, eq=False)
class Action:
    """One act at the panel, and the contacts that are made then; all other levers at rest."""

    shown: str
    """`lever 5 normal`; "" at rest."""
    lever: str = ""
    route: str = ""
    lie: str = ""
    made: tuple[Part, ...] = ()

    @property
    def is_rest(self) -> bool:
        return not self.made


class Actions:
    """All acts, and what lies between the nets: loads, diodes, contacts of the devices."""

    def __init__(self, netlist: Netlist) -> None:
        self.rest = Action(shown="")
        self.lever_acts: dict[str, list[Action]] = {}
        self.route_acts: dict[str, Action] = {}
        self.loads: list[Part] = [part for circuit in netlist.circuits for part in _loads(circuit)]
        self.rails: list[Rails] = [rails for circuit in netlist.circuits for rails in _rails(circuit)]
        self.diodes: list[Part] = [_diode(d.anode.point, d.cathode.point) for d in netlist.diodes]
        self.always: list[Part] = [part for circuit in netlist.circuits for part in _resting(circuit)]
        self._read_levers(netlist)
        self._read_routes(netlist)

    def _read_levers(self, netlist: Netlist) -> None:
        contacts: dict[Contact, Part] = {}
        for circuit in sorted(netlist.circuits, key=lambda one: natural(one.id)):
            if circuit.lever is None:
                continue
            lever = netlist.lever_by_id[circuit.lever]
            for lie, made_then in contacts_by_lie(netlist, lever, circuit, circuit.supply).items():
                made = [contacts.setdefault(contact, _contact(contact)) for contact in made_then]
                made += _own_contacts(circuit, lie)
                act = Action(f"lever {lever.shown} {lie}", lever.id, "", lie, tuple(made))
                self.lever_acts.setdefault(lever.id, []).append(act)

    def _read_routes(self, netlist: Netlist) -> None:
        for matrix in netlist.matrices:
            for row in matrix.rows:
                contact = contact_of_route(netlist, matrix, row)
                made = () if contact is None else (_contact(contact),)
                self.route_acts[row.route] = Action(f"route {row.route}", route=row.route, lie="set", made=made)

    def __iter__(self) -> Iterator[Action]:
        yield self.rest
        for acts in self.lever_acts.values():
            yield from acts
        yield from self.route_acts.values()


def _contact(contact: Contact) -> Part:
    one, other = contact
    return Part("contact", (*one, ""), (*other, ""))


def _diode(anode: tuple[EndKind, str, str], cathode: tuple[EndKind, str, str]) -> Part:
    return Part("diode", (*anode, ""), (*cathode, ""))


def _device(device: str, terminal: str) -> Point:
    return (EndKind.DEVICE, device, terminal, "")


def _loads(circuit: Circuit) -> Iterator[Part]:
    for load in loads_of(circuit.kind):
        one, other = load.terminals
        yield from (Part("load", _device(device, one), _device(device, other)) for device in circuit.devices)


def _rails(circuit: Circuit) -> Iterator[Rails]:
    rows = [(row.terminal, row.function) for row in circuit.kind.group if row.terminal]
    rows += [(row.terminal, row.function) for row in circuit.kind.chain if row.terminal]
    track = dict.fromkeys(terminal for terminal, function in rows if function in TRACK)
    crossings = dict.fromkeys(terminal for terminal, function in rows if function == "frog")
    for device in circuit.devices:
        for together in ((*track,), *((one,) for one in crossings)):
            if together:
                yield tuple(_device(device, terminal or "") for terminal in together)


def _own_contacts(circuit: Circuit, lie: str) -> Iterator[Part]:
    """Those of its devices that are made when they lie so, and not always."""
    lasting = _lasting(circuit)
    for pair in circuit.kind.inside.get(lie, ()):
        if circuit.lever is not None and pair not in lasting:
            yield from (Part("own-contact", _device(d, pair[0]), _device(d, pair[1])) for d in circuit.devices)


def _resting(circuit: Circuit) -> Iterator[Part]:
    """What is made whatever happens; a device without a lever is taken to lie normal."""
    pairs = _lasting(circuit) if circuit.lever is not None else circuit.kind.inside.get("normal", ())
    for pair in pairs:
        yield from (Part("own-contact", _device(d, pair[0]), _device(d, pair[1])) for d in circuit.devices)


def _lasting(circuit: Circuit) -> tuple[tuple[str, ...], ...]:
    inside = circuit.kind.inside
    return tuple(pair for pair in inside.get("normal", ()) if pair in inside.get("reverse", ()))
