"""What makes good for a printer that stretches and shifts: one transform of the whole page."""

from dataclasses import dataclass, replace

from labelgen.standards.paper_sizes import PAPERS

SAME_PAPER_MM = 0.5
"""Sides that differ by less are of one size of paper."""
OFFICE_PAPERS = tuple((PAPERS[id_].width, PAPERS[id_].height) for id_ in ("a4", "letter"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Correction:
    """A place p on the page, mm from its top left, is painted at `scale` × p + `shift`: sizes change with places."""

    scale: tuple[float, float] = (1.0, 1.0)
    """Across and down."""
    shift: tuple[float, float] = (0.0, 0.0)
    """mm to the right and down."""
    papers: tuple[tuple[float, float], ...] = OFFICE_PAPERS
    """Width and height of the papers for which it was measured, as they go through the printer."""

    def at(self, x: float, y: float) -> tuple[float, float]:
        return self.scale[0] * x + self.shift[0], self.scale[1] * y + self.shift[1]

    def for_page(self, width: float, height: float) -> "Correction":
        """What of it is right for a page of that size.

        A page on its side goes through the printer upright, so that its scales change places; which way it was turned
        is not known, so that it is not shifted. Other paper is printed on another printer: by a plotter, on a roll.
        """
        if any(_same(paper, (width, height)) for paper in self.papers):
            return self
        if any(_same(paper, (height, width)) for paper in self.papers):
            return replace(self, scale=(self.scale[1], self.scale[0]), shift=(0.0, 0.0))
        return UNCORRECTED

    @property
    def changes_nothing(self) -> bool:
        return self.scale == (1.0, 1.0) and self.shift == (0.0, 0.0)


UNCORRECTED = Correction()


def _same(one: tuple[float, float], other: tuple[float, float]) -> bool:
    return abs(one[0] - other[0]) < SAME_PAPER_MM and abs(one[1] - other[1]) < SAME_PAPER_MM


def from_test_page(
    rules: tuple[float, float], nominal: tuple[float, float], off: tuple[float, float], cross: tuple[float, float]
) -> Correction:
    """The correction for a printer, from what its test page measured; all in mm.

    `rules`: how long the rules across and down came out; `nominal`: how long they are. `off`: how far to the right
    and down of its place a cross came out; `cross`: its place. A printer that puts p at s × p + t is made good by
    p / s - t / s.
    """
    s = (rules[0] / nominal[0], rules[1] / nominal[1])
    t = tuple(off[i] - (s[i] - 1) * cross[i] for i in (0, 1))
    return Correction(scale=(1 / s[0], 1 / s[1]), shift=(-t[0] / s[0], -t[1] / s[1]))
