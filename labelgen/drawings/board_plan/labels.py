"""What is written on the plan of a board, and where: ids large, names small, how many wires a bundle holds.

Places are found once, as seen from above; from below each text stands in the mirror image of its place, so that both
views say the same. Millimetres on paper.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from labelgen.drawings.board_plan.cells import INK
from labelgen.drawings.board_plan.marks import FRONT, WIRES, reach_of, thickness
from labelgen.drawings.board_plan.placing import Placed, Places, line_to
from labelgen.drawings.board_plan.runs import Bundles, Run
from labelgen.drawings.board_plan.things import PlacedStrip, Thing
from labelgen.drawings.board_plan.view import View
from labelgen.drawings.clearances import Area, Around, Obstacle, Stroke, disc
from labelgen.drawings.number_placing import middle_of
from labelgen.drawings.text_fitting import Fitted, fit
from labelgen.lengths import Point, Rectangle
from labelgen.model.drawing import Box, Line, Shape
from labelgen.standards.legibility import HEADS_READ_AT_MM, LEAST_MINUTES, PREFERRED_MINUTES, cap_height
from labelgen.typefaces import REGULAR

ID_CAP = cap_height(HEADS_READ_AT_MM, PREFERRED_MINUTES)
SMALL_CAP = cap_height(HEADS_READ_AT_MM, LEAST_MINUTES)
LINE_GAP = 1.0
SAID = "#3d444d"
NEAR, FAR = 9.0, 45.0
"""How far from its thing a text may stand; beyond the first, a thin line leads to it."""
LEADER = "#6b7480"
PILL_HIGH, PILL_AIR, PILL_APART = 3.4, 0.9, 22.0
"""Two numbers of one bundle are at least so far apart, if they are the same."""
LEAST_RUN = 8.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """One label: its id, and what is said below it where there is room."""

    key: str
    at: Point
    reach: float
    id: Fitted
    more: tuple[Fitted, ...] = ()
    ahead: Point | None = None
    needed: bool = True
    """Where there is no room near it, a line leads to it; else it is left out."""
    longest: float = 0.0
    """How far the thing reaches beyond `reach`, of one that is longer than it is deep."""

    def lines(self, form: int) -> tuple[Fitted, ...]:
        return (self.id, *self.more) if form == 0 else (self.id,)

    def sizes(self) -> tuple[tuple[float, float], ...]:
        return tuple(_size(self.lines(form)) for form in range(2 if self.more else 1))


@dataclass(frozen=True, slots=True, kw_only=True)
class Pill:
    """How many wires a run holds."""

    at: Point
    text: Fitted

    @property
    def area(self) -> Rectangle:
        width = max(PILL_HIGH, self.text.width + 2 * PILL_AIR)
        return Rectangle(self.at.x - width / 2, self.at.y - PILL_HIGH / 2, width, PILL_HIGH)


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """All texts of a plan in their places, as seen from above."""

    words: Mapping[str, Words]
    places: Mapping[str, Placed]
    pills: tuple[Pill, ...]
    left_out: tuple[Words, ...]
    """What found no room."""

    def shapes(self, view: View) -> Iterator[Shape]:
        for key, found in self.places.items():
            if found.led:
                yield _leader(self.words[key].at, found.place, view)
        for pill in self.pills:
            area = view.box(pill.area)
            yield Box(
                x=area.x,
                y=area.y,
                width=area.width,
                height=area.height,
                fill="#ffffff",
                stroke=WIRES,
                stroke_width=0.3,
                radius=PILL_HIGH / 2 - 0.01,
            )
            at = middle_of(area)
            yield pill.text.at(at.x, at.y + pill.text.cap / 2, anchor="middle", colour=SAID)
        for key, found in self.places.items():
            yield from _set(self.words[key], found, view)


def fixed(text: str, cap: float, face: str) -> Fitted:
    """A text at that very height."""
    fitted = fit(text, width=10_000, largest=cap, smallest=cap, face=face)
    assert fitted is not None
    return fitted


def written(wanted: Sequence[Words], bundles: Bundles, solid: list[Obstacle], view: View, cap: float) -> Written:
    """Each in its place, clear of what is solid; the first ones have the first choice. `cap`: of the numbers."""
    wires = [Stroke(start=run.start, end=run.end, reach=thickness(run.wires) / 2, what="") for run in bundles.runs]
    inside = Rectangle(0, 0, view.width, view.height - FRONT).inset(0.8)
    pills = _pills(bundles, solid, wires, inside, cap)
    solid = solid + [Area(rectangle=pill.area, what="") for pill in pills]
    finding = Places(solid, wires, [one.at for one in wanted], inside)
    places: dict[str, Placed] = {}
    for one in wanted:
        far = FAR if one.needed else 0
        found = finding.place(one.at, one.reach + 0.6, one.sizes(), near=NEAR + one.longest, far=far, ahead=one.ahead)
        places |= {one.key: found} if found is not None else {}
    return Written(
        words={one.key: one for one in wanted},
        places=places,
        pills=tuple(pills),
        left_out=tuple(one for one in wanted if one.key not in places and one.needed),
    )


def obstacles(things: Sequence[Thing], strips: Sequence[PlacedStrip], view: View) -> list[Obstacle]:
    found: list[Obstacle] = [Area(rectangle=view.area_on_paper(strip.body).inset(-0.9), what="") for strip in strips]
    others = (thing for thing in things if thing.kind != "strip")
    return found + [disc(view.on_paper(one.at), reach_of(one, view.scale) + 0.2, "") for one in others]


def _size(lines: Sequence[Fitted]) -> tuple[float, float]:
    height = lines[0].above + sum(line.cap + LINE_GAP for line in lines[1:]) + lines[-1].below
    return max(line.width for line in lines), height


def _set(one: Words, found: Placed, view: View) -> Iterator[Shape]:
    """Towards its spot where it stands beside it, else in the middle."""
    place, spot = view.box(found.place), view.point(one.at)
    lines = one.lines(0 if found.form == 0 else 1)
    if place.x > spot.x:
        x, anchor = place.x, "start"
    elif place.right < spot.x:
        x, anchor = place.right, "end"
    else:
        x, anchor = place.x + place.width / 2, "middle"
    y = place.y + lines[0].above
    yield lines[0].at(x, y, anchor=anchor, colour=INK)
    for line in lines[1:]:
        y += line.cap + LINE_GAP
        yield line.at(x, y, anchor=anchor, colour=SAID)


def _leader(spot: Point, place: Rectangle, view: View) -> Line:
    stroke = line_to(spot, place)
    (x1, y1), (x2, y2) = view.corners((stroke.start, stroke.end))
    return Line(x1=x1, y1=y1, x2=x2, y2=y2, width=0.2, colour=LEADER)


def _pills(
    bundles: Bundles, solid: Sequence[Obstacle], wires: Sequence[Stroke], inside: Rectangle, cap: float
) -> list[Pill]:
    """On the longest runs first, where they hide nothing; a thin line without a number is one wire."""
    found: list[Pill] = []
    there, pills = Around(solid), Around()
    across = {axis: Around(wire for wire in wires if _is_across(wire) == axis) for axis in (True, False)}
    said: dict[int, Around] = {}
    for run in sorted(bundles.runs, key=lambda run: (-run.length, run.start.x, run.start.y)):
        if run.wires < 2 or run.length < LEAST_RUN:
            continue
        same = said.setdefault(run.wires, Around())
        for share in (1 / 2, 1 / 3, 2 / 3, 1 / 5, 4 / 5):
            along = run.end - run.start
            at = Point(run.start.x + along.x * share, run.start.y + along.y * share)
            pill = Pill(at=at, text=fixed(str(run.wires), cap, REGULAR))
            area = pill.area
            lies_across = run.start.y == run.end.y
            free = inside.contains(area) and there.clear(area, 0.5) and pills.clear(area, 2.0)
            if free and same.clear(area, PILL_APART) and _alone(area, run, across, lies_across=lies_across):
                found.append(pill)
                pills.add(Area(rectangle=area, what=""))
                same.add(Area(rectangle=area, what=""))
                break
    return found


def _alone(area: Rectangle, run: Run, across: Mapping[bool, Around], *, lies_across: bool) -> bool:
    """No other wires pass below the number: none that cross, and none beside its own run."""
    half = thickness(run.wires) / 2 + 0.05
    if lies_across:
        beside = [Rectangle(area.x, area.y, area.width, max(run.start.y - half - area.y, 0))]
        beside.append(Rectangle(area.x, run.start.y + half, area.width, max(area.bottom - run.start.y - half, 0)))
    else:
        beside = [Rectangle(area.x, area.y, max(run.start.x - half - area.x, 0), area.height)]
        beside.append(Rectangle(run.start.x + half, area.y, max(area.right - run.start.x - half, 0), area.height))
    return across[not lies_across].clear(area, 0.3) and all(across[lies_across].clear(one, 0.001) for one in beside)


def _is_across(wire: Stroke) -> bool:
    return wire.start.y == wire.end.y
