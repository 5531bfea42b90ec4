"""How the text that a builder typed becomes a number, a truth or an id. Nothing is guessed from its looks.

Every plain scalar arrives as the text that was typed. The validators here raise `PydanticCustomError`
whose type is a code of `labelgen.problems` and whose context carries a ready `hint`, so that the reading stage
can show both without a translation table.
"""

import re
from math import isinf
from typing import Annotated, Any

from pydantic import AfterValidator, BeforeValidator, WithJsonSchema
from pydantic_core import PydanticCustomError

PLAIN_DECIMAL = re.compile(r"[+-]?(\d+(\.\d*)?|\.\d+)", re.ASCII)
ID = re.compile(r"[A-Za-z0-9_-]+")
ID_LENGTH = 40
RESERVED = frozenset({"con", "prn", "aux", "nul", *(f"{p}{n}" for p in ("com", "lpt") for n in range(10))})
"""Names that a common file system keeps for itself; ids become folders."""


def complaint(code: str, message: str, hint: str) -> PydanticCustomError:
    """An error of validation that already speaks the builder's language."""
    return PydanticCustomError(code, "{message}", {"message": message, "hint": hint})


def _word(value: Any) -> str:
    if not isinstance(value, str):
        raise complaint("wrong-type", f"a text is expected here, not {what(value)}", "Write one text here.")
    return value


def what(value: Any) -> str:
    """In the builder's words, what kind of thing a value is."""
    if isinstance(value, dict):
        return "a set of keys"
    if isinstance(value, (list, tuple)):
        return "a list"
    return repr(value) if isinstance(value, str) else "nothing"


def decimal(value: Any) -> float:
    """The number that a plain decimal says."""
    if isinstance(value, (int, float)) and not isinstance(value, bool):
        return float(value)
    if not isinstance(value, str):
        raise complaint("wrong-type", f"a number is expected here, not {what(value)}", "Write one number here.")
    if not PLAIN_DECIMAL.fullmatch(value.strip()):
        raise complaint(
            "bad-number", f"{value!r} is not a plain number", "Write digits, with a point for decimals: 12 or 9.5."
        )
    return float(value)


def _count(value: Any) -> int:
    number = decimal(value)
    if isinf(number):
        raise complaint("out-of-range", "this number is too large here", "Write a smaller one.")
    if number != int(number):
        raise complaint("bad-number", f"{value!r} is not a whole number", "Write a whole number here.")
    return int(number)


def truth(value: Any) -> bool:
    """What yes, no, true or false says."""
    truths = {"yes": True, "true": True, "no": False, "false": False}
    if isinstance(value, bool):
        return value
    if not isinstance(value, str) or value.lower() not in truths:
        raise complaint("wrong-type", f"yes or no is expected here, not {what(value)}", "Write yes or no.")
    return truths[value.lower()]


def _id(value: str) -> str:
    if not ID.fullmatch(value) or len(value) > ID_LENGTH:
        raise complaint(
            "bad-id",
            f"{value!r} cannot be an id",
            f"Use letters a to z, digits, - and _, {ID_LENGTH} at most. What is painted on it goes under `shown:`.",
        )
    if value.lower() in RESERVED:
        raise complaint("bad-id", f"{value!r} is a name that computers keep for themselves", "Call it something else.")
    return value


def _typed(value: float) -> str:
    """A number as people write it; what would fill the line is not repeated."""
    shown = f"{value:.15g}"
    return "this number" if "e" in shown else shown


def _bounded(value: float, low: float, high: float, unit: str = "") -> float:
    if not low <= value <= high:
        message = f"{_typed(value)} is too {'small' if value < low else 'large'} here"
        most = f"{high:,.15g}".replace(",", " ") + unit
        between = f"more than 0, and {most} at most" if low == LEAST else f"a number between {low:g} and {most}"
        raise complaint("out-of-range", message, f"Write {between}.")
    return value


def _within(low: float, high: float, unit: str = "") -> AfterValidator:
    return AfterValidator(lambda value: _bounded(value, low, high, unit))


MOST_ADDRESSES = 2044
"""Of digital accessories: 511 decoders of four. Common practice of guides, no source."""


def _addresses(value: Any) -> Any:
    """`17`, or `17-20`."""
    if isinstance(value, tuple):
        return value
    parts = [part.strip() for part in value.split("-")] if isinstance(value, str) else []
    if not 1 <= len(parts) <= 2 or not all(part.isascii() and part.isdecimal() and len(part) < 6 for part in parts):
        raise complaint("bad-number", f"{what(value)} is no address", "Write one, or the first and the last: 17-20.")
    first, last = int(parts[0]), int(parts[-1])
    if not 1 <= first <= last <= MOST_ADDRESSES:
        hint = f"Addresses of accessories are 1 to {MOST_ADDRESSES}, the lower one first."
        raise complaint("out-of-range", f"{value} is no run of addresses", hint)
    return first, last


LEAST = 0.001
"""Of what is more than nothing."""
LONGEST_MM = 100_000
"""100 m: no baseboard, strip or wire of a model railway is longer."""


def coordinate(value: Any) -> float:
    """A decimal that can be a place: mm on a board, squares on a panel."""
    return _bounded(decimal(value), -LONGEST_MM, LONGEST_MM)


_TYPED = {"type": ["string", "number", "boolean"]}

Word = Annotated[str, BeforeValidator(_word), WithJsonSchema(_TYPED)]
"""Any text, as it was typed."""
Id = Annotated[str, BeforeValidator(_word), AfterValidator(_id), WithJsonSchema(_TYPED)]
"""What the builder calls a thing."""
Truth = Annotated[bool, BeforeValidator(truth), WithJsonSchema({"enum": [True, False, "yes", "no"]})]
Decimal = Annotated[float, BeforeValidator(decimal), WithJsonSchema({"type": "number"})]
Count = Annotated[int, BeforeValidator(_count), WithJsonSchema({"type": "integer"})]
Coordinate = Annotated[Decimal, _within(-LONGEST_MM, LONGEST_MM)]
"""Millimetres (or squares, on a panel) from an origin."""
Length = Annotated[Decimal, _within(0, LONGEST_MM)]
Positive = Annotated[Decimal, _within(LEAST, LONGEST_MM)]
Millimetres = Annotated[Decimal, _within(LEAST, LONGEST_MM, " mm")]
"""A length that is more than nothing."""
Stretch = Annotated[Decimal, _within(0.9, 1.1)]
"""Of a printer: nobody keeps one that is off by a tenth, and 100 is meant as a percentage."""
Ways = Annotated[Count, _within(1, 200)]
Way = Annotated[Count, _within(1, 200)]
EntryLimit = Annotated[Count, _within(1, 20)]
Tiers = Annotated[Count, _within(1, 4)]
"""Rows of ways, one above the other, in one strip."""
Addresses = Annotated[tuple[int, int], BeforeValidator(_addresses), WithJsonSchema({"type": ["string", "integer"]})]
"""Of an accessory decoder: one address, or the first and last of a run."""
Pins = Annotated[Count, _within(1, 20)]
"""Of a plug, that one wire takes."""
FirstRow = Annotated[Count, _within(1, 20_000)]
"""Of a spreadsheet, from 1."""
