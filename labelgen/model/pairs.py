"""Two numbers in brackets: a place, a size; and the words for directions."""

from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, WithJsonSchema

from labelgen.model.scalars import Coordinate, Positive, Stretch, complaint, what


def pair(value: Any) -> Any:
    if not isinstance(value, (list, tuple)) or len(value) != 2:
        raise complaint(
            "wrong-type", f"two numbers are expected here, not {what(value)}", "Write them in brackets: [120, 45]."
        )
    return value


Position = Annotated[tuple[Coordinate, Coordinate], BeforeValidator(pair)]
"""[x, y] from the top left, y down: mm on a board, squares on a panel."""
Size = Annotated[tuple[Positive, Positive], BeforeValidator(pair)]


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
