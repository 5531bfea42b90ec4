"""Issue letters, and what older records mean."""

from itertools import islice

from labelgen.model.built.built_labels import MadeLabel, PrintedLabel
from labelgen.model.built.built_record import BuiltRecord, BuiltWire
from labelgen.model.built.record_label import Label
from labelgen.model.built.record_printing import (
    MadeNow,
    Scope,
    differs,
    issue_of,
    with_made,
    with_printed,
    without_printed,
)
from labelgen.model.built.record_summary import NOTHING, what_is_to_come


def label(says: str, kind: str = "flags", name: str = "1") -> Label:
    return Label(kind=kind, label=name, says=says, content=(says,), thing=name)


def test_issues_follow_one_another_without_i_and_o() -> None:
    """ISO 5457 leaves I and O out of its letters, as they look like 1 and 0; so do drawing offices of their issues."""

    def letters():  # type: ignore[no-untyped-def]
        printed = None
        while True:
            now = label(f"says {printed and printed.issue}")
            printed = now.printed(issue_of(now, printed))
            yield printed.issue

    assert "".join(islice(letters(), 24)) == "ABCDEFGHJKLMNPQRSTUVWXYZ"
    assert list(islice(letters(), 24, 26)) == ["AA", "AB"]


def test_what_says_the_same_keeps_its_issue() -> None:
    printed = label("5N").printed("C")
    assert issue_of(label("5N"), printed) == "C"
    assert not differs(label("5N"), printed)
    assert issue_of(label("6N"), printed) == "D"


def test_a_label_of_an_earlier_version_counts_as_right_and_gets_its_mark_when_it_is_printed() -> None:
    old = PrintedLabel(kind="flags", label="1")
    assert not differs(label("5N"), old)
    assert issue_of(label("5N"), old) == "A"
    record = BuiltRecord(railway="x", printed=(old,))
    after = with_printed(with_made(record, Scope(), MadeNow(labels=[label("5N")], standing={old.key})), Scope())
    assert after.printed == (label("5N").printed("A"),)


def test_what_is_made_without_a_kind_takes_nothing_of_it_off() -> None:
    record = BuiltRecord(railway="x", printed=(label("5N").printed("A"), label("T1", "markers", "T1").printed("A")))
    made = with_made(record, Scope(only=("markers",)), MadeNow())
    assert [one.either.kind for one in made.made] == ["markers"]
    assert with_printed(made, Scope()).printed == (label("5N").printed("A"),)
    assert without_printed(with_printed(made, Scope()), Scope()) == made.__class__(
        **{**vars_of(made), "printed": (label("5N").printed("A"), label("T1", "markers", "T1").printed("A"))}
    )


def vars_of(record: BuiltRecord) -> dict[str, object]:
    return {name: getattr(record, name) for name in record.__dataclass_fields__}


def test_nothing_new_made_again_counts_as_not_printed_when_that_is_taken_back() -> None:
    record = BuiltRecord(railway="x", printed=(label("5N").printed("A"),))
    again = with_made(record, Scope(), MadeNow(labels=[label("5N")], standing={("flags", "1")}))
    assert again.made == ()
    back = without_printed(again, Scope())
    assert back is not None
    assert back.printed == ()


def test_the_line_counts_a_wire_that_was_replaced_as_moved() -> None:
    old, new = (
        BuiltWire(number=number, head="5N", start="L5.N", finish=f"A1.{number}", circuit="5", function="normal")
        for number in (1, 2)
    )
    was, now = label("5N").printed("A"), label("5N", name="2").printed("A")
    before = BuiltRecord(railway="x", printed=(was,))
    after = BuiltRecord(
        railway="x", wires=(new,), retired=(old,), made=(MadeLabel(now=now, was=None), MadeLabel(now=None, was=was))
    )
    assert what_is_to_come(before, after, 1) == "1 of 1 move, 1 sheet"
    assert what_is_to_come(before, before, 0) == NOTHING


ONE, TWO = label("5N", name="1"), label("A1", kind="tags", name="A1")


def printed_record(scope: Scope) -> BuiltRecord:
    """Flags and tags are printed; then that part is made again, and brings nothing new."""
    both = MadeNow(labels=(ONE, TWO), standing=[ONE.key, TWO.key])
    record = with_printed(with_made(BuiltRecord(railway="R"), Scope(), both), Scope())
    assert len(record.printed) == 2
    return with_made(record, scope, MadeNow(labels=(), standing=[ONE.key, TWO.key]))


def test_undo_takes_back_what_was_made_again() -> None:
    back = without_printed(printed_record(Scope()), Scope())
    assert back is not None
    assert back.printed == ()


def test_undo_takes_back_nothing_of_what_was_not_made() -> None:
    """Only tags were made again, so the flags are still stuck on; and after `--changed` that found nothing, all is."""
    back = without_printed(printed_record(Scope(only=("tags",))), Scope())
    assert back is not None
    assert [one.kind for one in back.printed] == ["flags"]
    elsewhere = without_printed(printed_record(Scope(board="B1")), Scope())
    assert elsewhere is not None
    assert len(elsewhere.printed) == 2, "both are of no board"
    assert without_printed(printed_record(Scope(changed=True)), Scope()) is None
