"""Which labels one maker makes, out of those that there are, with their issue letters; and which cells they take."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from labelgen.model.built.built_labels import BLANKS, MadeLabel, MadeSheet, PrintedLabel
from labelgen.model.built.built_record import BuiltRecord
from labelgen.model.built.record_label import Key, Label, blank_label, label_of_drawings, marks_at_things
from labelgen.model.built.record_labels import labels_of
from labelgen.model.built.record_printing import FIRST_ISSUE, MadeNow, differs, issue_of
from labelgen.model.description import Description
from labelgen.model.drawing import Drawing
from labelgen.model.look import Look
from labelgen.model.netlist import Netlist
from labelgen.model.sheet import Sheet, Stock


@dataclass(frozen=True, slots=True, kw_only=True)
class Cells:
    """Cells of one of the sheets that were made last, after a jam."""

    sheet: int
    """From 1, as are the cells."""
    first: int
    last: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """What a command asks of labels."""

    board: str | None = None
    changed: bool = False
    """Only what is new or changed."""
    again: Mapping[str, Cells]
    """Use of a sheet: the cells that are to be printed anew; empty: none."""
    start: Mapping[str, int]


class Labelling:
    """Chooses among the labels of one kind, and notes what was chosen."""

    def __init__(
        self, description: Description, netlist: Netlist, record: BuiltRecord, choice: Choice, look: Look
    ) -> None:
        self._description, self._netlist, self._record = description, netlist, record
        self._choice, self._look = choice, look
        self._all: dict[str, dict[Key, Label]] = {}
        self._labels: dict[Key, Label] = {}
        self._standing: set[Key] = set()
        self._sheets: list[MadeSheet] = []
        self.pages = 0
        """How many of label stock and paper were made."""
        self.is_stale = False
        """Cells are to be printed again, and the description no longer says what was in them."""

    @property
    def now(self) -> MadeNow:
        return MadeNow(labels=tuple(self._labels.values()), standing=frozenset(self._standing), sheets=self._sheets)

    def chosen(self, kind: str, drawings: Sequence[Drawing]) -> list[Drawing]:
        """Those that are asked for, in their order."""
        known = self._known(kind)
        found: list[Drawing] = []
        asked: dict[str, Label] = {}
        for name, own in _by_label(drawings).items():
            label = known.get((kind, name)) or label_of_drawings(kind, name, own, self._marks)
            self._standing.add(label.key)
            if self._choice.board in (None, own[0].board) and self._is_asked(label):
                asked[name] = label
                self._labels[label.key] = label.of_pieces(len(own))
        for name, drawing in _with_labels(drawings):
            if name in asked:
                found.append(self._lettered(drawing, self.issue(asked[name])))
        return found

    def issues(self, *kinds: str) -> dict[Key, str]:
        """Kind, and strip or number of a wire: the issue in force; of flags only those after the first."""
        found: dict[Key, str] = {}
        for kind in kinds:
            for label in self._known(kind).values():
                if kind != "flags" or self.issue(label) != FIRST_ISSUE:
                    found[kind, label.thing] = self.issue(label)
        return found

    def issue(self, label: Label) -> str:
        """The letter of its issue, as the description has it now."""
        return issue_of(label, self._printed.get(label.key))

    def _lettered(self, drawing: Drawing, issue: str) -> Drawing:
        """A first issue says nothing: a letter tells that there was another before."""
        from labelgen.imposition.issue_letter import with_issue_letter

        return drawing if issue == FIRST_ISSUE else with_issue_letter(drawing, issue, self._look.smallest_cap)

    def _known(self, kind: str) -> dict[Key, Label]:
        if kind not in self._all:
            self._all[kind] = labels_of(self._description, self._netlist, kind)
        return self._all[kind]

    @cached_property
    def _marks(self) -> dict[str, list[str]]:
        return marks_at_things(self._netlist)

    @cached_property
    def _printed(self) -> dict[Key, PrintedLabel]:
        return {one.key: one for one in self._record.printed}

    @cached_property
    def _made(self) -> dict[Key, MadeLabel]:
        return {one.key: one for one in self._record.made}

    def _is_asked(self, label: Label) -> bool:
        if self._choice.again:
            return self._was_made(label)
        return not self._choice.changed or differs(label, self._printed.get(label.key))

    def _was_made(self, label: Label) -> bool:
        """Whether a label was among those that were made last; notes when it is no longer what it was."""
        made = self._made.get(label.key)
        if self._record.made_changed and made is None:
            return False
        then = made.now if made is not None else self._printed.get(label.key)
        if then is None or then.fingerprint != label.fingerprint:
            self.is_stale = True
        return True

    # Cells of label sheets.

    def start(self, use: str, stock: Stock, form: str = "") -> int:
        """The first cell: as asked, else the first that is left on the kind's part-used sheet, else 1."""
        for one in (use, form):
            if one in self._choice.start:
                return self._choice.start[one]
        sheets = self._record.made_sheets if self._choice.again else self._record.sheets
        left = [one.following for one in sheets if (one.use, one.stock) == (use, stock.id)]
        return left[0] if left and left[0] <= stock.count else 1

    def again(self, use: str) -> Cells | None:
        return self._choice.again.get(use)

    @property
    def is_again(self) -> bool:
        return bool(self._choice.again)

    def first_made(self, use: str, stock: Stock) -> int:
        """The cell in which what was made last began."""
        return next((one.first for one in self._record.made_sheets if (one.use, one.stock) == (use, stock.id)), 1)

    def used(self, use: str, stock: Stock, start: int, pages: Sequence[Sheet]) -> None:
        """Notes which cells were taken. Of what is printed again, the beginning is still that of the whole."""
        if pages:
            last = max(stock.cell_at(*placed.middle) for placed in pages[-1].placed)
            following = last + 2 if last + 1 < stock.count else 1
            first = self.first_made(use, stock) if self._choice.again else start
            self._sheets.append(MadeSheet(use=use, stock=stock.id, first=first, following=following))

    # Blank flags.

    def blanks(self, count: int) -> list[int]:
        """The next free numbers, noted for so many blank flags; those that were made last, when it is made again."""
        if self._choice.again:
            numbers = [int(label) for kind, label in self._made if kind == BLANKS]
        else:
            numbers = list(self._free_numbers(count))
        labels = [blank_label(number) for number in numbers[:count]]
        self._labels |= {label.key: label for label in labels}
        return numbers[:count]

    def _free_numbers(self, count: int) -> Iterator[int]:
        wires = [wire.number for wire in (*self._record.wires, *self._record.retired)]
        wires += [wire.number for wire in self._netlist.wires]
        used = {str(number) for number in wires}
        number = max([0, *(one for one in wires if isinstance(one, int)), *self._record.blank_numbers])
        while count:
            number += 1
            if str(number) not in used:
                count -= 1
                yield number


def _with_labels(drawings: Sequence[Drawing]) -> Iterator[tuple[str, Drawing]]:
    """Each with its label's name: what is on several boards is known by its board as well."""
    boards: dict[str, set[str | None]] = {}
    for drawing in drawings:
        boards.setdefault(drawing.label or drawing.name, set()).add(drawing.board)
    for drawing in drawings:
        name = drawing.label or drawing.name
        yield (f"{name} on {drawing.board}" if len(boards[name]) > 1 and drawing.board else name), drawing


def _by_label(drawings: Sequence[Drawing]) -> dict[str, list[Drawing]]:
    found: dict[str, list[Drawing]] = {}
    for name, drawing in _with_labels(drawings):
        found.setdefault(name, []).append(drawing)
    return found


def joined(first: MadeNow, second: MadeNow) -> MadeNow:
    return replace(
        first,
        labels=(*first.labels, *second.labels),
        standing={*first.standing, *second.standing},
        sheets=(*first.sheets, *second.sheets),
    )
