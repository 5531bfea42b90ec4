"""Motors and the levers that work them: what burns, what does not hold, and what nothing works."""

from collections.abc import Iterator

from labelgen.model.description import Description
from labelgen.model.kinds import SUPPLY_TERMINALS, Kind
from labelgen.model.netlist import Circuit, LeverPlan, Netlist
from labelgen.places import Path
from labelgen.problems import Problem

MOMENTARY = frozenset({"sprung", "passing", "button", "buttons", "stud"})
"""Types of levers that make for a moment only."""
STAYING = frozenset({"latching", "on-off", "rotary", "changeover", "two-pole"})
DRIVES = frozenset({"drive-a", "drive-b"})
COIL_OHMS = 40.0
"""Coils of solenoid motors have 2 to 40 ohms. Collected by hobbyists; common practice, no source."""


def steady_coils(description: Description, netlist: Netlist) -> list[Problem]:
    """Reports coil-steady where a coil that is made for a pulse can be fed for good."""
    problems = []
    for circuit in netlist.circuits:
        lever = netlist.lever_by_id.get(circuit.lever or "")
        called = _devices(circuit)
        if lever is not None and lever.type in STAYING and _wants_a_moment(circuit.kind):
            message = f"lever {lever.id} is {lever.type} and stays on, and {called} may be fed for a moment only"
            problems.append(_steady(description, message, _lever_path(description, lever)))
        elif row := next(_always_fed(circuit.kind), None):
            message = f"nothing switches {called}: its terminal {row} is fed all the time, and its coil burns out"
            problems.append(_steady(description, message, description.device_path(circuit.devices[0])))
    return problems


def _steady(description: Description, message: str, path: Path) -> Problem:
    return Problem(
        code="coil-steady",
        message=message,
        hint="Take a lever that springs back (`sprung`), that makes as it passes (`passing`), a button or a stud.",
        place=description.place_of(*path),
    )


def _wants_a_moment(kind: Kind) -> bool:
    return kind.lever_type in MOMENTARY or any(
        row.contact is not None and row.function in ("normal", "reverse") for row in kind.group if "pulse" in _fed(kind)
    )


def _fed(kind: Kind) -> set[str]:
    return set(kind.supply.values())


def _always_fed(kind: Kind) -> Iterator[str]:
    """Terminals of coils that hang on a pulse supply's feed without a contact between; a probe's tip is none."""
    rows = [(row.terminal, row.chain, row.contact) for row in kind.group]
    rows += [(row.terminal, row.supply, row.contact) for row in kind.chain]
    for terminal, reference, contact in rows if len(kind.terminals) > 1 else ():
        if terminal is not None and reference is not None and contact is None:
            role, of_supply = kind.reference(reference)
            if kind.supply[role] == "pulse" and of_supply == SUPPLY_TERMINALS["pulse"][0]:
                yield terminal


def motors_not_held(description: Description, netlist: Netlist) -> list[Problem]:
    """Reports motor-not-held where a motor that needs a steady supply is on a lever that lets go of it."""
    return [
        Problem(
            code="motor-not-held",
            message=f"lever {lever.id} is {lever.type} and lets go at once, and {_devices(circuit)} must be fed all the"
            " time",
            hint=f"Take a lever that stays where it is put: {circuit.kind.lever_type}.",
            place=description.place_of(*_lever_path(description, lever)),
        )
        for circuit in netlist.circuits
        if (lever := netlist.lever_by_id.get(circuit.lever or "")) is not None
        and lever.type in MOMENTARY
        and circuit.kind.lever_type in STAYING
        and any(row.function in DRIVES for row in circuit.kind.group)
    ]


def bare_coils(description: Description, netlist: Netlist) -> list[Problem]:
    """Reports no-discharge-unit where coils for a moment's feed hang on a steady supply.

    What else a kind is fed with, lamps for instance, may be steady.
    """
    return [
        Problem(
            code="no-discharge-unit",
            message=f"{_devices(circuit)}'s coils of {ohms:g} ohms are fed by {circuit.supplies[role]} with no"
            " discharge unit between: a contact that sticks burns them out",
            hint="Put a capacitor discharge unit between, and describe it as a supply of the kind `pulse`.",
            place=description.place_of(*description.device_path(circuit.devices[0])),
        )
        for circuit in netlist.circuits
        if (role := next(_steady_at_the_lever(circuit.kind), None)) is not None
        and (ohms := _coil_ohms(description, circuit)) <= COIL_OHMS
        and _throws(circuit.kind) == {"normal", "reverse"}
        and circuit.kind.lever_type in MOMENTARY
    ]


def _steady_at_the_lever(kind: Kind) -> Iterator[str]:
    """The supplies, by what each is for, that the lever's contacts let through and that are no pulse."""
    chains = [(row.contact, row.chain) for row in kind.group] + [(row.contact, row.supply) for row in kind.chain]
    roles = (kind.reference(chain)[0] for contact, chain in chains if contact is not None and chain is not None)
    return (role for role in roles if kind.supply[role] in ("dc", "ac"))


def _coil_ohms(description: Description, circuit: Circuit) -> float:
    table, id_ = description.device_path(circuit.devices[0])
    return getattr(description, str(table))[id_].ohms or circuit.kind.ohms or float("inf")


def _throws(kind: Kind) -> set[str]:
    """Which of normal and reverse its lever can send."""
    return {row.function for row in kind.group if row.contact is not None} & {"normal", "reverse"}


def one_way_motors(description: Description, netlist: Netlist) -> list[Problem]:
    """Reports one-way-motor at each kind of the builder's own that can be thrown and not thrown back."""
    used = {circuit.kind_name: circuit.kind for circuit in netlist.circuits if circuit.lever is not None}
    return [
        Problem(
            code="one-way-motor",
            message=f"the kind {name} can be thrown {lie}, and never back",
            hint="Add the row of the other coil to its `group`.",
            place=description.place_of_key("kinds", name),
        )
        for name, kind in used.items()
        if name in description.kinds and len(throws := _throws(kind)) == 1
        for lie in throws
    ]


def devices_without_lever(description: Description, netlist: Netlist) -> list[Problem]:
    """Reports no-lever where a kind has contacts, and no lever has them; `lever: none` says that it is meant."""
    return [
        Problem(
            code="no-lever",
            message=f"no lever works {circuit.id}, and its kind {circuit.kind_name} needs one",
            hint=f"Write `lever:` with one of type {circuit.kind.lever_type}; or `lever: none`, if it is meant so.",
            place=description.place_of_key(*description.device_path(circuit.id)),
        )
        for circuit in netlist.circuits
        if circuit.lever is None and circuit.id in description.devices
        if description.devices[circuit.id].lever is None and circuit.kind.lever_type is not None
    ]


def _devices(circuit: Circuit) -> str:
    return " and ".join(circuit.devices)


def _lever_path(description: Description, lever: LeverPlan) -> Path:
    return ("levers", lever.id, "type") if lever.id in description.levers else lever.path
