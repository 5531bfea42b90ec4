"""The numbers of wires: given when a wire first appears, and kept for good (section 5.7 of the format)."""

from collections.abc import Sequence
from math import inf

from labelgen.model.built.built_record import BuiltRecord
from labelgen.model.description import Description
from labelgen.problems import Problem
from labelgen.wiring.draft_wires import DraftWire

Number = int | str
Numbered = tuple[DraftWire, Number]


def numbered(
    description: Description, drafts: Sequence[DraftWire], record: BuiltRecord
) -> tuple[list[Numbered], list[Problem]]:
    """The wires with their numbers, those that are recorded first, in recorded order. Reports repeated-number.

    1, 2, 3 … in order, past every number that was ever given; those that the builder gave stay the builder's text.
    """
    kept = {wire.ends: wire.number for wire in record.wires}
    given = [_given(description, draft) for draft in drafts]
    own = [given[n] if given[n] is not None else kept.get(ends_of(draft)) for n, draft in enumerate(drafts)]
    used = {str(number) for number in own if number is not None}
    used |= {str(wire.number) for wire in (*record.wires, *record.retired)}
    ours = [wire.number for wire in (*record.wires, *record.retired) if isinstance(wire.number, int)]
    ours += record.blank_numbers
    following = 1 + max(ours, default=0)
    numbering: list[Number] = []
    for number in own:
        while number is None and str(following) in used:
            following += 1
        numbering.append(following if number is None else number)
        following += number is None
    appeared = {wire.ends: position for position, wire in enumerate(record.wires)}
    order = sorted(range(len(drafts)), key=lambda n: appeared.get(ends_of(drafts[n]), inf))
    return [(drafts[n], numbering[n]) for n in order], _given_before(description, drafts, record)


def _given(description: Description, draft: DraftWire) -> str | None:
    """The number that the builder's list gives to a wire."""
    return None if draft.numbered_by is None else description.wires[draft.numbered_by].number


def ends_of(draft: DraftWire) -> frozenset[str]:
    return frozenset((draft.start.name, draft.finish.name))


def _given_before(description: Description, drafts: Sequence[DraftWire], record: BuiltRecord) -> list[Problem]:
    """A number in the builder's list that another wire has, or that was retired with one of ours."""
    owners = {str(wire.number): wire for wire in record.retired if isinstance(wire.number, int)}
    now = {ends_of(draft) for draft in drafts}
    owners |= {str(wire.number): wire for wire in record.wires if wire.ends in now or isinstance(wire.number, int)}
    problems = []
    for draft in drafts:
        number = _given(description, draft)
        owner = owners.get(number or "")
        if owner is not None and owner.ends != ends_of(draft) and draft.listed is not None:
            problems.append(
                Problem(
                    code="repeated-number",
                    message=f"wire number {number} is, or was, {owner.head} from {owner.start} to {owner.finish}",
                    hint="A number is never given twice: choose one that no wire ever had.",
                    place=description.place_of("wires", draft.listed, "number"),
                )
            )
    return problems
