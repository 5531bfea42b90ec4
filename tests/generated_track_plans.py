"""Railways with one panel each, made by rule: yards, termini, junctions and loops, from 200 to 1200 mm wide.

The same number gives the same plan. Each is a whole description, to be read as any other.
"""

from dataclasses import dataclass, field
from itertools import count
from math import hypot
from random import Random

Place = tuple[float, float]

TOP = 4
"""Rows above the first track, for the title."""
APART = 3.0
"""Squares between two points: less, and two nuts would touch on the smallest grid."""
FEWEST = 3
NAMES = ("Goods yard", "Fish quay", "Coal drops", "Ice house", "Boat yard", "Carriage shed", "Dock", "Timber pond")
EXITS = (
    *("to Sandhaven", "to Ness", "to Port Merrin", "from the harbour", "to the pits"),
    *("to Whinmoor", "to the works", "from Ness", "to Skerry", "from Port Merrin"),
)


def track_plans(many: int) -> list[str]:
    """So many descriptions, each of its own size and sort."""
    return [track_plan(number) for number in range(many)]


def track_plan(number: int) -> str:
    """One description; every fourth is a yard, a terminus, a junction, a row of loops."""
    return next(plan for turn in count() if len((plan := _made(number, turn)).points) >= FEWEST).written(number)


def _made(number: int, turn: int) -> "_Plan":
    chance = Random(number + 100_003 * turn)
    grid = chance.choice([8, 10, 10, 12])
    width = chance.randrange(200, 1201, 20) // grid
    points = chance.randint(3, max(3, min(60, width // 2)))
    rows = chance.randint(2, 3 + min(6, points // 4))
    plan = _Plan(chance=chance, grid=grid, width=width, rows=rows, gap=chance.choice([2, 3, 3]), most=points)
    (_yard, _terminus, _junction, _loops)[number % 4](plan)
    return plan


@dataclass
class _Plan:
    chance: Random
    grid: int
    width: int
    rows: int
    gap: int
    most: int
    tracks: dict[str, list[Place | str]] = field(default_factory=dict)
    points: dict[str, Place] = field(default_factory=dict)
    breaks: list[Place] = field(default_factory=list)
    sections: dict[str, Place] = field(default_factory=dict)
    exits: dict[str, Place] = field(default_factory=dict)
    crossings: list[Place] = field(default_factory=list)
    level: dict[int, tuple[float, float]] = field(default_factory=dict)
    """Row: from where to where it is level."""
    links: list[tuple[int, float, int]] = field(default_factory=list)
    levers: int = 0

    def y(self, row: int) -> int:
        return TOP + row * self.gap

    def free(self, at: Place) -> bool:
        """True when a point there is clear of every other, and of the ends of the line."""
        others = [*self.points.values(), *self.breaks, *self.sections.values(), *self.crossings]
        return 2 <= at[0] <= self.width - 2 and all(hypot(at[0] - x, at[1] - y) >= APART for x, y in others)

    def add_point(self, at: Place, part: str = "") -> str:
        self.levers += part != "B"
        id_ = f"P{self.levers}{part}"
        self.points[id_] = at
        return id_

    def link(self, row: int, x: float, way: int) -> bool:
        """A crossover from a row to the next below it; False where there is no room."""
        a, b = (x, self.y(row)), (x + way * self.gap, self.y(row + 1))
        if len(self.points) + 2 > self.most or not (self.free(a) and self.free(b)):
            return False
        for other, start, direction in self.links:
            down = (start - x) / (2 * way)
            if (other, direction) == (row, -way) and 0 < down < self.gap:
                self.crossings.append((x + way * down, self.y(row) + down))
        self.links.append((row, x, way))
        ids = [self.add_point(a, "A"), self.add_point(b, "B")]
        self.tracks[f"link{self.levers}"] = [*ids]
        return True

    def branch(self, row: int, onto: int, x: float, far: float, name: str) -> bool:
        """A row that leaves another at x and ends far away."""
        at = (x, self.y(onto))
        way = 1 if far > x else -1
        turn = x + way * self.gap * abs(row - onto)
        if len(self.points) >= self.most or not self.free(at) or (far - turn) * way < 3:
            return False
        self.tracks[name] = [self.add_point(at), (turn, self.y(row)), (far, self.y(row))]
        self.level[row] = (min(turn, far), max(turn, far))
        return True

    def cut(self, row: int, x: float) -> None:
        """A section break, and the section's place beyond it."""
        at, place = (x, self.y(row)), (x - 4.0, self.y(row))
        name = f"SEC{len(self.sections) + 1}"
        start, end = self.level.get(row, (0, 0))
        if start < place[0] < at[0] < end and self.free(at) and self.free(place):
            self.breaks.append(at)
            self.sections[name] = place

    def leave(self, at: Place) -> None:
        if len(self.exits) < len(EXITS):
            self.exits[EXITS[len(self.exits)]] = at

    def written(self, number: int) -> str:
        height = (self.y(self.rows) + 2) * self.grid
        lines = [f"railway: Samphire Flats {number}", "boards: {B1: {size: [1400, 600]}}"]
        lines += ["supplies:", "  PULSE: {kind: pulse, volts: 24}", "  CAB: {kind: track, volts: 12}"]
        lines += ["strips: {S1: {ways: 200}, S2: {ways: 100}}", "points:"]
        lines += [f"  {id_}: {{name: {self._name(id_, n)}}}" for n, id_ in enumerate(self.points)]
        if self.sections:
            lines.append("devices:")
        for n, id_ in enumerate(self.sections):
            lines.append(f"  {id_}: {{kind: section, name: {NAMES[n % len(NAMES)]}, lever: {self.levers + 1 + n}}}")
        lines += ["panels:", "  BOX:", f"    size: [{self.width * self.grid}, {height}]", f"    grid: {self.grid}"]
        lines += ["    tracks:", *(f"      {t}: [{', '.join(map(_corner, c))}]" for t, c in self.tracks.items())]
        for key in ("points", "sections", "exits"):
            placed: dict[str, Place] = getattr(self, key)
            if placed:
                lines += [f"    {key}:", *(f"      {id_}: {_corner(at)}" for id_, at in placed.items())]
        for key in ("breaks", "crossings"):
            if getattr(self, key):
                lines.append(f"    {key}: [{', '.join(map(_corner, getattr(self, key)))}]")
        return "\n".join(lines) + "\n"

    def _name(self, id_: str, number: int) -> str:
        return f"{NAMES[(number * 5 + len(self.tracks)) % len(NAMES)]} {id_[1:]}"


def _corner(corner: Place | str) -> str:
    return corner if isinstance(corner, str) else f"[{corner[0]:g}, {corner[1]:g}]"


def _some_links(plan: _Plan, rows: int) -> None:
    """Crossovers between neighbouring rows wherever chance and room allow."""
    for _ in range(plan.most * 6):
        row, way = plan.chance.randrange(rows - 1), plan.chance.choice([-1, 1])
        plan.link(row, plan.chance.randint(3, plan.width - 3), way)


def _some_breaks(plan: _Plan, rows: int) -> None:
    for row in range(rows):
        if plan.chance.random() < 0.6:
            plan.cut(row, plan.chance.randint(6, max(6, plan.width - 6)))


def _main(plan: _Plan, row: int = 0, name: str = "main") -> None:
    plan.level[row] = (1, plan.width - 1)
    plan.tracks[name] = [(1, plan.y(row)), (plan.width - 1, plan.y(row))]


def _yard(plan: _Plan) -> None:
    """A ladder of sidings that leaves a main line."""
    _main(plan)
    plan.leave((plan.width - 1, plan.y(0)))
    step = max(3, plan.gap)
    plan.gap = step
    roads = min(plan.rows, (plan.width - 6) // step - 1, plan.most - 1)
    start = plan.width - 3 - plan.chance.randint(0, max(0, plan.width - 8 - roads * step - 3))
    foot = (start - step * roads, plan.y(roads))
    plan.tracks["ladder"] = [plan.add_point((start, plan.y(0))), foot, (1, plan.y(roads))]
    for row in range(1, roads + 1):
        plan.level[row] = (1, start - step * row)
    for row in range(1, roads):
        plan.tracks[f"road{row}"] = [plan.add_point((start - step * row, plan.y(row))), (1, plan.y(row))]
    plan.rows = roads + 1
    for row in range(1, roads + 1):
        x = start - step * row - plan.chance.randint(3, 6)
        if x > 7 and plan.chance.random() < 0.5:
            plan.cut(row, x)


def _terminus(plan: _Plan) -> None:
    """Platform roads that come together, one after the other, into a main line."""
    _main(plan)
    plan.leave((plan.width - 1, plan.y(0)))
    for row in range(1, plan.rows):
        onto = row - 1
        for _ in range(12):
            x = plan.chance.randint(max(6, plan.width // 2), plan.width - 3) - plan.gap * (row - 1)
            if plan.branch(row, onto, min(x, plan.level[onto][1] - 3), 1, f"road{row}"):
                break
        else:
            plan.rows = row
            break
    _some_breaks(plan, plan.rows)


def _junction(plan: _Plan) -> None:
    """Lines side by side with crossovers, and a branch that leaves across the lowest of them on the level."""
    rows = max(2, plan.rows)
    for row in range(rows):
        _main(plan, row, f"line{row + 1}")
        plan.leave((plan.width - 1 if row % 2 else 1, plan.y(row)))
    x = plan.chance.randint(4, max(4, plan.width - 3 * plan.gap - 5))
    at, over = (x, plan.y(rows - 2)), (x + plan.gap, plan.y(rows - 1))
    plan.crossings.append(over)
    far = (x + 2 * plan.gap, plan.y(rows))
    plan.tracks["branch"] = [plan.add_point(at), far, (plan.width - 1, far[1])]
    plan.level[rows] = (far[0], plan.width - 1)
    plan.rows = rows + 1
    _some_links(plan, rows)
    _some_breaks(plan, rows + 1)


def _loops(plan: _Plan) -> None:
    """A main line with loops that leave it and come back, and crossovers between them."""
    _main(plan)
    plan.leave((plan.width - 1, plan.y(0)))
    plan.leave((1, plan.y(0)))
    for row in range(1, plan.rows):
        _main(plan, row, f"loop{row}")
    _some_links(plan, plan.rows)
    used = {y for _, y in plan.points.values()}
    for row in [row for row in plan.level if row and plan.y(row) not in used]:  # nobody could get there
        del plan.level[row], plan.tracks[f"loop{row}"]
    _some_breaks(plan, plan.rows)
