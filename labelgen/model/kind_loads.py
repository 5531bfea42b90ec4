"""What in a device uses current: which of its terminals a coil, motor or lamp lies between."""

from dataclasses import dataclass
from itertools import pairwise

from labelgen.model.kinds import SUPPLY_TERMINALS, ChainRow, GroupRow, Kind
from labelgen.model.lamp_leads import LAMP_FUNCTION

RAILS = ("track", "track-return")
RAIL_SUPPLIES = ("track", "digital")
NO_LOAD = frozenset({"track", "track-return", "frog", "return", "data"})
"""Functions whose wires end at no load of the device: rails, returns, signals."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Load:
    """A coil, motor or lamp of a device."""

    role: str
    """Which of the kind's supplies feeds it."""
    terminals: tuple[str, str]
    """The one that is fed first."""
    lamp: bool = False


def loads_of(kind: Kind) -> tuple[Load, ...]:
    """The loads of a kind, in the order of its rows.

    Each terminal that is fed, to the terminal on that supply's return; two that are fed without one (a motor that a
    changeover turns round), from one to the other. `loads:` of the kind says otherwise.
    """
    if kind.loads:
        return tuple(Load(role=_switched_role(kind), terminals=(a, b)) for a, b in kind.loads)
    returns = _returns(kind)
    lamps = {row.terminal for row in _rows(kind) if row.function == LAMP_FUNCTION}
    found: list[Load] = []
    for role in kind.supply:
        fed = [row for row in kind.group if _fed_by(kind, row) == role]
        terminals = [row.terminal for row in fed if row.terminal is not None]
        chained = [row for row in kind.chain if row.function not in NO_LOAD]
        terminals += [row.terminal for row in chained if row.terminal and _feeds(kind, row.supply) == role]
        if role in returns:
            back = returns[role]
            found += [Load(role=role, terminals=(one, back), lamp=one in lamps) for one in terminals if one != back]
        elif all(row.contact is not None for row in fed):
            found += [Load(role=role, terminals=pair) for pair in list(pairwise(terminals))[::2]]
    return tuple(found)


def rails_of(kind: Kind) -> tuple[Load, ...]:
    """Pairs of rails that a kind feeds, taken for a load: the train on them.

    Not of what only chooses a rail for a crossing with contacts of its own.
    """
    found: list[Load] = []
    own = {terminal for pairs in kind.inside.values() for pair in pairs for terminal in pair}
    for role, supply in kind.supply.items():
        rows = [(row.function, row.terminal) for row in _rows(kind) if row.terminal not in own]
        ends = [[end for function, end in rows if function == rail and end is not None] for rail in RAILS]
        if supply in RAIL_SUPPLIES and all(ends):
            found.append(Load(role=role, terminals=(ends[0][0], ends[1][0])))
    return tuple(found)


def _rows(kind: Kind) -> tuple[GroupRow | ChainRow, ...]:
    return (*kind.group, *kind.chain)


def _returns(kind: Kind) -> dict[str, str]:
    """Role: the terminal on its return."""
    rows = [(row.terminal, row.chain) for row in kind.group] + [(row.terminal, row.supply) for row in kind.chain]
    found: dict[str, str] = {}
    for terminal, reference in rows:
        if terminal is None or reference is None:
            continue
        role, of_supply = kind.reference(reference)
        if of_supply == SUPPLY_TERMINALS[kind.supply[role]][1]:
            found.setdefault(role, terminal)
    return found


def _fed_by(kind: Kind, row: GroupRow) -> str | None:
    """The role that feeds the terminal of a row, when a load hangs on it."""
    if row.terminal is None or row.across is not None or row.function in NO_LOAD:
        return None
    if row.chain is not None:
        return _feeds(kind, row.chain)
    return _switched_role(kind)


def _feeds(kind: Kind, reference: str) -> str | None:
    """The role of a reference to the feed of a supply; None when it is to the return."""
    role, terminal = kind.reference(reference)
    return role if terminal == SUPPLY_TERMINALS[kind.supply[role]][0] else None


def _switched_role(kind: Kind) -> str:
    """The role whose feed goes through the lever; else the first."""
    rows = [(row.contact, row.chain) for row in kind.group] + [(row.contact, row.supply) for row in kind.chain]
    through = [kind.reference(reference)[0] for contact, reference in rows if contact is not None and reference]
    return through[0] if through else next(iter(kind.supply))
