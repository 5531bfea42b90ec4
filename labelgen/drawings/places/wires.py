"""Rows of a label that say which wire goes to which terminal: terminal, head as on the flag, far end. Sizes are mm."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from labelgen.drawings.ambiguous_numbers import needs_underline
from labelgen.drawings.flags.wires import in_own_colour
from labelgen.drawings.function_marks import LETTER_SHARE, code_block
from labelgen.drawings.lettering import Lettering
from labelgen.drawings.text_fitting import Fitted, fit, underline
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Line, Shape
from labelgen.model.look import CellSize, Look
from labelgen.model.netlist import End, EndKind, Function, Netlist, Wire
from labelgen.typefaces import BOLD, face_for, size_for_cap, text_width

LEAST_ROW, HIGHEST_ROW = 3.9, 5.2
BLOCK_SHARE, CAP_SHARE, LARGEST_CAP = 0.82, 0.5, 2.5
GAP = 1.0
TERMINAL_SHARE, HEAD_SHARE = 0.25, 0.36
"""Of a row's width: what its first two columns take at most where there is no room for all."""
WIDEST_TERMINAL, WIDEST_HEAD = 12.0, 18.0
FAR_LEAST = 0.58
"""Of the width of far ends: condensed, and as small as all texts are before that."""
RULE = "#9a9a9a"


@dataclass(frozen=True, slots=True, kw_only=True)
class Landing:
    """The wires that land on one terminal."""

    terminal: str
    """As it is painted."""
    wires: tuple[Wire, ...]
    far: tuple[str, ...]
    """The other end of each, as shown."""
    swap: bool = False
    """One of a pair that may have to be exchanged when it shorts."""


Landings = Mapping[tuple[EndKind, str], tuple[Landing, ...]]
"""By kind and id."""


def landings(netlist: Netlist) -> Landings:
    """Every device and supply: its terminals in the order of their first wires."""
    found: dict[tuple[EndKind, str], dict[str, list[tuple[Wire, End, End]]]] = {}
    for wire in netlist.wires:
        for end, far in (wire.ends, wire.ends[::-1]):
            if end.kind in (EndKind.DEVICE, EndKind.SUPPLY):
                terminals = found.setdefault((end.kind, end.thing), {})
                terminals.setdefault(end.terminal, []).append((wire, end, far))
    return {
        thing: tuple(_landing(netlist, landed) for landed in terminals.values()) for thing, terminals in found.items()
    }


def _landing(netlist: Netlist, landed: Sequence[tuple[Wire, End, End]]) -> Landing:
    return Landing(
        terminal=landed[0][1].shown.rpartition(".")[2],
        wires=tuple(wire for wire, _, _ in landed),
        far=tuple(far.shown for _, _, far in landed),
        swap=any(end.kind is EndKind.DEVICE and _may_be_swapped(netlist, far) for _, end, far in landed),
    )


def _may_be_swapped(netlist: Netlist, end: End) -> bool:
    strip = netlist.strip_by_id.get(end.thing) if end.kind is EndKind.WAY else None
    return strip is not None and bool(strip.ways[int(end.terminal) - 1].swap_with)


def least_row(lettering: Lettering) -> float:
    """The height of a row in which all can be read, the code letter in its block as well."""
    return max(LEAST_ROW, lettering.smallest / CAP_SHARE, lettering.smallest / (LETTER_SHARE * BLOCK_SHARE))


def wire_rows(
    netlist: Netlist,
    found: Sequence[Landing],
    box: Rectangle,
    lettering: Lettering,
    look: Look,
    *,
    own: str = "",
    named: bool = False,
) -> Iterator[Shape]:
    """One below the other from the top of the box, in its whole width; too many of them are told as too long.

    `own`: the name of what the label is for, which no head repeats. `named`: every far end is named, never counted.
    """
    if not found:
        return
    least = least_row(lettering)
    if len(found) * least > box.height + 1e-9:
        lettering.too_long(found[-1].far[0])
        return
    height = min(max(HIGHEST_ROW, least), box.height / len(found))
    cap = min(LARGEST_CAP, max(CAP_SHARE * height, lettering.smallest))
    columns = _columns(netlist, found, own, CellSize(width=box.width, height=height), cap, named=named)
    far_cap = _far_cap(found, box.width - columns[1], cap, lettering.smallest)
    for index, landing in enumerate(found):
        row = Rectangle(box.x, box.y + index * height, box.width, height)
        if index:
            yield Line(x1=row.x, y1=row.y, x2=row.right, y2=row.y, width=0.12, colour=RULE)
        drawn = _Row(
            netlist=netlist, row=row, cap=cap, far_cap=far_cap, columns=columns, lettering=lettering, look=look,
            own=own, named=named,
        )  # fmt: skip
        yield from drawn.shapes(landing)


def _columns(
    netlist: Netlist, found: Sequence[Landing], own: str, size: CellSize, cap: float, *, named: bool
) -> tuple[float, float]:
    """Where heads begin, and where far ends do: as their texts ask for where there is room, and a share at least."""
    terminals = max(_wide(landing.terminal, cap) for landing in found)
    heads = max(_head_width(netlist, landing.wires[0], size.height, cap, own) for landing in found)
    room = size.width - 2 * GAP - max(_far_least(landing, size.width, cap, named=named) for landing in found)
    first = min(terminals, max(min(WIDEST_TERMINAL, TERMINAL_SHARE * size.width), room - heads))
    second = min(heads, max(min(WIDEST_HEAD, HEAD_SHARE * size.width), room - first))
    return first + GAP, first + second + 2 * GAP


def _far_cap(found: Sequence[Landing], width: float, cap: float, smallest: float) -> float:
    """One size for all terminals at which a single wire lands."""
    single = (_far_texts(landing)[0] for landing in found if len(landing.far) == 1)
    fitted = (fit(text, width=width, largest=cap, smallest=smallest) for text in single)
    return min((one.cap for one in fitted if one is not None), default=cap)


def _far_least(landing: Landing, width: float, cap: float, *, named: bool) -> float:
    """What its far ends need where they are set smaller than heads; or how many there are, where that is too much."""
    whole, several = (FAR_LEAST * _wide(said, cap) for said in _far_texts(landing))
    return whole if named or whole <= width / 2 else several


def _far_texts(landing: Landing) -> tuple[str, str]:
    """All far ends, and how many there are where they do not fit; ⇄ where it is one of a swap pair."""
    sign = " ⇄" if landing.swap else ""
    several = f"{len(landing.far)} wires" if len(landing.far) > 1 else landing.far[0]
    return ", ".join(landing.far) + sign, several + sign


def _head_width(netlist: Netlist, wire: Wire, height: float, cap: float, own: str) -> float:
    function = netlist.functions.get(wire.function)
    stem = _wide(wire.stem, cap) + GAP / 2 if wire.stem and wire.stem != own else 0.0
    mark = _wide(wire.mark, cap) + GAP / 3 if wire.mark else 0.0
    return stem + mark + (_block_width(function, BLOCK_SHARE * height) if function else 0.0)


def _block_width(function: Function, height: float) -> float:
    return height * (0.95 + 0.4 * max(0, len(function.code) - 1))


def _wide(text: str, cap: float) -> float:
    face = face_for(text, BOLD)
    return text_width(text, face, size_for_cap(cap, face))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Row:
    netlist: Netlist
    row: Rectangle
    cap: float
    far_cap: float
    columns: tuple[float, float]
    lettering: Lettering
    look: Look
    own: str
    named: bool

    @property
    def baseline(self) -> float:
        return self.row.y + (self.row.height + self.cap) / 2

    @property
    def head_x(self) -> float:
        return self.row.x + self.columns[0]

    @property
    def far_x(self) -> float:
        return self.row.x + self.columns[1]

    def shapes(self, landing: Landing) -> Iterator[Shape]:
        terminal = self.lettering.line(
            landing.terminal, width=self.head_x - self.row.x - GAP, largest=self.cap, face=BOLD
        )
        if terminal:
            yield terminal.at(self.row.x, self.baseline)
            if needs_underline(terminal.text):
                middle = self.row.x + terminal.width / 2
                yield underline(terminal, middle, self.baseline, characters=len(terminal.text))
        yield from self._head(landing.wires[0])
        far = self._far(landing)
        if far:
            yield far.at(self.far_x, self.baseline)

    def _head(self, wire: Wire) -> Iterator[Shape]:
        """Its number or id, its code letter's block, and what follows it."""
        function = in_own_colour(wire, self.netlist.functions.get(wire.function))
        if function is None:
            return
        block = BLOCK_SHARE * self.row.height
        width = _block_width(function, block)
        x, right = self.head_x, self.far_x - GAP
        if wire.stem and wire.stem != self.own:
            room = right - x - width - GAP / 2 - (_wide(wire.mark, self.cap) + GAP / 3 if wire.mark else 0)
            stem = self.lettering.line(wire.stem, width=room, largest=self.cap, face=BOLD)
            if stem:
                yield stem.at(x, self.baseline)
                if needs_underline(stem.text):
                    yield underline(stem, x + stem.width / 2, self.baseline, characters=len(stem.text))
                x += stem.width + GAP / 2
        yield from code_block(
            function, Rectangle(x, self.row.y + (self.row.height - block) / 2, width, block), self.look
        )
        if wire.mark:
            x += width + GAP / 3
            mark = self.lettering.line(wire.mark, width=right - x, largest=self.cap, face=BOLD)
            if mark:
                yield mark.at(x, self.baseline)

    def _far(self, landing: Landing) -> Fitted | None:
        """The fullest text that can be read; None, and a problem, where none can."""
        for said in _far_texts(landing)[: 1 if self.named else None]:
            known = self.lettering.known(said, BOLD)
            width = self.row.right - self.far_x
            fitted = fit(known, width=width, largest=self.far_cap, smallest=self.lettering.smallest)
            if fitted:
                return fitted
        self.lettering.too_long(landing.far[0])
        return None
