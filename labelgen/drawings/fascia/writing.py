"""What is written on a fascia so far, and what the next text must keep clear of."""

from collections.abc import Iterator
from dataclasses import dataclass, field

from labelgen.drawings.clearances import Area, Obstacle, is_clear
from labelgen.drawings.fascia.holes import ring_obstacles
from labelgen.drawings.fascia.plan import FasciaPlan
from labelgen.drawings.fascia.style import NAME_CAP_MM, SMALL_CAP_MM, at_distance
from labelgen.drawings.fascia.texts import Block, forms
from labelgen.drawings.lettering import Lettering
from labelgen.drawings.number_placing import CLEAR_MM, with_margin
from labelgen.drawings.text_fitting import stacked
from labelgen.lengths import Point, Rectangle
from labelgen.model.drawing import Shape
from labelgen.places import Path
from labelgen.problems import Problem
from labelgen.typefaces import REGULAR

_SMALLER = 0.94
_HINT = "Give it more room: move it or what is beside it, or make the panel (`size`) or its squares (`grid`) larger."
NO_ROOM = "text-does-not-fit"


def no_room_hint(size: str) -> str:
    """`size`: what would do, "" when nothing that is twice as large does."""
    if size:
        return f"{size}; or give it more room where it is: move it or what is beside it."
    return "Give it more room: move it or what is beside it. A panel twice as large would not do by itself."


@dataclass(slots=True)
class Writing:
    """Gathers shapes and problems: text-does-not-fit, character-missing."""

    plan: FasciaPlan
    shapes: list[Shape] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)
    obstacles: list[Obstacle] = field(default_factory=list)
    texts: list[Area] = field(default_factory=list)
    """Those of the obstacles that are written."""

    def __post_init__(self) -> None:
        self.obstacles += ring_obstacles(self.plan)

    def write(self, block: Block, place: Rectangle, *, colour: str, what: str, anchor: str = "middle") -> None:
        """Draws a block in its place; later texts keep clear of it."""
        self.shapes += block.shapes(place, colour, anchor)
        self.texts.append(Area(rectangle=with_margin(place), what=what))
        self.obstacles.append(self.texts[-1])

    def known(self, text: str, path: Path, face: str = REGULAR) -> str:
        """The text without what no typeface can show, in one line."""
        place = self.plan.description.place_of_key(*path)
        lettering = Lettering(label=self.plan.name, place=place, look=self.plan.look, hint=_HINT)
        shown = lettering.known(" ".join(text.split()), face)
        self.problems += lettering.problems
        return shown

    def caps(self, largest: float, smallest: float) -> list[float]:
        """Cap heights to try, in mm, none below what the builder wants; given are those for `READ_AT_MM`."""
        largest, smallest = (at_distance(self.plan.panel, cap) for cap in (largest, smallest))
        smallest = max(smallest, self.plan.look.smallest_cap)
        found = [max(largest, smallest)]
        while found[-1] * _SMALLER > smallest:
            found.append(found[-1] * _SMALLER)
        return [*found, smallest] if found[-1] > smallest else found

    def no_room(self, what: str, path: Path, by: tuple[str, ...] = ()) -> None:
        """text-does-not-fit, with what is too close."""
        close = f": too close are {', '.join(by)}" if by else ""
        self.problems.append(
            Problem(
                code=NO_ROOM,
                message=f"{what} finds no place on the {self.plan.name}{close}",
                hint=_HINT,
                place=self.plan.description.place_of_key(*path),
            )
        )


def write_texts(writing: Writing) -> None:
    """The builder's texts, in the middle of their places, as large as they may be there."""
    plan = writing.plan
    fixed = [o for o in writing.obstacles if not (isinstance(o, Area) and o.what.startswith("platform "))]
    for text, at in plan.panel.texts.items():
        path = ("panels", plan.id, "texts", text)
        middle = Point(at[0] * plan.panel.grid, at[1] * plan.panel.grid)
        if not Rectangle(0, 0, plan.width, plan.height).contains(Rectangle(middle.x, middle.y, 0, 0)):
            continue  # off-panel has been said
        known = writing.known(text, path)
        for cap in writing.caps(NAME_CAP_MM, SMALL_CAP_MM) if known else ():
            block = forms(known, cap)[0]
            place = block.around(middle.x, middle.y)
            if plan.inside.contains(place) and is_clear(place, fixed, CLEAR_MM / 2):
                writing.write(block, place, colour=plan.style.soft, what=f"the text {text!r}")
                fixed.append(writing.obstacles[-1])
                break
        else:
            writing.no_room(f"the text {text!r}", path)


def write_platform_names(writing: Writing) -> None:
    """Each in its box, level or else upwards, moved along it when something is in the middle."""
    plan = writing.plan
    fixed = [o for o in writing.obstacles if not (isinstance(o, Area) and o.what.startswith("platform "))]
    for name, box in plan.platforms.items():
        path = ("panels", plan.id, "platforms", name)
        known = writing.known(name, path)
        for block, place, turn in _in_a_box(writing, known, box.inset(CLEAR_MM)) if known else ():
            if is_clear(place, fixed, CLEAR_MM / 2):
                writing.shapes += stacked(block.lines, place, colour=plan.style.soft, turn=turn)
                break
        else:
            writing.no_room(f"the name of platform {name!r}", path)


def _in_a_box(writing: Writing, text: str, room: Rectangle) -> Iterator[tuple[Block, Rectangle, float]]:
    """Every way to set a text in a box, the best first: level, large, in the middle."""
    for turn in (0, -90):
        for cap in writing.caps(NAME_CAP_MM, SMALL_CAP_MM):
            for block in forms(text, cap):
                width, height = block.size if turn == 0 else block.size[::-1]
                for place in _along(room, width, height):
                    yield block, place, turn


def _along(room: Rectangle, width: float, height: float) -> Iterator[Rectangle]:
    """Places along the middle of a room, from its middle outwards, 1 mm apart."""
    spare_x, spare_y = (room.width - width) / 2, (room.height - height) / 2
    if min(spare_x, spare_y) < 0:
        return
    level = room.width >= room.height
    for step in range(int(spare_x if level else spare_y) + 1):
        for way in (1, -1) if step else (1,):
            x, y = (step * way, 0) if level else (0, step * way)
            yield Rectangle(room.x + spare_x + x, room.y + spare_y + y, width, height)
