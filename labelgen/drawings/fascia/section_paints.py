"""How sections are told apart on a fascia: by colour, or for a black-and-white printer by the form of the line."""

from collections.abc import Sequence
from dataclasses import dataclass

from labelgen.model.look import Look
from labelgen.model.panel.form import Panel
from labelgen.model.tracks.neighbour_colouring import spread
from labelgen.model.tracks.sections import TrackSections

ON_LIGHT = ("#02272B", "#8D0606", "#498EF1", "#829704", "#612898", "#C66183")
"""Any two differ by at least 21 (CIEDE2000), to normal eyes and to simulated colour-blind ones (protan and deutan by
Machado 2009 and Viénot 1999, tritan by Brettel 1997), and each has a contrast of 3 : 1 or more with white paper (WCAG
2.1, 1.4.11). Found by search."""
ON_DARK = ("#CCF4D2", "#EB926D", "#61B0F2", "#FFF467", "#A9A7A9", "#29FFFF")
"""The same on slate, by at least 17."""
CORES = ("", "hollow", "dashed", "dotted", "ruled", "ticked")
"""What runs along the middle of a black line, in the colour of the ground: nothing at first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Paint:
    colour: str
    core: str = ""
    """One of `CORES`."""


def section_paints(panel: Panel, look: Look, sections: TrackSections, track: str) -> tuple[Paint, ...]:
    """How each stretch of track is drawn: all alike unless the panel asks; else neighbours always differ."""
    if not panel.section_colours:
        return (Paint(colour=track),) * len(sections.stretches)
    colours: Sequence[str] = (track,) if look.mono else ON_DARK if panel.style == "dark" else ON_LIGHT
    chosen = spread(len(sections.stretches), sections.neighbours, len(CORES) if look.mono else len(colours))
    return tuple(_paint(number, colours) for number in chosen)


def _paint(number: int, colours: Sequence[str]) -> Paint:
    """Past the last colour the same colours come again with a core, past the last core they begin again."""
    core = CORES[number // len(colours) % len(CORES)]
    return Paint(colour=colours[number % len(colours)], core=core)
