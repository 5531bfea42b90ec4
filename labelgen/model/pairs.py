"""Two numbers in brackets: a place, a size; and the words for directions."""

import re
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, WithJsonSchema

from labelgen.model.scalars import Coordinate, Millimetres, Stretch, complaint, what

TWO = re.compile(r"([+-]?\d+(?:\.\d+)?)(?: ?mm)?(?: *[x×*,;/] *| +)([+-]?\d+(?:\.\d+)?)(?: ?mm)?", re.ASCII)
"""Two numbers in one text: `420x190`, `120 180`."""


def pair(value: Any) -> Any:
    """Two of something, or a complaint that says how the numbers that were typed are written."""
    if isinstance(value, (list, tuple)) and len(value) == 2:
        return value
    only = value[0] if isinstance(value, (list, tuple)) and len(value) == 1 else value
    two = TWO.fullmatch(only.strip()) if isinstance(only, str) else None
    if two is not None:
        message = f"two numbers are expected here, and {only!r} is one text"
        if only is not value:
            message = "the comma between these two numbers is missing"
        raise complaint("wrong-type", message, f"Write [{two[1]}, {two[2]}].")
    found = f"{len(value)}" if isinstance(value, (list, tuple)) else what(value)
    message = f"two numbers are expected here, not {found}"
    raise complaint("wrong-type", message, "Write them in brackets: [120, 45].")


Position = Annotated[tuple[Coordinate, Coordinate], BeforeValidator(pair)]
"""[x, y] from the top left, y down: mm on a board, squares on a panel."""
Size = Annotated[tuple[Millimetres, Millimetres], BeforeValidator(pair)]


def _across_and_down(value: Any) -> Any:
    """One number is for both ways."""
    return pair(value) if isinstance(value, (list, tuple)) else (value, value)


Scale = Annotated[
    tuple[Stretch, Stretch],
    BeforeValidator(_across_and_down),
    WithJsonSchema({"anyOf": [{"type": "number"}, {"type": "array", "items": {"type": "number"}}]}),
]
"""By what lengths across and down are multiplied."""
Direction = Literal["up", "down", "left", "right"]
Edge = Literal["left", "right", "front", "back"]
