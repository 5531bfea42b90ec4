"""The sign of a test point, where the tip of a meter is held: a ring with a dot in it."""

from labelgen.lengths import Rectangle
from labelgen.model.drawing import Circle, Shape

RADIUS, WEIGHT, DOT, EDGE = 0.75, 0.22, 0.3, 0.3
"""mm, on a marker 10 mm high."""
SIGN = 2 * RADIUS + WEIGHT + 2 * EDGE
"""mm that it takes of its row."""
METER_WORDS = "◉ test point"


def meter_sign(room: Rectangle, scale: float) -> list[Shape]:
    """In the middle of its part of the row of way numbers."""
    x, y = room.x + room.width / 2, room.y + room.height / 2
    return [
        Circle(x=x, y=y, radius=RADIUS * scale, fill="#ffffff", stroke="#000000", stroke_width=WEIGHT * scale),
        Circle(x=x, y=y, radius=DOT * scale, fill="#000000"),
    ]
