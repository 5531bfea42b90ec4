"""Sizes of paper, and how far a sheet may be from them.

A sizes: ISO 216:2007, table 1. Letter and tabloid: ANSI/ASME Y14.1, sizes A and B, 8.5 in by 11 in and
11 in by 17 in.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Paper:
    """One size of paper, upright, in mm."""

    id: str
    shown: str
    width: float
    height: float
    source: str


PAPERS = {
    paper.id: paper
    for paper in (
        Paper(id="a1", shown="A1", width=594, height=841, source="ISO 216"),
        Paper(id="a2", shown="A2", width=420, height=594, source="ISO 216"),
        Paper(id="a3", shown="A3", width=297, height=420, source="ISO 216"),
        Paper(id="a4", shown="A4", width=210, height=297, source="ISO 216"),
        Paper(id="a5", shown="A5", width=148, height=210, source="ISO 216"),
        Paper(
            id="letter",
            shown="US Letter",
            width=215.9,
            height=279.4,
            source="ANSI/ASME Y14.1",
        ),
        Paper(id="tabloid", shown="US Tabloid", width=279.4, height=431.8, source="ANSI/ASME Y14.1"),
    )
}


def side_tolerance(side_mm: float) -> float:
    """How many mm a side of a sheet may be longer or shorter (ISO 216, clause on tolerances)."""
    if side_mm <= 150:
        return 1.5
    return 2.0 if side_mm <= 600 else 3.0
