"""Whether the single rows of a device kind make sense: what lands on a way, diodes, pairs, levers."""

from collections.abc import Iterator

from labelgen.model.kinds import LEVER_CONTACTS, GroupRow, Kind
from labelgen.places import Path
from labelgen.reading.near_names import did_you_mean

Found = Iterator[tuple[Path, str, str]]
"""The path inside the kind, what is wrong, what to do."""


def row_faults(kind: Kind) -> Found:
    """All faults of the rows, one by one."""
    for number, row in enumerate(kind.group):
        path = ("group", number)
        yield from _lands(row, path)
        yield from _across(kind, row, path)
        yield from _diodes(kind, row, path)
    for number, chained in enumerate(kind.chain):
        if (chained.terminal is None) == (chained.contact is None):
            message = "a row of `chain` needs one of `terminal` and `contact`"
            yield ("chain", number), message, "Say what the chain runs to: a device's terminal, or a lever's contact."
    yield from _levers(kind)
    yield from _pairs(kind)


def _lands(row: GroupRow, path: Path) -> Found:
    ends = (row.contact, row.terminal, row.chain, row.across)
    if all(end is None for end in ends) and row.function != "spare":
        message = "nothing lands on the way of this row"
        yield path, message, "Give it a `contact`, a `terminal` or a `chain`, or take it out."


def _across(kind: Kind, row: GroupRow, path: Path) -> Found:
    if row.across is None:
        return
    path = (*path, "across")
    if row.contact is not None:
        message = f"a row has both a contact and `across: {row.across}`"
        yield path, message, "Both would land on the panel side: keep one of them."
    elif row.terminal is None and row.chain is None:
        message = f"`across: {row.across}` has nothing on the other side of its way"
        yield path, message, "Give the row a `terminal`, or a `chain`."
    elif row.across == row.terminal:
        yield path, f"terminal `{row.across}` is joined to itself", "Name another terminal behind `across:`."
    elif row.across not in kind.terminals and kind.lever_type is None:
        hint = f"{did_you_mean(row.across, kind.terminals)}Its terminals: {', '.join(kind.terminals)}."
        yield path, f"the kind has no terminal `{row.across}`, and no lever beside which it could stand", hint


def _diodes(kind: Kind, row: GroupRow, path: Path) -> Found:
    for number, name in enumerate(row.diodes):
        here = (*path, "diodes", number)
        others = [other for other in kind.group if name in (other.terminal, other.contact)]
        if not others:
            rows = [other for other in kind.group if other is not row]
            terminals = dict.fromkeys(other.terminal for other in rows if other.terminal is not None)
            contacts = dict.fromkeys(other.contact for other in rows if other.contact is not None)
            kinds_of_ends = (("Its terminals", terminals), ("its contacts", contacts))
            there = "; ".join(f"{what}: {', '.join(names)}" for what, names in kinds_of_ends if names)
            hint = f"{did_you_mean(name, [*terminals, *contacts])}{there or 'It has no other row with either'}."
            yield here, f"no row has a terminal or contact `{name}` to which a diode could lead", hint
        elif row in others:
            yield here, f"a diode leads from the way of `{name}` to itself", "Name another terminal or contact."
        elif any(sum(other.needed_with(lever) for other in others) > 1 for lever in row.only or LEVER_CONTACTS):
            message = f"`{name}` has more than one way to which a diode could lead"
            yield here, message, "Name a terminal or contact that has only one."
        if name in row.diodes[:number]:
            yield here, f"the diode to `{name}` is there twice", "Take one of the two out."


def _levers(kind: Kind) -> Found:
    rows = [(("group", number), row) for number, row in enumerate(kind.group)]
    chained = [(("chain", number), row) for number, row in enumerate(kind.chain)]
    for path, row in (*rows, *chained):
        if (row.only or row.unless) and kind.lever_type is None:
            message = "a row depends on the lever, and the kind has none"
            yield path, message, "Add `lever_type:` to the kind, or take `only` and `unless` out."
        elif both := [name for name in row.only if name in row.unless]:
            yield path, f"a row is needed only with {both[0]}, and not with it", "Take one of the two out."


def _pairs(kind: Kind) -> Found:
    for name in dict.fromkeys(row.swap for row in kind.group if row.swap):
        numbers = [number for number, row in enumerate(kind.group) if row.swap == name]
        if len(numbers) != 2:
            count = "one row" if len(numbers) == 1 else f"{len(numbers)} rows"
            message = f"`swap: {name}` stands at {count}"
            yield ("group", numbers[0], "swap"), message, "A pair that may have to be exchanged is two rows: mark both."
