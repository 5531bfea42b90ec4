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
    found = [*_rows(kind), *_terminals(kind), *_contacts(kind), *_supply(kind), *_twice(kind)]
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
    for path, row in rows_of(kind):
        name = row.terminal
        if name is not None and name not in kind.terminals:
            hint = f"{did_you_mean(name, kind.terminals)}Its terminals: {', '.join(kind.terminals)}."
            yield (*path, "terminal"), f"the kind has no terminal `{name}`", hint


def _contacts(kind: Kind) -> Found:
    seen: set[str] = set()
    has = LEVER_CONTACTS[kind.lever_type] if kind.lever_type is not None else None
    for number, row in enumerate(kind.group):
        path = ("group", number, "contact")
        if row.contact is None:
            continue
        if kind.lever_type is None:
            yield path, "a row has a contact, and the kind has no lever", "Add `lever_type:` to the kind."
        elif has is not None and row.contact not in has:
            hint = f"{did_you_mean(row.contact, has)}Its contacts: {', '.join(has)}."
            yield path, f"a lever of type {kind.lever_type} has no contact `{row.contact}`", hint
        if row.contact in seen:
            message = f"contact `{row.contact}` is used twice"
            yield path, message, "Each contact of a lever has one way: take one of the rows out."
        seen.add(row.contact)


def _supply(kind: Kind) -> Found:
    has = SUPPLY_TERMINALS[kind.supply]
    named = [(("group", number, "chain"), row.chain) for number, row in enumerate(kind.group)]
    named += [(("chain", number, "supply"), row.supply) for number, row in enumerate(kind.chain)]
    for path, name in named:
        if name is not None and name not in has:
            hint = f"{did_you_mean(name, has)}Its terminals: {', '.join(has)}."
            yield path, f"a supply of kind {kind.supply} has no terminal `{name}`", hint


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
