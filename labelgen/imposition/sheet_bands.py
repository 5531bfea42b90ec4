"""What a full sheet is cut into: blocks side by side, each of bands, each of labels end to end. Millimetres."""

from dataclasses import dataclass

from labelgen.model.drawing import Drawing

HAIR = 1e-6
Unit = tuple[Drawing, ...]
"""Drawings of one size that stay side by side."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """Labels of one height end to end, or turned ones of one length side by side."""

    drawings: tuple[Drawing, ...]
    turned: bool = False

    @property
    def height(self) -> float:
        return self.drawings[0].width if self.turned else self.drawings[0].height

    @property
    def length(self) -> float:
        return sum(self.along(drawing) for drawing in self.drawings)

    def along(self, drawing: Drawing) -> float:
        """How much of the band a label takes."""
        return drawing.height if self.turned else drawing.width


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """Bands one below the other; it is as wide as its longest."""

    bands: tuple[Band, ...]

    @property
    def width(self) -> float:
        return max(band.length for band in self.bands)

    @property
    def height(self) -> float:
        return sum(band.height for band in self.bands)


Page = tuple[Block, ...]
"""Blocks from left to right, cut apart first."""
