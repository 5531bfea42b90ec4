"""Whether a device kind hangs together, be it built in or the builder's own."""

from collections import Counter
from collections.abc import Callable, Iterator

from labelgen.model.kinds import LEVER_CONTACTS, SUPPLY_TERMINALS, ChainRow, GroupRow, Kind
from labelgen.places import Path, Place
from labelgen.problems import Problem
from labelgen.reading.kind_row_checks import Found, row_faults
from labelgen.reading.near_names import did_you_mean

PlaceOf = Callable[[Path], Place]


def kind_problems(kind: Kind, place_of: PlaceOf) -> list[Problem]:
    """What is wrong with a kind (bad-kind). `place_of` finds a path inside the kind."""
    parts = (_rows, _terminals, _contacts, row_faults, _supply, _twice, _lies, _gives)
    found = [fault for part in parts for fault in part(kind)]
    return [Problem(code="bad-kind", message=message, hint=hint, place=place_of(path)) for path, message, hint in found]


def rows_of(kind: Kind) -> Iterator[tuple[Path, GroupRow | ChainRow]]:
    """Every row with its path inside the kind."""
    for number, group_row in enumerate(kind.group):
        yield ("group", number), group_row
    for number, chain_row in enumerate(kind.chain):
        yield ("chain", number), chain_row


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
    for lie, pairs in kind.inside.items():
        yield from ((("inside", lie, n), name) for n, pair in enumerate(pairs) for name in pair)
    for given, name in kind.gives.items():
        yield ("gives", given), name or given


def _contacts(kind: Kind) -> Found:
    seen: set[str] = set()
    for path, row in rows_of(kind):
        path = (*path, "contact")  # noqa: PLW2901
        if row.contact is None:
            continue
        if kind.lever_type is None:
            yield path, "a row has a contact, and the kind has no lever", "Add `lever_type:` to the kind."
            continue
        for lever_type in row.only or (kind.lever_type,):
            has = LEVER_CONTACTS[lever_type]
            if has is not None and row.contact not in has:
                hint = f"{did_you_mean(row.contact, has)}Its contacts: {', '.join(has)}."
                yield path, f"a lever of type {lever_type} has no contact `{row.contact}`", hint
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


def _lies(kind: Kind) -> Found:
    """The device's own contacts: how it lies, and then two terminals that are joined."""
    lies = dict.fromkeys(["normal", "reverse", *(row.contact for row in kind.group if row.contact is not None)])
    for lie, pairs in kind.inside.items():
        if lie not in lies:
            hint = f"{did_you_mean(lie, lies)}Write `normal` or `reverse`, or the lever's contact that sets it."
            yield ("inside", lie), f"`{lie}` is not a way for it to lie", hint
        for number, pair in enumerate(pairs):
            if len(set(pair)) != 2 or len(pair) != 2:
                message = "a contact joins two different terminals"
                yield ("inside", lie, number), message, "Write them in brackets: [[2, 4], [5, 6]]."


def _gives(kind: Kind) -> Found:
    pairs = dict.fromkeys(SUPPLY_TERMINALS.values())
    known = all((name or given) in kind.terminals for given, name in kind.gives.items())
    if kind.gives and known and not any(set(kind.gives) == set(pair) for pair in pairs):
        written = " or ".join(f"`{{{first}: , {second}: }}`" for first, second in pairs)
        message = "what it gives is not the two terminals of a supply"
        yield ("gives",), message, f"Write {written}, each with the terminal that serves as it."
