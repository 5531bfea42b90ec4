"""The markers of a strip or a plug, and the pieces into which one is cut that is longer than the paper."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from labelgen.drawings.lettering import Lettering
from labelgen.drawings.markers.bridges import Bridge, bridges
from labelgen.drawings.markers.cells import HEAD_CAP, head_room, height_of
from labelgen.drawings.markers.holes import ear_mm, inner_holes
from labelgen.drawings.markers.meter_sign import METER_WORDS
from labelgen.drawings.markers.reading import Reading, reading
from labelgen.drawings.markers.tab import Tab, tab
from labelgen.drawings.markers.upright import higher_by
from labelgen.model.description import Description
from labelgen.model.look import Look
from labelgen.model.netlist import Side, StripPlan, WayPlan
from labelgen.places import Path

GROWS_FROM = 1.5
"""mm of cap height: a marker grows with what the builder asks for beyond that."""
MOST_HIGHER = 4.0
"""mm that one of 10 mm is higher at most, where heads run upwards."""
SWAP_WORDS = "⇄ swap if it shorts"
SIDES = ((Side.PANEL, "to panel"), (Side.LAYOUT, "to layout"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One marker, or one of the pieces of a long one."""

    strip: StripPlan
    side: Side
    side_words: str
    """Which of the strip's markers it is."""
    reading: Reading
    row: Sequence[WayPlan]
    """All ways that stand side by side, from the low end on."""
    path: Path
    """Of what it is for."""
    word: str = "marker"
    extras: tuple[str, ...] = ()
    """What the tab of the first piece says besides."""
    first: int = 0
    count: int = 0
    """Which of the row's ways this piece has: the first, from 0, and how many."""
    number: int = 0
    of: int = 1
    higher: float = 0.0
    """mm that the marker is higher than the usual one, for heads that run upwards."""

    @property
    def ways(self) -> Sequence[WayPlan]:
        return self.row[self.first : self.first + self.count]

    @property
    def name(self) -> str:
        return f"{self.word} {self.strip.shown} {self.side_words}" + ("" if self.of == 1 else f", {self.span}")

    @property
    def span(self) -> str:
        first, last = self.ways[0].number, self.ways[-1].number
        what = "pin" if self.path[0] == "plugs" else "way"
        return f"{what} {first}" if first == last else f"{what}s {first}–{last}"

    @property
    def in_between(self) -> bool:
        """A piece with neighbours at both ends."""
        return 0 < self.number < self.of - 1

    @property
    def tab_at_left(self) -> bool:
        """At the strip's low end; the last of several pieces has it at the high end, so that pieces meet."""
        at_high_end = 0 < self.number == self.of - 1
        return self.reading.rising != at_high_end

    @property
    def length(self) -> float:
        """Of its ways, mm."""
        return len(self.ways) * self.strip.pitch

    @property
    def bridges(self) -> tuple[Bridge, ...]:
        """Of its row: what is joined to another row keeps its dots, and the tab says the rest."""
        here = {way.number for way in self.row}
        parts = (tuple(way for way in ways if way in here) for ways in self.strip.bridges)
        return bridges([part for part in parts if part])

    def height(self, scale: float) -> float:
        """Mm."""
        return height_of(self.bridges, self.higher, scale)

    @property
    def ears(self) -> tuple[float, float]:
        """Left and right of its ways, mm, for fixing holes beyond the first and the last way of all."""
        ear = ear_mm(self.strip, len(self.row))
        low, high = (ear if self.number == 0 else 0.0), (ear if self.number == self.of - 1 else 0.0)
        return (low, high) if self.reading.rising else (high, low)

    @property
    def holes(self) -> tuple[float, ...]:
        """Fixing holes among its ways: how far from their left end, mm."""
        low = [x - self.first * self.strip.pitch for x in inner_holes(self.strip, len(self.row))]
        here = [x for x in low if 0 <= x <= self.length]
        return tuple(here if self.reading.rising else [self.length - x for x in here])


def whole_markers(strip: StripPlan, look: Look) -> tuple[Piece, ...]:
    """The panel side's and the layout side's marker of each of its rows, in one piece each."""
    count = len(strip.ways) // strip.tiers
    return tuple(
        Piece(
            strip=strip, side=side, side_words=words + (f", row {tier + 1}" if strip.tiers > 1 else ""),
            reading=reading(strip, side, same_way_up=look.same_way_up), path=("strips", strip.id),
            row=strip.ways[tier * count : (tier + 1) * count], count=count,
            extras=_said_once(strip) if tier == 0 else _between_rows(strip),
        )
        for tier in range(strip.tiers) for side, words in SIDES
    )  # fmt: skip


def _said_once(strip: StripPlan) -> tuple[str, ...]:
    supplies = [", ".join(strip.supplies)] if strip.supplies else []
    pitch = [] if strip.measured else [f"check pitch {strip.pitch:g}"]
    return (*supplies, *pitch, *_between_rows(strip))


def _between_rows(strip: StripPlan) -> tuple[str, ...]:
    """Bridges from one row to another, which no bar can show."""
    count = len(strip.ways) // strip.tiers
    across = [ways for ways in strip.bridges if len({(way - 1) // count for way in ways}) > 1]
    return tuple(f"bridge {' + '.join(map(str, ways))}" for ways in across)


def pieces(whole: Piece, most: int) -> list[Piece]:
    """Pieces of at most that many ways, as even as can be."""
    count = -(-len(whole.row) // most)
    bounds = [round(index * len(whole.row) / count) for index in range(count + 1)]
    return [
        replace(whole, first=start, count=end - start, number=number, of=count)
        for number, (start, end) in enumerate(pairwise(bounds))
    ]


def most_ways(whole_ones: Sequence[Piece], lettering: Lettering, longest: float, look: Look) -> int:
    """How many ways one piece can have beside its tab on that length of paper; 0: not even one."""
    whole = whole_ones[0]
    ear = max(whole.ears)
    uncut = max(tab_of(lettering, piece, look).width for piece in whole_ones)
    if whole.length + uncut + 2 * ear <= longest:
        return len(whole.row)
    cut = max(tab_of(lettering, replace(piece, of=2), look).width for piece in whole_ones)
    return max(0, int((longest - cut - ear) / whole.strip.pitch + 1e-9))


def letters(description: Description, piece: Piece, look: Look) -> Lettering:
    return Lettering(
        label=piece.name, place=description.place_of_key(*piece.path), look=look,
        hint="Give it a shorter name or `shown:`, or ask for smaller text with `printing: smallest_text`.",
    )  # fmt: skip


def higher_of(piece: Piece, look: Look) -> float:
    """By how many mm a whole marker is higher than the usual one."""
    scale = scale_of(look)
    heads = [way.head for way in piece.row if way.state == "used"]
    cell, largest = head_room(piece.strip.pitch, scale), max(HEAD_CAP * scale, look.smallest_cap)
    return higher_by(heads, cell, look, largest=largest, most=MOST_HIGHER * scale)


def scale_of(look: Look) -> float:
    """1 for the usual marker, 10 mm high; more where the builder asks for larger text."""
    return max(1.0, look.smallest_cap / GROWS_FROM)


def tab_of(lettering: Lettering, piece: Piece, look: Look) -> Tab:
    """The first piece says all there is to say; the others which ways they hold."""
    scale = scale_of(look)
    extras = [] if piece.of == 1 else [piece.span]
    extras += piece.extras if piece.number == 0 else ()
    extras += [SWAP_WORDS] if any(way.swap_with for way in piece.ways) else []
    extras += [METER_WORDS] if any(way.test for way in piece.ways) else []
    return tab(
        lettering, title=piece.strip.shown, side=piece.side_words, extras=extras,
        height=piece.height(scale), scale=scale, front=piece.reading.front if piece.number == 0 else None,
    )  # fmt: skip
