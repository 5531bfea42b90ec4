"""How the record goes on when labels are made, recorded as printed, and when that is taken back.

Making is not printing: what was made last is only noted, as the difference from what is printed.
"""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from labelgen.model.built.built_labels import BLANKS, STUCK_ON, MadeLabel, MadeSheet, PartSheet, PrintedLabel
from labelgen.model.built.built_record import BuiltRecord
from labelgen.model.built.record_label import Key, Label
from labelgen.model.panel.routes import row_letter, row_position

FORMS = ("fold", "wrap", "sleeve")
FIRST_ISSUE = "A"


@dataclass(frozen=True, slots=True, kw_only=True)
class Scope:
    """What of everything: some kinds, one board, or only what is new or changed."""

    only: Collection[str] = ()
    """Empty: all kinds."""
    board: str = ""
    """"": all boards."""
    changed: bool = False

    @property
    def kinds(self) -> tuple[str, ...]:
        """Of what is stuck on; blank flags go with the flags."""
        kinds = tuple(kind for kind in STUCK_ON if not self.only or kind in self.only)
        return (*kinds, BLANKS) if "flags" in kinds else kinds

    def holds(self, label: PrintedLabel) -> bool:
        return label.kind in self.kinds and self.board in ("", label.board)


@dataclass(frozen=True, slots=True, kw_only=True)
class MadeNow:
    """What a run has made that is stuck on."""

    labels: Sequence[Label] = ()
    standing: Collection[Key] = ()
    """All labels that the description asks for, of the kinds that were made: also those that were not made now."""
    sheets: Sequence[MadeSheet] = ()


def differs(label: Label, printed: PrintedLabel | None) -> bool:
    """True when a label is not printed, or says something else than what is; one of no fingerprint counts as right."""
    return printed is None or printed.fingerprint not in ("", label.fingerprint)


def issue_of(label: Label, printed: PrintedLabel | None) -> str:
    """The letter of a label as the description has it: the printed one's, the next where it says something else."""
    if printed is None:
        return FIRST_ISSUE
    letter = printed.issue or FIRST_ISSUE
    return row_letter(row_position(letter) or 0) if differs(label, printed) else letter


def with_made(record: BuiltRecord, scope: Scope, now: MadeNow) -> BuiltRecord:
    """The record in which that was made last, and nothing is printed by it."""
    in_use = {str(wire.number) for wire in (*record.wires, *record.retired)}
    printed = {one.key: one for one in record.printed if one.kind != BLANKS or one.label not in in_use}
    made = [*_new(now.labels, printed), *_gone(printed.values(), scope, now.standing)]
    return replace(
        record,
        made_only=tuple(sorted(scope.only)),
        made_board=scope.board,
        made_changed=scope.changed,
        made=tuple(made),
        made_sheets=tuple(now.sheets),
        printed=tuple(printed.values()),
    )


def _new(labels: Iterable[Label], printed: Mapping[Key, PrintedLabel]) -> Iterator[MadeLabel]:
    for label in labels:
        was = printed.get(label.key)
        if was is None or was.fingerprint != label.fingerprint:
            yield MadeLabel(now=label.printed(issue_of(label, was)), was=was)


def _gone(printed: Iterable[PrintedLabel], scope: Scope, standing: Collection[Key]) -> Iterator[MadeLabel]:
    for label in printed:
        if scope.holds(label) and label.kind != BLANKS and label.key not in standing:
            yield MadeLabel(now=None, was=label)


def with_printed(record: BuiltRecord, scope: Scope) -> BuiltRecord:
    """The record in which that part of what was made last is printed and stuck on, and what it replaces is off."""
    printed = {one.key: one for one in record.printed}
    for one in record.made:
        if scope.holds(one.either):
            printed.pop(one.key, None) if one.now is None else printed.update({one.key: one.now})
    return replace(record, printed=tuple(printed.values()), sheets=_sheets(record, scope, used=True))


def without_printed(record: BuiltRecord, scope: Scope) -> BuiltRecord | None:
    """The record as it was before that part was recorded as printed; None when there is nothing to take back.

    What was made last goes back to what was printed before it. Where that made nothing new, what it made again counts
    as not printed.
    """
    last = [one for one in record.made if scope.holds(one.either)]
    printed = {one.key: one for one in record.printed}
    back = [one for one in last if printed.get(one.key) == one.now]
    if not back and (last or record.made_changed):
        return None
    again = Scope(only=frozenset(record.made_only), board=record.made_board)
    for one in back:
        printed.pop(one.key, None) if one.was is None else printed.update({one.key: one.was})
    kept = tuple(one for one in printed.values() if last or not (scope.holds(one) and again.holds(one)))
    sheets = record.sheets if scope.board else _sheets(record, scope, used=False)
    return replace(record, printed=kept, sheets=sheets)


def kind_of_use(use: str) -> str:
    """`flags` for a form of theirs."""
    return "flags" if use in FORMS else use


def _sheets(record: BuiltRecord, scope: Scope, *, used: bool) -> tuple[PartSheet, ...]:
    """How far each sheet is, after what was made last was printed, or before; whole ones are left out."""
    sheets = {(one.use, one.stock): one for one in record.sheets}
    for made in record.made_sheets:
        if kind_of_use(made.use) in scope.kinds:
            following = made.following if used else made.first
            sheets[made.use, made.stock] = PartSheet(use=made.use, stock=made.stock, following=following)
    return tuple(sheet for sheet in sheets.values() if sheet.following > 1)
