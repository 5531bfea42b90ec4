"""Colours, sizes and weights of a fascia: one light style that spares ink, one dark, one for black alone."""

from dataclasses import dataclass

from labelgen.model.look import Look
from labelgen.model.panel.form import Panel
from labelgen.standards.legibility import HEADS_READ_AT_MM, LEAST_MINUTES, PREFERRED_MINUTES, cap_height

READ_AT_MM = 700
"""From the eye to a panel, for someone who stands or sits at it: the default of `view_from`. Common practice, no
source. All heights below are for this distance; `at_distance` makes them those of another."""
TITLE_READ_AT_MM = 1000
LONGEST_NUMBER_MINUTES = 22
"""ISO 9241-3 prefers 20 to 22 minutes of arc."""
NUMBER_CAP_MM = cap_height(READ_AT_MM, LONGEST_NUMBER_MINUTES)
"""4.5 mm."""
GOOD_CAP_MM = cap_height(READ_AT_MM, PREFERRED_MINUTES)
NAME_CAP_MM = cap_height(READ_AT_MM, LEAST_MINUTES)
SMALL_CAP_MM = cap_height(HEADS_READ_AT_MM, LEAST_MINUTES)
"""2.2 mm: what is read by leaning in."""
TITLE_CAP_MM = cap_height(TITLE_READ_AT_MM, PREFERRED_MINUTES)

TRACK_MINUTES = (12, 30)
"""Least and most width of a track line as it is seen: 2.4 to 6.1 mm at 700 mm, where 4 to 6 mm read well on panels
(builders' practice). From 20 minutes on, its colour is told from another's as well as a letter's (ISO 9241-8)."""
TRACK_OF_SQUARE, MOST_OF_SQUARE = 0.42, 0.6

LEVER_RING_MM = 0.9
"""How wide the ring in a lever's colour is, outside of what the nut covers: 4 minutes of arc at 700 mm."""
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
    grid: str
    """Of the squares, when they are asked for: faint."""
    grid_ink: str


LIGHT = Style(
    paper=None,
    track="#1F3A4D",
    ink="#14222C",
    soft="#3D4F5B",
    accent="#A2401A",
    platform="#EFE8D8",
    platform_edge="#94875F",
    hole="#FFFFFF",
    ring="#444444",
    cross="#444444",
    trim="#767676",
    grid="#7FA8BD",
    grid_ink="#3B708C",
)
"""Dark lines on bare paper: it takes hardly any ink."""
DARK = Style(
    paper="#435560",
    track="#FFF6DC",
    ink="#FFFFFF",
    soft="#E3EAEE",
    accent="#FFC478",
    platform="#566B77",
    platform_edge="#B3C3CC",
    hole="#FFFFFF",
    ring="#444444",
    cross="#444444",
    trim="#435560",
    grid="#8FA4B0",
    grid_ink="#DCE4E9",
)
"""Light lines on slate. The ground is as light as white lettering allows with room to spare (7.8 : 1), not black: all
inks together cover 104 % of it, where 240 % is the most that newsprint bears (ISO 12647-3, from memory). It ends at
the trim line unless `bleed` is asked for."""
MONO = Style(
    paper=None,
    track="#000000",
    ink="#000000",
    soft="#333333",
    accent="#000000",
    platform="#EEEEEE",
    platform_edge="#808080",
    hole="#FFFFFF",
    ring="#444444",
    cross="#444444",
    trim="#767676",
    grid="#999999",
    grid_ink="#666666",
)
MONO_DARK = Style(
    paper="#595959",
    track="#FFFFFF",
    ink="#FFFFFF",
    soft="#E6E6E6",
    accent="#FFFFFF",
    platform="#656565",
    platform_edge="#BDBDBD",
    hole="#FFFFFF",
    ring="#444444",
    cross="#444444",
    trim="#595959",
    grid="#9A9A9A",
    grid_ink="#E6E6E6",
)


def style_of(panel: Panel, look: Look) -> Style:
    if panel.style == "dark":
        return MONO_DARK if look.mono else DARK
    return MONO if look.mono else LIGHT


def at_distance(panel: Panel, size_mm: float) -> float:
    """A size for `READ_AT_MM`, so that it is seen under the same angle from where this panel is seen."""
    return size_mm * panel.view_from / READ_AT_MM


def track_width(panel: Panel) -> float:
    """How thick tracks are, in mm: by the squares, within what is seen well; never so thick that they would touch."""
    least, most = (cap_height(panel.view_from, minutes) for minutes in TRACK_MINUTES)
    return min(max(least, min(most, TRACK_OF_SQUARE * panel.grid)), MOST_OF_SQUARE * panel.grid)
