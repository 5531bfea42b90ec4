"""Labels that are stuck on, and what the wiring has become since."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from typer.testing import CliRunner

from labelgen.checks.printed_labels import printed_labels
from labelgen.command_line import app
from labelgen.keeping import write_record
from labelgen.making import Checked
from labelgen.model.built.built_labels import BLANKS, STUCK_ON, PrintedLabel
from labelgen.model.built.built_record import record_path
from labelgen.model.built.record_labels import labels_of
from labelgen.pipeline import check_file
from labelgen.problems import Problem

TEXT = """\
railway: Gull Sands
boards: {West: {size: [900, 500], at: [0, 0]}, East: {size: [900, 500], right_of: West, shown: E2}}
supplies: {PULSE: {kind: pulse, board: West, at: [10, 10]}, LIGHT: {kind: dc, board: West, at: [10, 20], fuse: 1}}
strips:
  T1: {board: West, at: [300, 250], measured: 110}
  T2: {board: East, at: [300, 250], measured: 110}
points:
  P1: {board: West, at: [200, 200]}
  P2: {board: East, at: [200, 200]}
"""


def checked(folder: Path, text: str) -> Checked:
    path = folder / "gull-sands.yaml"
    path.write_text(text, encoding="utf-8")
    found, _ = check_file(path)
    assert found is not None
    return found


def told(
    folder: Path, text: str, *, first: str = TEXT, kinds: tuple[str, ...] = STUCK_ON, board: str = ""
) -> list[Problem]:
    """After all labels (of some kinds, of one board) of `first` were printed, and the description became `text`."""
    record_path(folder / "gull-sands.yaml").unlink(missing_ok=True)
    before = checked(folder, first)
    assert write_record(folder / "gull-sands.yaml", before.built, None) == []
    labels = [one for kind in kinds for one in labels_of(before.description, before.netlist, kind).values()]
    printed = [one.printed("A") for one in labels if board in ("", one.board)]
    printed.append(PrintedLabel(kind="places", label="LIGHT", fingerprint="0", board="West", says="label of LIGHT"))
    printed.append(PrintedLabel(kind=BLANKS, label="900", says="blank"))
    after = checked(folder, text)
    return printed_labels(after.description, after.netlist, replace(after.built, printed=tuple(printed)))


def test_nothing_is_said_before_anything_is_printed(tmp_path: Path) -> None:
    one = checked(tmp_path, TEXT)
    assert printed_labels(one.description, one.netlist, one.built) == []


def test_nothing_is_said_while_all_is_as_printed(tmp_path: Path) -> None:
    assert told(tmp_path, TEXT) == []
    assert told(tmp_path, TEXT + "slack: {round: 200}\nprinting: {mono: yes}\n") == [], "no label says a length"


def test_each_board_is_told_of_once_with_its_issues(tmp_path: Path) -> None:
    """On West the tag, the marker and the flags of one wire say so; E2's strip is as it was."""
    (found,) = told(tmp_path, TEXT + "wires: [{from: L1.N, to: T1.1, colour: white}]\n")
    assert (found.code, found.place.line) == ("labels-out-of-date", 2)
    assert found.message == (
        "2 labels on board West say something else than the wiring now does: marker T1 is printed at issue A, and the"
        " wiring is at B"
    )
    (found,) = told(tmp_path, TEXT.replace("T2: {", "T2: {name: throat, "))
    assert found.message.startswith("1 label on board E2 says something else than the wiring now does: tag T2 is")


def test_what_is_new_and_what_is_left_over_is_counted(tmp_path: Path) -> None:
    """A point beside another makes seven wires, of which one is a link without flags."""
    found = told(tmp_path, TEXT + "  P3: {board: East, at: [300, 200]}\n", kinds=("flags",))
    assert [(one.code, one.message) for one in found] == [
        ("labels-changed", "the labels are not those that are stuck on: 6 new")
    ]
    gone = told(tmp_path, TEXT.replace("  P2: {board: East, at: [200, 200]}\n", "").replace(", LIGHT: ", ", LAMP: "))
    messages = [one.message for one in gone if one.code == "labels-changed"]
    assert len(messages) == 1
    assert messages[0].endswith(" printed, and of nothing that is still there")


def test_what_was_never_begun_is_not_missed(tmp_path: Path) -> None:
    """Only West's flags are printed: nobody is told of markers, or of flags on East."""
    more = TEXT.replace("  P2:", "  P3: {board: East, at: [300, 200]}\n  P2:")
    assert told(tmp_path, more, kinds=("flags",), board="West") == []


def test_without_boards_it_is_shown_at_the_railway(tmp_path: Path) -> None:
    first = "railway: Gull Sands\nsupplies: {PULSE: {kind: pulse}}\nstrips: {T1: }\npoints: {P1: }\n"
    (found, left) = told(tmp_path, f"{first}levers: {{1: {{name: quay}}}}\n", first=first)
    assert left.message.endswith(": 1 printed, and of nothing that is still there"), "there is no LIGHT here"
    assert (found.code, found.place.line) == ("labels-out-of-date", 1)
    assert found.message.startswith("1 label says something else")
    assert "plate 1 is printed at issue A" in found.message


@pytest.fixture
def command() -> Callable[..., str]:
    return lambda *arguments: CliRunner().invoke(app, list(arguments)).stdout


def test_check_says_it_and_writes_nothing(tmp_path: Path, command: Callable[..., str]) -> None:
    path = tmp_path / "gull-sands.yaml"
    path.write_text(TEXT, encoding="utf-8")
    for words in (("make", str(path), "--only", "flags,tags"), ("printed", str(path))):
        command(*words)
    assert "labels-" not in command("check", str(path))
    path.write_text(TEXT.replace("T2: {", "T2: {name: throat, ") + "  P3: {board: East}\n", encoding="utf-8")
    before = record_path(path).read_bytes()
    said = command("check", str(path), "--all")
    assert "[labels-out-of-date]" in said
    assert "[labels-changed]" in said
    assert record_path(path).read_bytes() == before
    accepted = path.read_text(encoding="utf-8") + "accepted: {labels-out-of-date: next week, labels-changed: so too}\n"
    path.write_text(accepted, encoding="utf-8")
    assert "labels-" not in command("check", str(path), "--all").replace("accepted: {labels-", "")
