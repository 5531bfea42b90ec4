"""Which wraps go round which wires."""

from collections.abc import Iterator, Sequence
from math import ceil, floor, inf

from labelgen.drawings.flags.wires import diameter_mm, form_place
from labelgen.model.description import Description
from labelgen.model.look import Look
from labelgen.model.netlist import Wire
from labelgen.model.sheet import Stock
from labelgen.problems import Problem
from labelgen.standards.wraps import wire_seen_at, wires_of_tail

CAPITAL = 1.52
"""What must be seen from one side, in cap heights, so that a head is whole from nearly every side: the head itself and
a third of what it is from line to line. For words without low letters (`wrap_flags`)."""
HAIR = 1e-6


def wraps_round(stock: Stock, look: Look) -> tuple[float, float]:
    """The thinnest and the thickest wire, mm of diameter, for the labels of a stock; (inf, 0) where it has no tail.

    Thinner, the tail would make a lump, or no head would be seen whole; thicker, it would not hold.
    """
    if stock.print_zone is None:
        return inf, 0.0
    thin, thick = wires_of_tail(stock.print_zone, stock.height - stock.print_zone)
    return max(thin, wire_seen_at(CAPITAL * look.smallest_cap, stock.print_zone)), thick


def wrap_suits(wire_mm: float, stock: Stock, look: Look) -> bool:
    thin, thick = wraps_round(stock, look)
    return thin - HAIR <= wire_mm <= thick + HAIR


def wrap_problems(
    description: Description, wires: Sequence[Wire], look: Look, stock: Stock, stocks: Sequence[Stock]
) -> list[Problem]:
    """One for each size of wire that the labels do not suit; one for a sheet without clear tails. flag-unsuited."""
    if wires and stock.print_zone is None:
        return [_no_tail(description, stock, stocks)]
    by_thickness: dict[float, dict[int | str, Wire]] = {}
    for wire in wires:
        if not wrap_suits(diameter_mm(wire), stock, look):
            by_thickness.setdefault(diameter_mm(wire), {})[wire.number] = wire
    return [
        _unsuited(description, list(found.values()), look, stock, stocks) for _, found in sorted(by_thickness.items())
    ]


def _unsuited(
    description: Description, wires: Sequence[Wire], look: Look, stock: Stock, stocks: Sequence[Stock]
) -> Problem:
    thick = diameter_mm(wires[0])
    lower, upper = wraps_round(stock, look)
    others = [s.id for s in stocks if s.paper == stock.paper and wrap_suits(thick, s, look)]
    better = f"For it there is {' or '.join(others)} under `sheets: wrap:`; or write" if others else "Write"
    return Problem(
        code="flag-unsuited",
        message=f"{named(wires)} {thick:.1f} mm thick; the wraps of {stock.id} go round wires "
        f"of {tenths(lower, up=True)} to {tenths(upper, up=False)} mm",
        hint=f"{better} `flags: fold` at its function or at the wire.",
        place=form_place(description, wires[0]),
    )


def _no_tail(description: Description, stock: Stock, stocks: Sequence[Stock]) -> Problem:
    with_tail = ", ".join(s.id for s in stocks if s.paper == stock.paper and s.print_zone is not None)
    return Problem(
        code="flag-unsuited",
        message=f"the labels of {stock.id} have no clear tail, so they cannot be wound around wires",
        hint=f"Sheets for wraps: {with_tail}." if with_tail else "Choose a sheet whose labels have a `print_zone`.",
        place=description.place_of("sheets"),
    )


def named(wires: Sequence[Wire]) -> str:
    """`wire 12 (9N) is`, `wire 12 (9N) and 3 more are`."""
    first = f"wire {wires[0].number} ({wires[0].head})"
    return f"{first} is" if len(wires) == 1 else f"{first} and {len(wires) - 1} more are"


def tenths(length: float, *, up: bool) -> str:
    return f"{(ceil(10 * length - HAIR) if up else floor(10 * length + HAIR)) / 10:g}"


def fold_problems(description: Description, stock: Stock) -> Iterator[Problem]:
    """Fold-over flags need white all over. flag-unsuited."""
    if stock.print_zone is not None:
        yield Problem(
            code="flag-unsuited",
            message=f"the labels of {stock.id} are clear below their first {stock.print_zone:g} mm, "
            "and a flag that is folded around its wire is printed all over",
            hint="Choose another sheet, or write `flags: wrap` under `printing:`.",
            place=description.place_of("sheets"),
        )
