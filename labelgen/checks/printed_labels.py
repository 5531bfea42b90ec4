"""Labels that are stuck on, by the as-built record, and say something else than the wiring now does."""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass

from labelgen.model.built.built_labels import BLANKS, STUCK_ON, PrintedLabel
from labelgen.model.built.built_record import BuiltRecord
from labelgen.model.built.record_label import Key, Label
from labelgen.model.built.record_labels import labels_of
from labelgen.model.built.record_printing import FIRST_ISSUE, differs, issue_of
from labelgen.model.description import Description
from labelgen.model.netlist import Netlist
from labelgen.natural_order import natural
from labelgen.places import Place
from labelgen.problems import Problem

CALLED = {
    "tags": "tag {}", "markers": "marker {}", "plates": "plate {}", "places": "{}", "fascia": "fascia {}",
    "flags": "flag {}",
}  # fmt: skip
"""Kind: what one of its labels is called. The first that is out of date is the example: that of a whole strip first."""


@dataclass(frozen=True, kw_only=True)
class Standing:
    """What is printed, against what should be there."""

    stale: Mapping[str, list[tuple[PrintedLabel, Label]]]
    """Board: the printed labels that say something else than they should, and what these are now."""
    gone: int
    """Printed, and of nothing that is still there."""
    new: int
    """Not printed yet, though others of their kind on their board are."""


def printed_labels(description: Description, netlist: Netlist, record: BuiltRecord) -> list[Problem]:
    """Reports labels-out-of-date once for each board, and labels-changed once. Nothing before any are printed."""
    printed = {one.key: one for one in record.printed if one.kind != BLANKS}
    if not printed:
        return []
    standing = _standing(description, netlist, printed)
    problems = [_out_of_date(description, netlist, *one) for one in standing.stale.items()]
    if standing.gone or standing.new:
        problems.append(_changed(description, standing))
    return problems


def _standing(description: Description, netlist: Netlist, printed: Mapping[Key, PrintedLabel]) -> Standing:
    kinds = {kind for kind, _ in printed}
    now = {key: one for kind in STUCK_ON if kind in kinds for key, one in labels_of(description, netlist, kind).items()}
    begun = {(one.kind, one.board) for one in printed.values()}
    stale: dict[str, list[tuple[PrintedLabel, Label]]] = defaultdict(list)
    for key, label in now.items():
        if key in printed and differs(label, printed[key]):
            stale[label.board].append((printed[key], label))
    things = _things(description)
    return Standing(
        stale=stale,
        gone=sum(key not in now and not _may_stand(one, things) for key, one in printed.items()),
        new=sum(key not in printed and (label.kind, label.board) in begun for key, label in now.items()),
    )


def _things(description: Description) -> set[str]:
    holes = {hole for board in description.boards.values() for hole in board.holes}
    return {*description.points, *description.devices, *description.supplies, *description.plugs, *holes}


def _may_stand(label: PrintedLabel, things: set[str]) -> bool:
    """What labels beside devices and supplies say is known only when they are drawn; here, only of what they are."""
    return label.kind == "places" and label.label.partition(" on ")[0] in things


def _out_of_date(
    description: Description, netlist: Netlist, board: str, stale: list[tuple[PrintedLabel, Label]]
) -> Problem:
    order = list(CALLED)
    was, now = min(stale, key=lambda one: (order.index(one[1].kind), natural(one[1].label)))
    where = f" on board {netlist.shown_id(board)}" if board else ""
    count = f"{len(stale)} labels{where} say" if len(stale) > 1 else f"1 label{where} says"
    return Problem(
        code="labels-out-of-date",
        message=f"{count} something else than the wiring now does: {CALLED[now.kind].format(now.says)} is printed at"
        f" issue {was.issue or FIRST_ISSUE}, and the wiring is at {issue_of(now, was)}",
        hint="`labelgen make --changed` makes them anew, and lists what comes off and goes on; once they are on, say so"
        " with `labelgen printed`.",
        place=_place(description, board),
    )


def _place(description: Description, board: str) -> Place:
    return description.place_of_key(*(("boards", board) if board else ("railway",)))


def _changed(description: Description, standing: Standing) -> Problem:
    off = f"{standing.gone} printed, and of nothing that is still there" if standing.gone else ""
    on = f"{standing.new} new" if standing.new else ""
    return Problem(
        code="labels-changed",
        message=f"the labels are not those that are stuck on: {'; '.join(filter(None, (off, on)))}",
        hint="`labelgen make --changed` lists board by board what comes off and goes on, and makes what is new.",
        place=description.place_of_key("railway"),
    )
