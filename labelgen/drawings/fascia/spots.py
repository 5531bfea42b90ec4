"""Sets the texts of a fascia that look for a place beside a spot: all of a kind in one size, each clear of the rest."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from itertools import product

from labelgen.drawings.ambiguous_numbers import needs_underline
from labelgen.drawings.fascia.texts import Block, forms, number
from labelgen.drawings.fascia.writing import Writing
from labelgen.drawings.number_placing import Blocked, Found, Stands, Wanted, place_all
from labelgen.lengths import Point, Rectangle
from labelgen.places import Path

NAMES_APART_MM = 2.4
"""Names of two levers that stand closer above each other read as two lines of one."""
FAR_MM = 4.0
"""A name further from its lever than this is left out: nobody would say what it belongs to."""

Numbers = dict[str, Rectangle]
"""Lever, or what it works elsewhere: the number there, from top to baseline."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """One text that looks for a place beside a spot."""

    key: str
    what: str
    """In the builder's words."""
    text: str
    spot: Point
    reach: float
    path: Path
    beside: Rectangle | None = None
    ahead: Point | None = None
    """Where a text stands best: straight on from its spot, in this direction."""
    stands: Stands = "around"


Setter = Callable[[Label, float], tuple[Block, ...]]


def names_of(label: Label, cap: float) -> tuple[Block, ...]:
    return forms(label.text, cap)


def numbers_of(labels: Sequence[Label]) -> Setter:
    """Numbers that leave room for an underline as soon as one of them has it, so that all stand on one height."""
    foot = any(needs_underline(label.text) for label in labels)

    def setter(label: Label, cap: float) -> tuple[Block, ...]:
        return (number(label.text, cap, underlined=needs_underline(label.text), foot=foot),)

    return setter


def write_one_size(
    writing: Writing,
    labels: Sequence[Label],
    caps: Sequence[float],
    setter: Setter,
    *,
    colour: str,
    furthest: float = 10.0,
    needed: bool = True,
    lines_apart: float = 0.0,
    words_apart: float = 0.0,
) -> dict[str, tuple[Block, Rectangle]]:
    """All labels at the largest size at which every one finds a place; else at that at which the most do.

    What is `needed` comes closer to other texts, before it is left out.
    """
    labels = [label for label in labels if label.text]
    tried: list[tuple[dict[str, tuple[Block, ...]], dict[str, Found], list[Blocked]]] = []
    gaps = (words_apart, 0.0) if words_apart and needed else (words_apart,)
    for apart, cap in product(gaps, caps):
        blocks = {label.key: setter(label, cap) for label in labels}
        wanted = [_wanted(label, blocks[label.key], furthest) for label in labels]
        plan = writing.plan
        found = place_all(
            wanted, writing.obstacles, plan.spots, plan.inside,
            lines_apart=lines_apart, strange=writing.texts if apart else (), words_apart=apart,
        )  # fmt: skip
        tried.append((blocks, *found))
        if not tried[-1][2]:
            break
    blocks, placed, blocked = min(tried, key=lambda one: len(one[2]))
    by_key = {label.key: label for label in labels}
    if needed:
        for one in blocked:
            writing.no_room(by_key[one.key].what, by_key[one.key].path, one.by)
    written = {key: (blocks[key][found.form], found.place) for key, found in placed.items()}
    for key, (block, place) in written.items():
        writing.write(block, place, colour=colour, what=by_key[key].what)
    return written


def _wanted(label: Label, blocks: Sequence[Block], furthest: float) -> Wanted:
    return Wanted(
        key=label.key,
        spot=label.spot,
        reach=label.reach,
        sizes=tuple(block.size for block in blocks),
        furthest=furthest,
        beside=label.beside,
        ahead=label.ahead,
        drop=blocks[0].drop,
        stands=label.stands,
    )


def to_baseline(placed: Mapping[str, tuple[Block, Rectangle]]) -> Numbers:
    return {
        key: Rectangle(place.x, place.y, place.width, place.height - block.drop)
        for key, (block, place) in placed.items()
    }
