"""Whether a device kind hangs together, be it built in or the builder's own."""

from collections import Counter
from collections.abc import Callable, Iterator

from labelgen.model.kinds import LEVER_CONTACTS, SUPPLY_TERMINALS, ChainRow, GroupRow, Kind
from labelgen.places import Path, Place
from labelgen.problems import Problem
from labelgen.reading.near_names import did_you_mean

PlaceOf = Callable[[Path], Place]


def kind_problems(kind: Kind, place_of: PlaceOf) -> list[Problem]:
    """What is wrong with a kind (bad-kind). `place_of` finds a path inside the kind."""
    found = [*_rows(kind), *_terminals(kind), *_contacts(kind), *_chain_rows(kind), *_supply(kind), *_twice(kind)]
    return [Problem(code="bad-kind", message=message, hint=hint, place=place_of(path)) for path, message, hint in found]


def rows_of(kind: Kind) -> Iterator[tuple[Path, GroupRow | ChainRow]]:
    """Every row with its path inside the kind."""
    for number, group_row in enumerate(kind.group):
        yield ("group", number), group_row
    for number, chain_row in enumerate(kind.chain):
        yield ("chain", number), chain_row


Found = Iterator[tuple[Path, str, str]]


def _rows(kind: Kind) -> Found:
    if not kind.group and not kind.chain:
        yield (), "this kind has no rows: nothing would be wired", "Add `group:` with a row for each way it takes."


def _terminals(kind: Kind) -> Found:
    for path, name in _named_terminals(kind):
        if name not in kind.terminals:
            hint = f"{did_you_mean(name, kind.terminals)}Its terminals: {', '.join(kind.terminals)}."
            yield path, f"the kind has no terminal `{name}`", hint


def _named_terminals(kind: Kind) -> Iterator[tuple[Path, str]]:
    """Every terminal that something in the kind names, with its path."""
    for path, row in rows_of(kind):
        if row.terminal is not None:
            yield (*path, "terminal"), row.terminal
    for number, group_row in enumerate(kind.group):
        yield from ((("group", number, "diodes", n), name) for n, name in enumerate(group_row.diodes))
    for lie, pairs in kind.inside.items():
        yield from ((("inside", lie, n), name) for n, pair in enumerate(pairs) for name in pair)
    for given, name in kind.gives.items():
        yield ("gives", given), name or given


def _chain_rows(kind: Kind) -> Found:
    for number, row in enumerate(kind.chain):
        if (row.terminal is None) == (row.contact is None):
            message = "a row of `chain` needs one of `terminal` and `contact`"
            yield ("chain", number), message, "Say what the chain runs to: a device's terminal, or a lever's contact."


def _contacts(kind: Kind) -> Found:
    seen: set[str] = set()
    has = LEVER_CONTACTS[kind.lever_type] if kind.lever_type is not None else None
    for path, row in rows_of(kind):
        path = (*path, "contact")  # noqa: PLW2901
        if row.contact is None:
            continue
        if kind.lever_type is None:
            yield path, "a row has a contact, and the kind has no lever", "Add `lever_type:` to the kind."
        elif has is not None and row.contact not in has:
            hint = f"{did_you_mean(row.contact, has)}Its contacts: {', '.join(has)}."
            yield path, f"a lever of type {kind.lever_type} has no contact `{row.contact}`", hint
        if row.contact in seen and not row.only and not row.unless:
            message = f"contact `{row.contact}` is used twice"
            yield path, message, "Each contact of a lever has one way: take one of the rows out."
        seen.add(row.contact)


def _supply(kind: Kind) -> Found:
    named = [(("group", number, "chain"), row.chain) for number, row in enumerate(kind.group)]
    named += [(("chain", number, "supply"), row.supply) for number, row in enumerate(kind.chain)]
    for path, name in named:
        if name is None:
            continue
        role, terminal = kind.reference(name)
        if role not in kind.supply:
            hint = f"{did_you_mean(role, kind.supply)}Its supplies: {', '.join(kind.supply)}."
            yield path, f"the kind names no supply `{role}`", hint
            continue
        has = SUPPLY_TERMINALS[kind.supply[role]]
        if terminal not in has:
            hint = f"{did_you_mean(terminal, has)}Its terminals: {', '.join(has)}."
            yield path, f"a supply of kind {kind.supply[role]} has no terminal `{terminal}`", hint


def _twice(kind: Kind) -> Found:
    """Two rows from one supply terminal to one device terminal would close a ring."""
    pairs: Counter[tuple[str, str]] = Counter()
    for path, row in rows_of(kind):
        terminal, supply = row.terminal, row.chain if isinstance(row, GroupRow) else row.supply
        if terminal is None or supply is None:
            continue
        if pairs[terminal, supply]:
            message = f"terminal `{terminal}` is joined to the supply's `{supply}` twice"
            yield path, message, "Take one of the rows out: the two would make a ring, which hides a broken link."
        pairs[terminal, supply] += 1
