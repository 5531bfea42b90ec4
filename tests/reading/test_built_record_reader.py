"""The as-built record as text: what is written reads back the same, and what was touched is noticed (section 8)."""

import re
from dataclasses import replace
from pathlib import Path

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from labelgen.model.built.built_labels import MadeLabel, MadeSheet, PartSheet, PrintedLabel
from labelgen.model.built.built_record import (
    BuiltGroup,
    BuiltMatrix,
    BuiltPins,
    BuiltRecord,
    BuiltRoute,
    BuiltWire,
    SparePin,
    SpareWay,
    record_path,
)
from labelgen.model.built.built_record_form import checksum
from labelgen.reading.built_record_reader import read_built_record, read_record_bytes
from labelgen.rendering.built_record_text import built_record_bytes

PATH = Path("quay.built.yaml")
TEXT = st.text(max_size=12).filter(lambda text: not any("\ud800" <= c <= "\udfff" for c in text))
IDS = st.from_regex(r"[A-Za-z0-9_-]{1,8}", fullmatch=True) | st.sampled_from(["NO", "on", "08", "1e3", "12-30", "null"])
WIRES = st.builds(
    BuiltWire,
    number=st.integers(1, 9999) | TEXT,
    head=TEXT,
    start=IDS.map(lambda id_: f"{id_}.N"),
    finish=IDS.map(lambda id_: f"{id_}.3"),
    circuit=IDS,
    function=IDS,
)
LABELS = st.builds(
    PrintedLabel,
    kind=IDS,
    label=TEXT,
    fingerprint=st.just("") | IDS,
    issue=st.just("") | IDS,
    board=st.just("") | IDS,
    says=TEXT,
    holes=st.dictionaries(IDS, st.tuples(*[st.integers(0, 90_000)] * 3), max_size=2),
)
RECORDS = st.builds(
    BuiltRecord,
    railway=TEXT,
    groups=st.lists(
        st.builds(
            BuiltGroup,
            by_lever=st.booleans(),
            circuit=IDS,
            strip=IDS,
            devices=st.lists(IDS, max_size=3).map(tuple),
            ways=st.dictionaries(IDS | st.just("lamp #2"), st.integers(1, 200), max_size=4),
        ),
        max_size=3,
    ).map(tuple),
    spare=st.lists(st.builds(SpareWay, strip=IDS, way=st.integers(1, 200), head=TEXT), max_size=3).map(tuple),
    wires=st.lists(WIRES, max_size=4).map(tuple),
    pins=st.lists(
        st.builds(BuiltPins, start=IDS, finish=IDS, circuit=IDS, pins=st.lists(IDS, max_size=3).map(tuple)), max_size=2
    ).map(tuple),
    spare_pins=st.lists(st.builds(SparePin, plug=IDS, pin=st.integers(1, 200), head=TEXT), max_size=3).map(tuple),
    matrices=st.lists(st.builds(BuiltMatrix, id=IDS, panel=IDS | st.just(""), supply=IDS), max_size=2).map(tuple),
    routes=st.lists(st.builds(BuiltRoute, name=TEXT, number=IDS, matrix=IDS), max_size=3).map(tuple),
    retired=st.lists(WIRES, max_size=2).map(tuple),
    made_only=st.lists(IDS, max_size=2).map(tuple),
    made_board=IDS | st.just(""),
    made_changed=st.booleans(),
    made=st.lists(
        st.builds(MadeLabel, now=LABELS, was=st.none() | LABELS) | st.builds(MadeLabel, now=st.none(), was=LABELS),
        max_size=3,
    ).map(tuple),
    made_sheets=st.lists(
        st.builds(MadeSheet, use=IDS, stock=IDS, first=st.integers(1, 99), following=st.integers(1, 99)), max_size=2
    ).map(tuple),
    sheets=st.lists(st.builds(PartSheet, use=IDS, stock=IDS, following=st.integers(2, 99)), max_size=2).map(tuple),
    printed=st.lists(LABELS, max_size=3).map(tuple),
)

SMALL = BuiltRecord(
    railway="Marram Quay",
    groups=(BuiltGroup(by_lever=True, circuit="5", strip="A1", devices=("P5",), ways={"normal": 1, "feed": 2}),),
    wires=(
        BuiltWire(number=1, head="5N", start="L5.N", finish="A1.1", circuit="5", function="normal"),
        BuiltWire(number="37N bis", head="5F", start="L5.F", finish="A1.2", circuit="5", function="feed"),
    ),
)


@given(RECORDS)
def test_reading_back_what_was_written_is_the_identity(record: BuiltRecord) -> None:
    assert read_record_bytes(built_record_bytes(record), PATH) == record


@given(RECORDS)
def test_any_yaml_reader_reads_the_same(record: BuiltRecord) -> None:
    """PyYAML, with its full guesses at what a scalar is: every text is a text, every number a number."""
    plain = yaml.safe_load(built_record_bytes(record))
    assert plain["railway"] == record.railway
    assert [(one["number"], one["head"], one["from"]) for one in plain["wires"] or []] == [
        (wire.number, wire.head, wire.start) for wire in record.wires
    ]
    for one, group in zip(plain["groups"] or [], record.groups, strict=True):
        assert one["lever" if group.by_lever else "device"] == group.circuit
        assert one["devices"] == list(group.devices)
        assert one["ways"] == group.ways


def test_it_says_what_it_is_and_reads_like_a_list() -> None:
    text = built_record_bytes(SMALL).decode()
    assert text.startswith("# The as-built record")
    assert "under version control" in text
    assert '- {lever: "5", strip: A1, devices: [P5], ways: {normal: 1, feed: 2}}\n' in text
    assert '- {number: 1, head: "5N", from: L5.N, to: A1.1, circuit: "5", function: normal}\n' in text


def test_line_ends_may_change_on_the_way_through_version_control() -> None:
    assert read_record_bytes(built_record_bytes(SMALL).replace(b"\n", b"\r\n"), PATH) == SMALL


def spoilt(old: str, new: str) -> str | None:
    """The code that a record gets when a part of it is exchanged."""
    content = built_record_bytes(SMALL).decode()
    assert old in content
    found = read_record_bytes(content.replace(old, new, 1).encode(), PATH)
    return None if isinstance(found, BuiltRecord) else found.code


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("A1.1", "A1.2"),
        ("number: 1", "number: 2"),
        ("retired: []\n", ""),
        ("spare: []\n", "spare: []\nspare: []\n"),
        ("- {number: 1", "<<<<<<< ours\n- {number: 1"),
        ("pins: []\n", "=======\npins: []\n"),
        ("pins: []\n", "pins: []\n>>>>>>> theirs\n"),
        ("checksum: ", "checksum: 0"),
        ("checksum: ", "sum: "),
        ("format: 3", "format: 0"),
        ("format: 3", "format: 1"),
        ('railway: "Marram Quay"', "railway: Marram Quay"),
        ("made:\n", "made:\n\n"),
    ],
)
def test_an_edit_or_a_merge_is_noticed(old: str, new: str) -> None:
    assert spoilt(old, new) == "record-edited"


def test_remarks_at_its_head_do_no_harm() -> None:
    assert spoilt("# The as-built", "# seen by the wiring group\n# The as-built") is None


def test_a_rightly_summed_but_wrongly_built_record_is_noticed() -> None:
    """Somebody who works out the checksum as well."""
    for old, new in (("function: normal}", "function: normal"), ("from: L5.N, ", ""), ("made:\n", "made: x\n- {}\n")):
        body = built_record_bytes(SMALL).decode().partition("\ngroups:")[2].replace(old, new)
        text = f"railway: x\nformat: 3\nchecksum: {checksum('groups:' + body)}\ngroups:{body}"
        found = read_record_bytes(text.encode(), PATH)
        assert not isinstance(found, BuiltRecord)
        assert found.code == "record-edited"


def test_merge_marks_are_shown_where_they_are() -> None:
    content = built_record_bytes(SMALL).decode().replace("- {number: 1", "<<<<<<< ours\n- {number: 1")
    found = read_record_bytes(content.encode(), PATH)
    assert not isinstance(found, BuiltRecord)
    assert found.place.source == "<<<<<<< ours"
    assert content.splitlines()[found.place.line - 1] == "<<<<<<< ours"
    assert "merged" in found.message


def test_a_record_of_a_later_version_is_not_guessed_at() -> None:
    assert spoilt("format: 3", "format: 4") == "record-unreadable"


@pytest.mark.parametrize("form", [1, 2])
def test_a_record_of_an_earlier_format_is_read(form: int) -> None:
    """The first knew nothing of freed pins, matrices and routes; neither knew what labels say, nor of used sheets."""
    body = built_record_bytes(SMALL).decode().partition("\ngroups:")[2]
    body = "groups:" + body.replace("made_labels: []\nmade_sheets: []\nsheets: []\n", "").replace(", changed: 0", "")
    body = body.replace("printed: []\n", 'printed:\n- {kind: flags, label: "1"}\n')
    if form == 1:
        body = body.replace("spare_pins: []\nmatrices: []\nroutes: []\n", "")
    text = f'railway: "Marram Quay"\nformat: {form}\nchecksum: {checksum(body)}\n{body}'
    assert "sheets" not in text
    assert ("routes" in text) is (form == 2)
    printed = replace(SMALL, printed=(PrintedLabel(kind="flags", label="1"),))
    assert read_record_bytes(text.encode(), PATH) == printed


def test_bytes_that_are_no_text() -> None:
    found = read_record_bytes(b"\xff\xfe", PATH)
    assert not isinstance(found, BuiltRecord)
    assert found.code == "record-unreadable"


def codes(description: Path, railway: str = "Marram Quay") -> list[str]:
    return [problem.code for problem in read_built_record(description, railway).problems]


def test_none_is_no_problem(tmp_path: Path) -> None:
    read = read_built_record(tmp_path / "quay.yaml", "Marram Quay")
    assert (read.record, read.seen, read.problems) == (None, None, ())
    assert codes(tmp_path / "nowhere" / "quay.yaml") == []


def test_the_one_beside_the_description_is_read(tmp_path: Path) -> None:
    assert record_path(tmp_path / "quay.yaml").name == "quay.built.yaml"
    assert record_path(tmp_path / "quay.west.yml").name == "quay.west.built.yaml"
    record_path(tmp_path / "quay.yaml").write_bytes(built_record_bytes(SMALL))
    read = read_built_record(tmp_path / "quay.yaml", "Marram Quay")
    assert (read.record, read.seen, read.problems) == (SMALL, built_record_bytes(SMALL), ())


def test_of_another_railway(tmp_path: Path) -> None:
    record_path(tmp_path / "quay.yaml").write_bytes(built_record_bytes(SMALL))
    assert codes(tmp_path / "quay.yaml", "Gull Sands") == ["record-of-another-railway"]


def test_a_railway_that_was_only_renamed_can_be_told_so(tmp_path: Path) -> None:
    """The hint's way out: its line `railway:` is the one that may be changed by hand."""
    content = re.sub(rb"railway: .*", b'railway: "Gull Sands"', built_record_bytes(SMALL))
    record_path(tmp_path / "quay.yaml").write_bytes(content)
    assert codes(tmp_path / "quay.yaml", "Gull Sands") == []


def test_under_another_name(tmp_path: Path) -> None:
    (tmp_path / "old.built.yaml").write_bytes(built_record_bytes(SMALL))
    (tmp_path / "notes.built.yaml").write_bytes(b"railway: {\n")
    (tmp_path / "list.built.yaml").write_bytes(b"railway: [Marram]\n")
    (tmp_path / "none.built.yaml").write_bytes(b"nothing of ours")
    (tmp_path / "folder.built.yaml").mkdir()
    assert codes(tmp_path / "quay.yaml") == ["record-under-another-name"]
    assert codes(tmp_path / "quay.yaml", "Gull Sands") == []


def test_a_folder_in_its_place(tmp_path: Path) -> None:
    record_path(tmp_path / "quay.yaml").mkdir()
    assert codes(tmp_path / "quay.yaml") == ["record-unreadable"]


@pytest.mark.parametrize(
    ("was", "harm"),
    [
        ('railway: "Marram Quay"', "railway: " + "[" * 5000),
        ('railway: "Marram Quay"', "railway: " + "[" * 100_000),
        ("format: 3", "format: " + "9" * 5000),
        ("format: 3", "format: ٣"),
    ],
)
def test_what_nobody_can_read_is_a_problem(was: str, harm: str) -> None:
    text = built_record_bytes(SMALL).decode()
    assert text.count(was) == 1
    found = read_record_bytes(text.replace(was, harm).encode(), PATH)
    assert not isinstance(found, BuiltRecord)
    assert found.code == "record-edited"


def test_brackets_without_end_in_another_record_are_no_hindrance(tmp_path: Path) -> None:
    (tmp_path / "quay.built.yaml").write_bytes(built_record_bytes(SMALL))
    (tmp_path / "other.built.yaml").write_text("railway: " + "[" * 4080)
    found = read_built_record(tmp_path / "quay.yaml", "Marram Quay")
    assert (found.record, found.problems) == (SMALL, ())
