"""How parts, tabs, jumpers and the wires between them look on a back sheet. Millimetres."""

from collections.abc import Iterator, Sequence
from math import hypot

from labelgen.drawings.back.parts import BackPart, Contact
from labelgen.drawings.back.placing import NUMBER_GAP_MM, NUMBER_MM, Laid, tab_radius
from labelgen.drawings.back.tabs import MINUS
from labelgen.drawings.text_fitting import fit
from labelgen.lengths import Point
from labelgen.model.drawing import Box, Circle, Line, Outline, Shape
from labelgen.model.look import Look
from labelgen.standards.colour_letters import COLOURS, letters_of
from labelgen.typefaces import BOLD, REGULAR

INK, SOFT, BODY, EDGE = "#000000", "#6B6B6B", "#F1F1EE", "#8C8C8C"
TRIM_MM, LEADER_MM, TAB_MM = 0.2, 0.18, 0.22
TAB_CAP = 1.5
LINK_OFF_MM = 3.4
GUESSED = "#D9D9D4"
"""Of a tab whose place on the part is not known."""


def edge_shapes(width: float, height: float) -> Iterator[Shape]:
    """The outer edge of the line is the panel's edge."""
    inner_width, inner_height = width - TRIM_MM, height - TRIM_MM
    yield Box(x=TRIM_MM / 2, y=TRIM_MM / 2, width=inner_width, height=inner_height, stroke=EDGE, stroke_width=TRIM_MM)


def part_shapes(part: BackPart) -> Iterator[Shape]:
    """Its body, its hole (hidden by it, therefore thin), its number above."""
    body = part.body
    if part.hole.part is not None:
        fill, radius = BODY, min(0.6, body.width / 8)
        yield Box(
            x=body.x,
            y=body.y,
            width=body.width,
            height=body.height,
            fill=fill,
            stroke=SOFT,
            stroke_width=0.2,
            radius=radius,
        )
        if part.hole.part.slot is not None:
            w, h = part.hole.part.slot
            yield Box(x=part.at.x - w / 2, y=part.at.y - h / 2, width=w, height=h, stroke=EDGE, stroke_width=0.12)
    yield Circle(x=part.at.x, y=part.at.y, radius=part.hole.diameter / 2, stroke=EDGE, stroke_width=0.12)
    if part.hole.part is None:
        yield from _cross(part)
    if part.short:
        number = fit(part.short, width=1000, largest=NUMBER_MM, smallest=NUMBER_MM, face=BOLD)
        assert number is not None  # there is room enough
        yield number.at(part.at.x, body.y - NUMBER_GAP_MM, anchor="middle")


def feed_links(parts: Sequence[BackPart]) -> Iterator[Shape]:
    """The bare links that carry a lever's feed from button to button, beside their tabs."""
    by_mark = {part.mark: part for part in parts}
    for part in parts:
        for other in (by_mark[c.joined] for c in part.contacts if c.joined in by_mark):
            a, b = (one.at + one.contacts[0].tab.at for one in (other, part))
            over = a.y + LINK_OFF_MM
            run = ((a.x, a.y), (a.x, over), (b.x, over), (b.x, b.y))
            yield Outline(runs=(run,), stroke=INK, stroke_width=0.5)


def tab_shapes(part: BackPart, look: Look) -> Iterator[Shape]:
    """Its jumpers and its tabs, each with its contact's letters where there is room for them."""
    yield from _jumpers(part)
    for contact in part.contacts:
        yield from _tab(part, contact, look)


def leader_shapes(part: BackPart, laid: Laid) -> Iterator[Shape]:
    """Thin lines from tabs to what is written of them, and a bar along the block."""
    radius = tab_radius(part)
    for start, end in laid.leaders:
        length = hypot(end.x - start.x, end.y - start.y)
        at_tab = any(hypot(part.at.x + t.at.x - start.x, part.at.y + t.at.y - start.y) < 0.01 for t in part.tabs)
        t = min(1.0, radius / length) if at_tab and length else 0.0
        a = Point(start.x + t * (end.x - start.x), start.y + t * (end.y - start.y))
        yield Line(x1=a.x, y1=a.y, x2=end.x, y2=end.y, width=LEADER_MM, colour=INK)
    place = laid.place
    bars = {
        "right": (place.x, place.y, place.x, place.bottom),
        "left": (place.right, place.y, place.right, place.bottom),
        "above": (place.x, place.bottom, place.right, place.bottom),
        "below": (place.x, place.y, place.right, place.y),
    }
    x1, y1, x2, y2 = bars[laid.side]
    yield Line(x1=x1, y1=y1, x2=x2, y2=y2, width=LEADER_MM, colour=INK)


def _cross(part: BackPart) -> Iterator[Shape]:
    arm = part.hole.diameter / 2
    for dx, dy in ((arm, 0.0), (0.0, arm)):
        yield Line(x1=part.at.x - dx, y1=part.at.y - dy, x2=part.at.x + dx, y2=part.at.y + dy, width=0.12, colour=EDGE)


def _jumpers(part: BackPart) -> Iterator[Shape]:
    """Bare tabs with the jumpers to them; the second passes over the first."""
    radius = tab_radius(part)
    pairs = part.jumpers()
    for tab, free in pairs:
        a, b = part.at + tab.at, part.at + free
        for width, paint in ((1.0, BODY), (0.5, INK)):
            yield Line(x1=a.x, y1=a.y, x2=b.x, y2=b.y, width=width, colour=paint)
    for _, free in pairs:
        at = part.at + free
        yield Circle(x=at.x, y=at.y, radius=radius * 0.6, fill="#FFFFFF", stroke=INK, stroke_width=TAB_MM)


def _tab(part: BackPart, contact: Contact, look: Look) -> Iterator[Shape]:
    tab, radius = contact.tab, tab_radius(part)
    at = part.at + tab.at
    fill, ink = ("#FFFFFF" if tab.known else GUESSED), INK
    if (lead := letters_of(contact.lead)) and not look.mono:
        fill, ink = COLOURS[lead[0]].paint, COLOURS[lead[0]].ink
    stroke = INK if contact.wires or part.hole.use == "lamp" else EDGE
    yield Circle(x=at.x, y=at.y, radius=radius, fill=fill, stroke=stroke, stroke_width=TAB_MM)
    cap = min(TAB_CAP, 1.15 * radius)
    face = BOLD if contact.wires else REGULAR
    letters = fit(tab.contact.replace("-", MINUS), width=1.75 * radius, largest=cap, smallest=min(cap, 1.0), face=face)
    if letters is not None:
        yield letters.at(at.x, at.y + letters.cap / 2, anchor="middle", colour=ink)
