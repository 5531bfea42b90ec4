"""Colours, sizes and weights of a fascia: one light style that spares ink, one dark, one for black alone."""

from dataclasses import dataclass

from labelgen.model.look import Look
from labelgen.model.panel_form import Panel
from labelgen.standards.legibility import HEADS_READ_AT_MM, LEAST_MINUTES, PREFERRED_MINUTES, cap_height

READ_AT_MM = 700
"""From the eye to a panel, for someone who stands or sits at it. Common practice, no source."""
TITLE_READ_AT_MM = 1000
NUMBER_CAP_MM = cap_height(READ_AT_MM, 22)
"""4.5 mm: ISO 9241-3 prefers 20 to 22 minutes of arc."""
GOOD_CAP_MM = cap_height(READ_AT_MM, PREFERRED_MINUTES)
NAME_CAP_MM = cap_height(READ_AT_MM, LEAST_MINUTES)
SMALL_CAP_MM = cap_height(HEADS_READ_AT_MM, LEAST_MINUTES)
"""2.2 mm: what is read by leaning in."""
TITLE_CAP_MM = cap_height(TITLE_READ_AT_MM, PREFERRED_MINUTES)

HOLE_RADIUS_MM = 3.25
"""A miniature toggle's bush is 6.35 mm thick (1/4 inch); its hole 6.4 to 6.5 mm. Common practice, no source."""
RING_MM = 0.8
"""Paper around the hole, under the nut."""
SET_OFF_MM = 1.3
"""Clear paper between a reverse road and the normal one, or the nut."""
BREAK_GAP_MM = 2.6
MARGIN_MM = 2.5
"""Nothing but the trim line is closer to the edge: the panel's frame or a saw takes that much."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Style:
    paper: str | None
    """None: bare paper."""
    track: str
    ink: str
    soft: str
    """For names."""
    accent: str
    """For sections and their breaks."""
    platform: str
    platform_edge: str
    hole: str
    ring: str
    cross: str
    trim: str


LIGHT = Style(
    paper=None,
    track="#1F3A4D",
    ink="#14222C",
    soft="#3D4F5B",
    accent="#A2401A",
    platform="#EFE8D8",
    platform_edge="#B9AC8C",
    hole="#FFFFFF",
    ring="#444444",
    cross="#444444",
    trim="#8A8A8A",
)
DARK = Style(
    paper="#22313B",
    track="#F2EAD3",
    ink="#FFFFFF",
    soft="#C9D3D9",
    accent="#F2A65A",
    platform="#3A4C58",
    platform_edge="#6B7F8C",
    hole="#FFFFFF",
    ring="#444444",
    cross="#444444",
    trim="#22313B",
)
MONO = Style(
    paper=None,
    track="#000000",
    ink="#000000",
    soft="#333333",
    accent="#000000",
    platform="#EEEEEE",
    platform_edge="#999999",
    hole="#FFFFFF",
    ring="#444444",
    cross="#444444",
    trim="#888888",
)
MONO_DARK = Style(
    paper="#2B2B2B",
    track="#FFFFFF",
    ink="#FFFFFF",
    soft="#D0D0D0",
    accent="#FFFFFF",
    platform="#4A4A4A",
    platform_edge="#808080",
    hole="#FFFFFF",
    ring="#444444",
    cross="#444444",
    trim="#2B2B2B",
)


def style_of(panel: Panel, look: Look) -> Style:
    if panel.style == "dark":
        return MONO_DARK if look.mono else DARK
    return MONO if look.mono else LIGHT


def track_width(panel: Panel) -> float:
    """How thick tracks are, in mm: 4 to 6 mm read well on panels, thinner where the squares are small."""
    return max(2.5, min(6.0, 0.42 * panel.grid))
