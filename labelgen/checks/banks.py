"""Several motors at once: whether the bank and the return are enough for them."""

from collections import Counter, defaultdict
from collections.abc import Iterator

from labelgen.model.description import Description
from labelgen.model.figures import Figures
from labelgen.model.netlist import Netlist, Wire
from labelgen.problems import Problem
from labelgen.standards.conductors import copper_area_mm2, is_size, size_notation

MICROFARADS_A_MOTOR = 2200
"""Discharge units for one motor at a time have 2200 to 4700 µF. Common practice, no source."""
THICK_RETURN, LONG_MM = "32/0.2", 6000
"""What a return should have beyond 6 m, or where routes fire several coils at once. Common practice, no source."""
RETURNS, OUTGOING = frozenset({"return"}), frozenset({"normal", "reverse", "feed"})


def small_banks(description: Description, netlist: Netlist, figures: Figures) -> list[Problem]:
    """Reports bank-small once for each pulse supply, of the throw with most coils at once.

    Only a rule of thumb: where there are figures of a supply, they decide (weak-throw).
    """
    figured = {bank.supply for bank in figures.banks}
    most: dict[str, tuple[int, str]] = {}
    for supply, coils, what in _throws(netlist):
        if supply not in figured and coils > most.get(supply, (0, ""))[0]:
            most[supply] = (coils, what)
    problems = []
    for id_, (coils, what) in most.items():
        bank = description.supplies[id_].microfarads if id_ in description.supplies else None
        if coils > 1 and bank is not None and bank < MICROFARADS_A_MOTOR * coils:
            problems.append(
                Problem(
                    code="bank-small",
                    message=f"{id_}'s bank of {bank:g} µF is small for {what}, which fires {coils} coils at once",
                    hint=f"About {MICROFARADS_A_MOTOR * coils:g} µF would do; or throw fewer at once. With its `volts:`"
                    " written, what each coil gets is computed instead.",
                    place=description.place_of("supplies", id_, "microfarads"),
                )
            )
    return problems


def _throws(netlist: Netlist) -> Iterator[tuple[str, int, str]]:
    """(supply, coils at once, what fires them) of levers and of routes."""
    coils: dict[str, int] = {}
    for circuit in netlist.circuits:
        pulses = [circuit.supplies[role] for role, kind in circuit.kind.supply.items() if kind == "pulse"]
        if circuit.lever is not None and pulses:
            at_once = max(1, *(len(row.diodes) for row in circuit.kind.group))
            coils[circuit.lever] = at_once * len(circuit.devices)
            yield pulses[0], coils[circuit.lever], f"lever {circuit.lever}"
    for matrix in netlist.matrices:
        levers = {column.number: column.lever for column in matrix.columns}
        for row in matrix.rows:
            at_once = sum(coils.get(levers[column], 0) for column in row.columns)
            yield matrix.supply, at_once, f"route {row.route!r}"


def thin_returns(description: Description, netlist: Netlist) -> list[Problem]:
    """Reports return-thin at each supply whose return is thinner than what goes out, or thin for its length."""
    returns, outgoing = _wires_of(netlist)
    routes = Counter(matrix.supply for matrix in netlist.matrices)
    problems = []
    for id_, wires in returns.items():
        thinnest = min(wires, key=_area)
        thickest = max(outgoing.get(id_, []), key=_area, default=None)
        long = id_ in description.supplies and description.supplies[id_].kind == "pulse" and _long(wires)
        if thickest is not None and _area(thickest) > _area(thinnest):
            why = f"thinner than {size_notation(thickest.size)}, in which wires go out"
        elif (routes[id_] or long) and _area(thinnest) < copper_area_mm2(THICK_RETURN):
            why = "thin where routes fire several coils at once" if routes[id_] else "thin for more than 6 m"
        else:
            continue
        problems.append(
            Problem(
                code="return-thin",
                message=f"{id_}'s common return is {size_notation(thinnest.size)}, {why}",
                hint=f"All the current comes back by it: make it {THICK_RETURN} (1 mm²) or more, under `functions:`.",
                place=description.place_of_key("supplies", id_),
            )
        )
    return problems


def _wires_of(netlist: Netlist) -> tuple[dict[str, list[Wire]], dict[str, list[Wire]]]:
    """Supply: the wires of its return chain, and those that carry its current out."""
    fed = {circuit.id: circuit.supply for circuit in netlist.circuits}
    supplies = set(fed.values())
    returns: dict[str, list[Wire]] = defaultdict(list)
    outgoing: dict[str, list[Wire]] = defaultdict(list)
    for wire in netlist.wires:
        if not is_size(wire.size):
            continue
        if wire.circuit in supplies and wire.function in RETURNS:
            returns[wire.circuit].append(wire)
        elif wire.function in OUTGOING:
            outgoing[wire.circuit if wire.circuit in supplies else fed.get(wire.circuit, "")].append(wire)
    return returns, outgoing


def _area(wire: Wire) -> float:
    return copper_area_mm2(wire.size)


def _long(wires: list[Wire]) -> bool:
    return sum(wire.length or 0 for wire in wires) > LONG_MM
