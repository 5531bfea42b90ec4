"""From where a board is seen: the plan as it is, or with left and right exchanged. Millimetres on paper.

From below: whoever lies on their back under a board, head towards its back and feet out at its front edge, and looks
up, has the back at the top of what they see, the front edge at its foot, and the board's right on their left hand.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from labelgen.lengths import Point, Rectangle


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """What the plan shows of a board, in mm on the board, at 1:`scale`; places on paper are from its upper left."""

    extent: Rectangle
    scale: float
    below: bool = False

    @property
    def width(self) -> float:
        return self.extent.width / self.scale

    @property
    def height(self) -> float:
        return self.extent.height / self.scale

    @property
    def name(self) -> str:
        return "below" if self.below else "above"

    def on_paper(self, at: Point) -> Point:
        """A place of the board as it is from above; `point` and `box` exchange left and right where that is wanted."""
        return Point((at.x - self.extent.x) / self.scale, (at.y - self.extent.y) / self.scale)

    def area_on_paper(self, area: Rectangle) -> Rectangle:
        corner = self.on_paper(Point(area.x, area.y))
        return Rectangle(corner.x, corner.y, area.width / self.scale, area.height / self.scale)

    def point(self, at: Point) -> Point:
        return Point(self.width - at.x, at.y) if self.below else at

    def box(self, area: Rectangle) -> Rectangle:
        return Rectangle(self.width - area.right, area.y, area.width, area.height) if self.below else area

    def corners(self, run: Iterable[Point]) -> tuple[tuple[float, float], ...]:
        return tuple((seen.x, seen.y) for seen in map(self.point, run))
