"""Lever plates: number, name, what it works, and where the handle lies when normal and when reverse."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from labelgen.drawings.ambiguous_numbers import needs_underline
from labelgen.drawings.function_marks import code_block
from labelgen.drawings.lettering import Lettering
from labelgen.drawings.plates.lever_bands import BAND_MM, BAR_MM, LETTERS_MM, band, bar, lettered
from labelgen.drawings.text_fitting import Fitted, centred, stacked
from labelgen.lengths import Rectangle
from labelgen.model.description import Description
from labelgen.model.drawing import Circle, Drawing, Line, Shape
from labelgen.model.lever_positions import TWO_BUTTONS, on_and_off, positions
from labelgen.model.look import CellSize, Look
from labelgen.model.netlist import Function, LeverPlan, Netlist
from labelgen.model.panel.lever_looks import NO_STROKE, LeverLook, lever_look
from labelgen.problems import Problem
from labelgen.standards.functions import DEFAULT_FUNCTIONS
from labelgen.typefaces import BOLD

MARGIN = 1.6
"""mm kept free at the edges: a cell's corners are round."""
GAP = 1.2
LEAST_WIDTH, LEAST_HEIGHT = 16.0, 8.0
NUMBER_CAP, NAME_CAP = 9.0, 2.6
SAID_CAP = 1.7
NUMBER_SHARE = 0.45
"""Of a low plate's width: the most that the number takes."""
BLOCK = 4.2
"""mm: an N or R block."""
STACKED_FROM, LOW = 14.0, 10.0
"""mm of height: from where the name stands below the number; up to where N and R stand around the words."""


def plate_drawings(
    description: Description, netlist: Netlist, look: Look, cell: CellSize
) -> tuple[list[Drawing], list[Problem]]:
    """One plate for each lever in natural order, as large as a cell (mm); spares are white and say so.

    Problems: label-too-large, text-does-not-fit, character-missing.
    """
    if netlist.levers and (cell.width < LEAST_WIDTH or cell.height < LEAST_HEIGHT):
        return [], [_too_large(description, cell)]
    drawings: list[Drawing] = []
    problems: list[Problem] = []
    plates: list[_Plate] = []
    face = Rectangle(0, 0, cell.width, cell.height).inset(MARGIN)
    for lever in netlist.levers:
        lettering = Lettering(
            label=f"plate of lever {lever.shown}", place=description.place_of_key(*lever.path), look=look,
            hint="Shorten its name, or choose a sheet with larger labels under `sheets: plates:`.",
        )  # fmt: skip
        plates.append(_Plate(lever, lever_look(description, netlist, lever), netlist, look, lettering))
    letters = not all(plate.in_words(face) for plate in plates)
    for plate in plates:
        lever, lettering = plate.lever, plate.lettering
        drawings.append(
            Drawing(
                width=cell.width, height=cell.height, shapes=tuple(plate.shapes(face, letters=letters)),
                name=f"plate {lever.shown}", place=lettering.place, board=lever.board, label=lever.id,
            )
        )  # fmt: skip
        problems += dict.fromkeys(lettering.problems)
    return drawings, problems


def _too_large(description: Description, cell: CellSize) -> Problem:
    return Problem(
        code="label-too-large",
        message=f"a lever plate takes {LEAST_WIDTH:g} × {LEAST_HEIGHT:g} mm, "
        f"the labels of the sheet are {cell.width:g} × {cell.height:g} mm",
        hint="Choose a sheet with larger labels under `sheets: plates:`.",
        place=description.place_of("sheets", "plates"),
    )


@dataclass(frozen=True, slots=True)
class _Plate:
    lever: LeverPlan
    painted: LeverLook
    netlist: Netlist
    look: Look
    lettering: Lettering

    def shapes(self, face: Rectangle, *, letters: bool = False) -> list[Shape]:
        """What the lever works in a band along the top; on a low plate as a bar in its colour, or in black and white in
        words or letters; the rest beside it.

        Without it where number and name would find no room beside it: they come first. `letters`: where words would
        have room on some plates only, none has them.
        """
        form = self._form(face.height)
        if form is not None:
            trial = replace(self, lettering=self.lettering.afresh())
            painted = (_Plate._lettered if letters and form is _Plate._said else form)(trial, face)
            if not trial.lettering.problems:
                return painted
        return self._not_hidden()._rest(face)

    def _not_hidden(self) -> "_Plate":
        """Where no band says it, what is out of use stands behind the name."""
        said = ", ".join(part for part in (self.lever.name, self.painted.idle) if part)
        return replace(self, lever=replace(self.lever, name=said))

    def in_words(self, face: Rectangle) -> bool:
        """Whether there is room for what it works in words, where only words can say it."""
        trial = replace(self, lettering=self.lettering.afresh())
        if self._form(face.height) is _Plate._said:
            trial._said(face)
        return not trial.lettering.problems

    def _form(self, height: float) -> Callable[["_Plate", Rectangle], list[Shape]] | None:
        """How it says what it works."""
        painted = self.painted
        if height >= STACKED_FROM:
            return _Plate._banded if painted.words or painted.colours else None
        if self.lever.spare:
            return None
        if self.look.mono:
            return _Plate._said if painted.words else None
        return _Plate._barred if painted.colours else None

    def _banded(self, face: Rectangle) -> list[Shape]:
        along = Rectangle(face.x, face.y, face.width, BAND_MM)
        below = Rectangle(face.x, face.y + BAND_MM + GAP, face.width, face.height - BAND_MM - GAP)
        shapes = list(band(self.painted, along, self.look, self.lettering))
        if self.lever.spare:
            return [*shapes, *_number(self.lever.shown, below, self.lettering)]
        return [*shapes, *self._rest(below)]

    def _barred(self, face: Rectangle) -> list[Shape]:
        """On a low plate in colour."""
        beside = self._not_hidden()._beside_bar(face, BAR_MM)
        return [*bar(self.painted, Rectangle(face.x, face.y, BAR_MM, face.height)), *beside]

    def _said(self, face: Rectangle) -> list[Shape]:
        """On a low plate without colour: behind the name, where that does not make it small."""
        self.lettering.smallest = max(self.lettering.smallest, SAID_CAP)
        said = ", ".join(part for part in (self.lever.name, self.painted.words) if part)
        return replace(self, lever=replace(self.lever, name=said))._rest(face)

    def _lettered(self, face: Rectangle) -> list[Shape]:
        """Where there is no room for that."""
        place = Rectangle(face.x, face.y, LETTERS_MM, face.height)
        beside = self._not_hidden()._beside_bar(face, LETTERS_MM)
        return [*lettered(self.painted, place, self.lettering), *beside]

    def _beside_bar(self, face: Rectangle, taken: float) -> list[Shape]:
        return self._rest(Rectangle(face.x + taken + GAP, face.y, face.width - taken - GAP, face.height))

    def _rest(self, face: Rectangle) -> list[Shape]:
        return _shapes(self.lever, self.netlist, self.look, face, self.lettering)


def _shapes(lever: LeverPlan, netlist: Netlist, look: Look, face: Rectangle, lettering: Lettering) -> list[Shape]:
    if lever.spare:
        return _words(lever, "spare", face, lettering)
    if lever.type in NO_STROKE:
        return _with_lies(lever, netlist, face, lettering)
    block = min(BLOCK, 0.44 * face.height)
    upright = lever.normal in ("up", "down")
    track, words = _places(face, block, upright=upright)
    marks = [_function(netlist, name) for name in ("normal", "reverse")]
    travel = upright or face.height >= LOW
    stroke = _stroke(lever.normal, marks, track, block=block, travel=travel, look=look)
    return [*_words(lever, lever.name, words, lettering), *stroke]


def _with_lies(lever: LeverPlan, netlist: Netlist, face: Rectangle, lettering: Lettering) -> list[Shape]:
    """Behind the name which button or position is which, or which way is on, where that does not make it small."""
    named = [one.name for one in positions(netlist, lever)]
    lies = ", ".join(named or [f"{way} {word}" for way, word in on_and_off(lever).items()])
    if lies and lever.buttons != TWO_BUTTONS:
        trial = lettering.afresh()
        trial.smallest = max(lettering.smallest, SAID_CAP)
        shapes = _words(lever, f"{lever.name}: {lies}" if lever.name else lies, face, trial)
        if not trial.problems:
            return shapes
    return _words(lever, lever.name, face, lettering)


def _places(face: Rectangle, block: float, *, upright: bool) -> tuple[Rectangle, Rectangle]:
    """Where the handle's travel is drawn, and what is left for the words.

    Upright at the right; else along the foot, or, on a low plate, around the words.
    """
    if upright:
        track = Rectangle(face.right - block, face.y, block, face.height)
        return track, Rectangle(face.x, face.y, face.width - block - GAP, face.height)
    if face.height < LOW:
        track = Rectangle(face.x, face.y + (face.height - block) / 2, face.width, block)
        side = block + GAP
        return track, Rectangle(face.x + side, face.y, face.width - 2 * side, face.height)
    track = Rectangle(face.x, face.bottom - block, face.width, block)
    return track, Rectangle(face.x, face.y, face.width, face.height - block - GAP)


def _function(netlist: Netlist, name: str) -> Function:
    """As the railway marks it; as the trade does where no wire of it exists."""
    usual = DEFAULT_FUNCTIONS[name]
    return netlist.functions.get(name) or Function(
        name=name, code=usual.code, colour=usual.colour, pattern=usual.pattern, size=usual.size
    )


def _words(lever: LeverPlan, name: str, face: Rectangle, lettering: Lettering) -> list[Shape]:
    """The number in large, and the name below it, or beside it on a low plate."""
    if not name:
        return _number(lever.shown, face, lettering)
    if face.height < STACKED_FROM:
        return _beside(lever, name, face, lettering)
    share = 0.6 * face.height
    number = Rectangle(face.x, face.y, face.width, share)
    below = Rectangle(face.x, face.y + share + GAP / 2, face.width, face.height - share - GAP / 2)
    lines = lettering.lines(name, width=below.width, height=below.height, largest=_name_cap(lettering))
    if len(lines or ()) == 1:  # on one baseline from plate to plate, whatever hangs below it
        line = lines[0]
        name_at = line.at(below.x + below.width / 2, below.y + (below.height + line.cap) / 2, anchor="middle")
        return [*_number(lever.shown, number, lettering), name_at]
    return [*_number(lever.shown, number, lettering), *(stacked(lines, below) if lines else ())]


def _beside(lever: LeverPlan, name: str, face: Rectangle, lettering: Lettering) -> list[Shape]:
    """Number and name as one block in the middle."""
    room = Rectangle(face.x, face.y, NUMBER_SHARE * face.width, face.height)
    number = lettering.inside(lever.shown, room, largest=NUMBER_CAP, face=BOLD)
    taken = number.width + GAP if number else 0.0
    width = face.width - taken
    lines = lettering.lines(name, width=width, height=face.height, largest=_name_cap(lettering))
    named = max((line.width for line in lines), default=0.0)
    x = face.x + (face.width - taken - named) / 2
    shapes = stacked(lines, Rectangle(x + taken, face.y, named, face.height)) if lines else []
    if number:
        shapes += _placed(number, Rectangle(x, face.y, number.width, face.height))
    return shapes


def _name_cap(lettering: Lettering) -> float:
    return max(NAME_CAP, lettering.smallest)


def _number(shown: str, box: Rectangle, lettering: Lettering) -> list[Shape]:
    fitted = lettering.inside(shown, box, largest=NUMBER_CAP, face=BOLD)
    return _placed(fitted, box) if fitted else []


def _placed(number: Fitted, box: Rectangle) -> list[Shape]:
    underlined = len(number.text) if needs_underline(number.text) else 0
    return centred(number, box, underlined=underlined, room_for_line=True)


def _stroke(
    normal: str, marks: Sequence[Function], track: Rectangle, *, block: float, travel: bool, look: Look
) -> list[Shape]:
    """N and R at the ends of the handle's travel; between them, where `travel`, its line with the knob at N."""
    upright = normal in ("up", "down")
    near, far = (track.y, track.bottom) if upright else (track.x, track.right)
    ends = (near, far - block) if normal in ("up", "left") else (far - block, near)
    shapes: list[Shape] = []
    for function, start in zip(marks, ends, strict=True):
        x, y = (track.x, start) if upright else (start, track.y)
        shapes += code_block(function, Rectangle(x, y, block, block), look)
    middle = track.x + block / 2 if upright else track.y + block / 2
    if not travel:
        return shapes
    return [*shapes, *_handle(near + block, far - block, middle, upright=upright, first=normal in ("up", "left"))]


def _handle(start: float, end: float, middle: float, *, upright: bool, first: bool) -> list[Shape]:
    """The handle's travel as a line with a knob where it lies when normal; nothing where there is no room."""
    radius, gap = 0.8, 0.6
    if end - start < 2 * radius + 2 * gap:
        return []
    knob = start + gap + radius if first else end - gap - radius
    a, b = start + gap, end - gap
    if upright:
        return [
            Line(x1=middle, y1=a, x2=middle, y2=b, width=0.3),
            Circle(x=middle, y=knob, radius=radius, fill="#000000"),
        ]
    return [
        Line(x1=a, y1=middle, x2=b, y2=middle, width=0.3),
        Circle(x=knob, y=middle, radius=radius, fill="#000000"),
    ]
