"""What flags ask to be bought besides wire: clear sleeves by bore, and labels with a clear tail."""

from collections.abc import Iterable
from dataclasses import dataclass
from math import pi

from labelgen.drawings.flags.sleeve_flags import sleeve_drawings
from labelgen.model.description import Description
from labelgen.model.drawing import Drawing
from labelgen.model.look import Look
from labelgen.model.netlist import Netlist
from labelgen.standards.sleeves import bore_for

OVER_MM = 2.0
"""How far a clear sleeve reaches beyond its slip at each end, so that it holds on to the wire. Common practice, no
source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SleevesToBuy:
    """Clear sleeves of one bore. Lengths in mm, to which they are cut."""

    bore: float
    pieces: int
    shortest: float
    longest: float
    total: float


def sleeves_to_buy(description: Description, netlist: Netlist, look: Look) -> list[SleevesToBuy]:
    """Thin ones first."""
    drawings, _ = sleeve_drawings(description, netlist, look)
    by_bore: dict[float, list[float]] = {}
    for bore, length in _cuts(drawings):
        by_bore.setdefault(bore, []).append(length)
    return [
        SleevesToBuy(bore=bore, pieces=len(cuts), shortest=min(cuts), longest=max(cuts), total=sum(cuts))
        for bore, cuts in sorted(by_bore.items())
    ]


def _cuts(drawings: Iterable[Drawing]) -> Iterable[tuple[float, float]]:
    """A slip is as high as its wire is around."""
    for drawing in drawings:
        bore = bore_for(drawing.height / pi)
        if bore is not None:
            yield bore, drawing.width + 2 * OVER_MM


def wraps_to_buy(netlist: Netlist) -> int:
    """Self-laminating labels: one for each end."""
    return 2 * sum(wire.flag_form == "wrap" and not wire.link for wire in netlist.wires)
