"""Where the contacts of a part lie behind a panel, as it is seen from there. Millimetres from the middle, y down.

Common practice, from memory, and the same on nearly every toggle: the handle and its contact are the two ends of a
seesaw, so a handle that points up closes the lower tab. The middle tab is the arm. A changeover's two poles stand side
by side; its supply comes to the tabs that are closed in normal, and two crossed jumpers take it to the others.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import cos, hypot, pi, sin

from labelgen.lengths import Point
from labelgen.model.panel.hardware import Hardware
from labelgen.model.panel.routes import FEED

_FIRST_ANGLE = 3 * pi / 4
"""Of contacts whose tabs are not known: the first is drawn at the lower left."""
_RING = 0.36
"""Of the body's smaller side: the ring on which they are drawn."""
MINUS = "\N{MINUS SIGN}"
ARMS = ("F", "F1", "F2")


@dataclass(frozen=True, slots=True, kw_only=True)
class Tab:
    contact: str
    at: Point
    known: bool = True
    """False: somewhere on the part, which the builder has to find with a meter."""


def tabs_of(part: Hardware, contacts: Sequence[str], normal: str = "up") -> list[Tab]:
    """A tab for each contact, where it is when the handle is normal at `normal`: up, down, left, right on the face."""
    places = {**part.tabs, **_of_a_button(part, contacts)}
    known = {c: _turned(_closed_side(part, Point(*places[c])), normal) for c in contacts if c in places}
    guessed = _spread(part, [contact for contact in contacts if contact not in known], tuple(known.values()))
    return [Tab(contact=c, at=known[c]) if c in known else Tab(contact=c, at=guessed[c], known=False) for c in contacts]


def jumpers(tabs: Iterable[Tab]) -> list[tuple[Tab, Point]]:
    """The crossed jumpers of a changeover: from the tab where the supply comes in, to the free one across."""
    by_contact = {tab.contact: tab for tab in tabs}
    if not all(c in by_contact and by_contact[c].known for c in "ABPM"):
        return []
    a, b = by_contact["A"].at, by_contact["B"].at
    return [(by_contact[c], Point(a.x + b.x, a.y + b.y) - by_contact[c].at) for c in "PM"]


def tab_words(tab: Tab) -> str:
    """Where on the part it is: lower left."""
    if not tab.known:
        return "?"
    down = "lower" if tab.at.y > _HAIR else "upper" if tab.at.y < -_HAIR else ""
    along = "right" if tab.at.x > _HAIR else "left" if tab.at.x < -_HAIR else ""
    return " ".join(word for word in (down, along) if word) or "middle"


def nearest(places: Sequence[Point]) -> float:
    """The least distance between two of them; a large one where there are no two."""
    pairs = [hypot(a.x - b.x, a.y - b.y) for i, a in enumerate(places) for b in places[:i]]
    return min(pairs, default=99.0)


_HAIR = 0.05


def _of_a_button(part: Hardware, contacts: Sequence[str]) -> dict[str, tuple[float, float]]:
    """A button with a feed and one contact has them at its two tabs; a stud just the contact."""
    others = [contact for contact in contacts if contact != FEED]
    if len(others) != 1 or part.use not in ("button", "stud"):
        return {}
    if part.use == "stud":
        return {others[0]: (0.0, 0.0)}
    return {FEED: part.tabs["1"], others[0]: part.tabs["2"]} if "1" in part.tabs and FEED in contacts else {}


def _closed_side(part: Hardware, at: Point) -> Point:
    return Point(at.x, -at.y) if part.turned == "same" else at


def _turned(at: Point, normal: str) -> Point:
    """From `up` to where the handle is normal; the first pole stays at the left, or on top.

    A handle that is to the left on the face is to the right behind it.
    """
    turned = {"down": Point(at.x, -at.y), "left": Point(-at.y, at.x), "right": Point(at.y, at.x)}
    return turned.get(normal, at)


def _spread(part: Hardware, contacts: Sequence[str], taken: Sequence[Point]) -> dict[str, Point]:
    """Arms in the middle, the others on a ring, against the clock: of a rotary switch the way it turns, from behind."""
    arms = [contact for contact in contacts if contact in ARMS] if not taken else []
    others = [contact for contact in contacts if contact not in arms]
    radius = _RING * min(part.body)
    found = {arm: Point((i - (len(arms) - 1) / 2) * radius * 0.8, 0) for i, arm in enumerate(arms)}
    for index, contact in enumerate(others):
        angle = _FIRST_ANGLE - 2 * pi * index / len(others)
        found[contact] = Point(radius * cos(angle), radius * sin(angle))
    return found
