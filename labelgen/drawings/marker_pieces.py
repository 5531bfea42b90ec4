"""A strip's two markers, and the pieces into which one is cut that is longer than the paper."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from labelgen.drawings.lettering import Lettering
from labelgen.drawings.marker_cells import height_of
from labelgen.drawings.marker_reading import Reading, reading
from labelgen.drawings.marker_tab import Tab, tab
from labelgen.model.description import Description
from labelgen.model.look import Look
from labelgen.model.netlist import Side, StripPlan, WayPlan

GROWS_FROM = 1.5
"""mm of cap height: a marker grows with what the builder asks for beyond that."""
SWAP_WORDS = "⇄ swap if it shorts"
SIDES = ((Side.PANEL, "to panel"), (Side.LAYOUT, "to layout"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One marker, or one of the pieces of a long one."""

    strip: StripPlan
    side: Side
    side_words: str
    reading: Reading
    ways: Sequence[WayPlan]
    number: int = 0
    of: int = 1

    @property
    def name(self) -> str:
        return f"marker {self.strip.shown} {self.side_words}" + ("" if self.of == 1 else f", {self.span}")

    @property
    def span(self) -> str:
        first, last = self.ways[0].number, self.ways[-1].number
        return f"way {first}" if first == last else f"ways {first}–{last}"

    @property
    def in_between(self) -> bool:
        """A piece with neighbours at both ends."""
        return 0 < self.number < self.of - 1

    @property
    def tab_at_left(self) -> bool:
        """At the strip's low end; the last of several pieces has it at the high end, so that pieces meet."""
        at_high_end = 0 < self.number == self.of - 1
        return self.reading.rising != at_high_end


def whole_markers(strip: StripPlan, look: Look) -> tuple[Piece, ...]:
    """The panel side's and the layout side's marker, in one piece each."""
    return tuple(
        Piece(
            strip=strip, side=side, side_words=words, ways=strip.ways,
            reading=reading(strip, side, same_way_up=look.same_way_up),
        )
        for side, words in SIDES
    )  # fmt: skip


def pieces(whole: Piece, most: int) -> list[Piece]:
    """Pieces of at most that many ways, as even as can be."""
    ways = whole.ways
    count = -(-len(ways) // most)
    bounds = [round(index * len(ways) / count) for index in range(count + 1)]
    return [
        replace(whole, ways=ways[start:end], number=number, of=count)
        for number, (start, end) in enumerate(pairwise(bounds))
    ]


def most_ways(whole_ones: Sequence[Piece], lettering: Lettering, longest: float, look: Look) -> int:
    """How many ways one piece can have beside its tab on that length of paper; 0: not even one."""
    strip = whole_ones[0].strip
    uncut = max(tab_of(lettering, piece, look).width for piece in whole_ones)
    if len(strip.ways) * strip.pitch + uncut <= longest:
        return len(strip.ways)
    cut = max(tab_of(lettering, replace(piece, of=2), look).width for piece in whole_ones)
    return max(0, int((longest - cut) / strip.pitch + 1e-9))


def letters(description: Description, piece: Piece, look: Look) -> Lettering:
    return Lettering(
        label=piece.name, place=description.place_of_key("strips", piece.strip.id), look=look,
        hint="Give it a shorter name or `shown:`, or ask for smaller text with `printing: smallest_text`.",
    )  # fmt: skip


def scale_of(look: Look) -> float:
    """1 for the usual marker, 10 mm high; more where the builder asks for larger text."""
    return max(1.0, look.smallest_cap / GROWS_FROM)


def tab_of(lettering: Lettering, piece: Piece, look: Look) -> Tab:
    """The first piece says all there is to say; the others which ways they hold."""
    strip, scale = piece.strip, scale_of(look)
    extras = [] if piece.of == 1 else [piece.span]
    if piece.number == 0:
        extras += [", ".join(strip.supplies)] if strip.supplies else []
        extras += [] if strip.measured else [f"check pitch {strip.pitch:g}"]
    extras += [SWAP_WORDS] if any(way.swap_with for way in piece.ways) else []
    return tab(
        lettering, title=strip.shown, side=piece.side_words, extras=extras, height=height_of(strip, scale), scale=scale,
        front=piece.reading.front if piece.number == 0 else None,
    )  # fmt: skip
