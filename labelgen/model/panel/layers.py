"""A drawing in layers, for a machine that cuts, drills and engraves: shapes in mm, origin at the top left, y down."""

from dataclasses import dataclass

from labelgen.model.drawing import Shape

LAYERS = ("engrave", "print", "cut", "drill")
"""From the bottom up: seen by eye, the engraving lies behind the same thing printed."""
HAIRLINE_MM = 0.05
"""What is thinner than 0.088 mm (a quarter point) is read as a line to cut, not one to engrave: cutting shops."""
LAYER_COLOURS = {"engrave": "#000000", "print": "#808080", "cut": "#FF0000", "drill": "#FF00FF"}
"""Red cuts, black engraves: what most cutting shops ask for. Holes have another colour, so that they can go first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LayeredDrawing:
    """The same thing for each tool. Cutters follow the middle of a line."""

    width: float
    height: float
    name: str
    engrave: tuple[Shape, ...]
    """Filled black: texts, and outlines of tracks."""
    print: tuple[Shape, ...]
    """In full colour, without the trim line."""
    cut: tuple[Shape, ...]
    """Closed outlines, none of them twice: the panel's edge, slots."""
    drill: tuple[Shape, ...]
    """A circle for each hole, at its diameter."""

    def layers(self) -> dict[str, tuple[Shape, ...]]:
        """Name: shapes, from the bottom up."""
        return {name: getattr(self, name) for name in LAYERS}
