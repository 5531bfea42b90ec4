"""The buttons, studs or positions of a lever that is neither normal nor reverse, and what lights in each."""

from dataclasses import dataclass

from labelgen.model.netlist import Circuit, LeverPlan, Netlist

TWO_BUTTONS = ("N", "R")
"""Buttons or studs of a lever that has one for either lie: the left one sets normal."""
OPPOSITE = {"up": "down", "down": "up", "left": "right", "right": "left"}
SIDES = {"N": "left", "R": "right"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Position:
    name: str
    """As its contact is called: left, red."""
    lamps: tuple[str, ...] = ()
    """In the kind's words, those that are lit then."""


def positions(netlist: Netlist, lever: LeverPlan) -> tuple[Position, ...]:
    """In the order of the contacts; none of a lever with a stroke, of a single button, or of an on-off switch.

    A rotary switch of two poles has a pair of contacts for each: 1A and 1B are position 1 (common practice).
    """
    circuit = next((circuit for circuit in netlist.circuits if circuit.lever == lever.id), None)
    if circuit is None or lever.type not in ("buttons", "stud", "rotary"):
        return ()
    contacts = [row.contact for row in circuit.kind.group if row.contact is not None]
    own = list(dict.fromkeys(contact for contact in contacts if not contact.startswith("F")))
    if len(own) < 2:
        return ()
    if "F1" in contacts:
        return tuple(Position(name=name) for name in dict.fromkeys(contact[:-1] or contact for contact in own))
    return tuple(Position(name=contact, lamps=_lamps(circuit, contact)) for contact in own)


def _lamps(circuit: Circuit, contact: str) -> tuple[str, ...]:
    rows = [row for row in circuit.kind.group if row.contact == contact and row.function == "lamp"]
    lit = [terminal for row in rows for terminal in (row.terminal, *row.diodes) if terminal is not None]
    return tuple(circuit.kind.terminals.get(terminal) or terminal for terminal in lit)


def on_and_off(lever: LeverPlan) -> dict[str, str]:
    """Where the handle of an on-off switch lies: what that means; it is off when normal. Nothing of another lever."""
    if lever.type != "on-off" or lever.spare:
        return {}
    return {lever.normal: "off", OPPOSITE[lever.normal]: "on"}
