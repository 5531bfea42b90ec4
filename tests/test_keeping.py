"""The as-built record through the commands: who writes it, when, and what happens when runs meet or are killed."""

import json
import os
import signal
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner, Result

from labelgen.command_line import app
from labelgen.model.built.built_record import BuiltRecord
from labelgen.natural_order import natural
from labelgen.reading.built_record_reader import read_built_record
from labelgen.rendering import built_record_file

TEXT = """\
railway: Gull Sands
boards: {West: {at: [0, 0]}, East: {at: [900, 0]}}
supplies: {PULSE: {kind: pulse, board: West, at: [10, 10]}}
strips:
  T1: {board: West, at: [300, 250], pitch: 8, ways: 30}
  T2: {board: East, at: [300, 250], pitch: 8, ways: 30}
panels: {BOX: {board: West, at: [450, 500], size: [300, 60], levers: {row: 3}}}
points:
  P1: {board: West, at: [200, 200]}
  P2: {board: East, at: [200, 200]}
"""
THREE = f"{TEXT}  P0: {{board: West, at: [100, 200]}}\n"


def run(*arguments: object) -> Result:
    return CliRunner().invoke(app, [str(argument) for argument in arguments])


@pytest.fixture
def railway(tmp_path: Path) -> Path:
    path = tmp_path / "gull-sands.yaml"
    path.write_text(TEXT, encoding="utf-8")
    return path


def kept(railway: Path) -> Path:
    return railway.with_name("gull-sands.built.yaml")


def record(railway: Path) -> BuiltRecord:
    found = read_built_record(railway, "Gull Sands")
    assert not found.problems
    assert found.record is not None
    return found.record


def changed(railway: Path) -> dict[str, Any]:
    result = run("wires", railway, "--changed", "--json")
    assert result.exit_code == 0, result.stderr
    found = json.loads(result.stdout)
    assert set(found) == {"came", "went", "moved"}
    return dict(found)


def ends(railway: Path) -> dict[int, tuple[str, str]]:
    """Number: the two ends of each wire."""
    wires = json.loads(run("wires", railway, "--json").stdout)["wires"]
    return {wire["number"]: (wire["from"], wire["to"]) for wire in wires}


def heads(wires: list[dict[str, Any]]) -> set[str]:
    return {wire["head"] for wire in wires}


def test_check_and_wires_only_read(railway: Path) -> None:
    for words in (("check", railway), ("wires", railway), ("wires", railway, "--changed")):
        assert run(*words).exit_code == 0
    assert [path.name for path in railway.parent.iterdir()] == ["gull-sands.yaml"]


def test_make_writes_it_beside_the_description_wherever_the_output_goes(railway: Path, tmp_path: Path) -> None:
    assert run("make", railway, "--only", "lists", "--into", tmp_path / "out").exit_code == 0
    assert kept(railway).exists()
    assert not (tmp_path / "out" / kept(railway).name).exists()
    assert len(record(railway).wires) == 14


def test_made_twice_it_stays_the_same_to_the_byte(railway: Path) -> None:
    run("make", railway, "--only", "lists")
    before, made = kept(railway).read_bytes(), (railway.with_suffix("") / "wires.csv").read_bytes()
    run("make", railway, "--only", "lists")
    assert (kept(railway).read_bytes(), (railway.with_suffix("") / "wires.csv").read_bytes()) == (before, made)


def test_what_is_made_keeps_its_numbers(railway: Path) -> None:
    run("make", railway, "--only", "lists")
    before = ends(railway)
    railway.write_text(THREE, encoding="utf-8")
    after = ends(railway)
    assert before.items() <= after.items()
    assert after.keys() - before.keys() == set(range(15, 22))


def test_changed_tells_what_came_went_and_moved(railway: Path) -> None:
    assert len(changed(railway)["came"]) == 14
    run("make", railway, "--only", "lists")
    assert changed(railway) == {"came": [], "went": [], "moved": []}
    assert "nothing came" in run("wires", railway, "--changed").stdout
    moved = "accepted: {moved: a burnt way}"
    railway.write_text(THREE.replace("P2: {", f"P2: {{strip: T2, way: 10, {moved}, "), encoding="utf-8")
    found = changed(railway)
    assert heads(found["came"]) == {"0N", "0F", "0R", "2N", "2F", "2R", "F", "C"}
    assert heads(found["went"]) == {"2N", "2F", "2R", "F"}
    assert found["moved"][0] == {"what": "P2 normal", "was": "T2.1", "now": "T2.10"}
    table = run("wires", railway, "--changed").stdout
    assert all(word in table for word in ("came", "went", "moved", "T2.10"))
    assert run("wires", railway, "--changed", "--csv").exit_code == 2


def test_an_error_leaves_it_alone(railway: Path) -> None:
    run("make", railway, "--only", "lists")
    before = kept(railway).read_bytes()
    railway.write_text(TEXT.replace("P2: {board: East", "P2: {board: West"), encoding="utf-8")
    result = run("make", railway)
    assert result.exit_code == 1
    assert "[moved]" in result.stderr
    assert kept(railway).read_bytes() == before


def test_an_edited_record_is_a_problem_and_stays_as_it_is(railway: Path) -> None:
    run("make", railway, "--only", "lists")
    edited = kept(railway).read_bytes().replace(b"T1.1", b"T1.2")
    kept(railway).write_bytes(edited)
    for command in ("check", "make", "wires", "printed"):
        result = run(command, railway)
        assert result.exit_code == 1
        assert "[record-edited]" in result.output
    assert kept(railway).read_bytes() == edited


def test_a_description_saved_under_a_new_name(railway: Path) -> None:
    run("make", railway, "--only", "lists")
    railway.rename(railway.with_name("gull.yaml"))
    result = run("make", railway.with_name("gull.yaml"))
    assert result.exit_code == 1
    assert "rename the record to gull.built.yaml" in " ".join(result.stderr.split())
    kept(railway).rename(railway.with_name("gull.built.yaml"))
    assert run("check", railway.with_name("gull.yaml")).exit_code == 0


def test_where_it_cannot_be_written_nothing_is(railway: Path, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    def refuse(*_: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(built_record_file, "write_durably", refuse)
    result = run("make", railway, "--into", tmp_path / "out")
    assert result.exit_code == 1
    assert "[cannot-write]" in result.stderr
    assert "gull-sands.built.yaml" in result.stderr
    assert [path.name for path in tmp_path.iterdir()] == ["gull-sands.yaml"]


def test_where_the_output_cannot_be_written_the_record_is_not(railway: Path) -> None:
    railway.with_suffix("").mkdir()
    (railway.with_suffix("") / "wires.csv").write_text("mine")
    assert run("make", railway, "--only", "lists").exit_code == 1
    assert {path.name for path in railway.parent.iterdir()} == {"gull-sands", "gull-sands.yaml"}


# Laid out anew, and printed.


def test_before_anything_is_printed_all_is_laid_out_anew(railway: Path) -> None:
    run("make", railway, "--only", "lists")
    railway.write_text(THREE, encoding="utf-8")
    run("make", railway, "--only", "lists")
    assert record(railway).groups[0].ways == {"normal": 4, "feed": 5, "reverse": 6}
    assert run("make", railway, "--afresh", "--only", "lists").exit_code == 0
    made = record(railway)
    assert made.groups[0].ways == {"normal": 1, "feed": 2, "reverse": 3}
    assert [wire.number for wire in made.wires] == list(range(1, 22))


def test_what_is_printed_stays_even_then(railway: Path) -> None:
    run("make", railway, "--only", "markers,flags")
    assert run("printed", railway, "--only", "markers", "--board", "West").exit_code == 0
    railway.write_text(THREE, encoding="utf-8")
    before = {wire.number: wire for wire in record(railway).wires}
    run("make", railway, "--afresh", "--only", "lists")
    after = record(railway)
    ways = {group.circuit: sorted(group.ways.values()) for group in after.groups}
    assert ways == {"0": [4, 5, 6], "1": [1, 2, 3], "2": [1, 2, 3]}
    assert all(before[wire.number].ends == wire.ends for wire in after.wires if wire.circuit == "1")


def printed(railway: Path) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for label in sorted(record(railway).printed, key=lambda one: natural(one.label)):
        of_kind = found.setdefault(label.kind, [])
        name = label.label.partition(" on ")[0] if label.kind == "flags" else label.label
        if name not in of_kind:  # both flags of a wire from board to board
            of_kind.append(name)
    return found


def test_printed_and_undone(railway: Path) -> None:
    run("make", railway)
    assert run("printed", railway).exit_code == 0
    everything = printed(railway)
    assert everything == {
        "markers": ["T1", "T2"],
        "flags": [str(number) for number in range(1, 15)],
        "tags": ["T1", "T2"],
        "plates": ["1", "2"],
        "places": ["P1", "P2", "PULSE"],
        "fascia": ["BOX"],
    }
    assert run("printed", railway).exit_code == 0, "twice does no harm"
    assert printed(railway) == everything
    run("printed", railway, "--undo", "--only", "tags", "--board", "East")
    assert printed(railway)["tags"] == ["T1"]
    run("printed", railway, "--undo", "--only", "flags,plates")
    assert printed(railway).keys() == {"markers", "tags", "places", "fascia"}
    run("printed", railway, "--undo")
    assert printed(railway) == {}


def test_plugs_and_holes_are_stuck_on_too(railway: Path) -> None:
    text = TEXT.replace("West: {at: [0, 0]}", "West: {at: [0, 0], holes: {H1: {at: [400, 400]}}}")
    plug = "plugs: {J1: {boards: [West, East], pins: 9, at: {West: [890, 10], East: [10, 10]}}}\n"
    railway.write_text(text + plug, encoding="utf-8")
    run("make", railway, "--only", "places")
    assert run("printed", railway, "--only", "places").exit_code == 0
    assert printed(railway) == {"places": ["H1", "J1 on East", "J1 on West", "P1", "P2", "PULSE"]}
    assert run("printed", railway, "--undo", "--board", "West").exit_code == 0
    assert printed(railway) == {"places": ["J1 on East", "P2"]}


def test_printed_is_what_was_made_last(railway: Path) -> None:
    run("make", railway, "--only", "markers,lists", "--board", "East")
    assert run("printed", railway).exit_code == 0
    assert printed(railway) == {"markers": ["T2"]}
    for words in (("--only", "flags"), ("--board", "West")):
        result = run("printed", railway, *words)
        assert result.exit_code == 1
        assert "[nothing-made]" in result.stderr
        assert "markers of board East" in " ".join(result.stderr.split())
    run("make", railway, "--only", "lists")
    result = run("printed", railway)
    assert "nothing of that is stuck on" in " ".join(result.stderr.split())


def test_what_came_after_it_was_made_is_not_printed(railway: Path) -> None:
    run("make", railway, "--only", "flags,plates")
    railway.write_text(THREE, encoding="utf-8")
    run("printed", railway)
    assert printed(railway) == {"flags": [str(number) for number in range(1, 15)], "plates": ["1", "2"]}


def test_flags_of_one_board(railway: Path) -> None:
    run("make", railway, "--only", "flags")
    run("printed", railway, "--board", "East")
    wires = {str(wire.number): wire for wire in record(railway).wires}
    there = {number for number, wire in wires.items() if "T2." in wire.start + wire.finish}
    assert there <= {*printed(railway)["flags"]} < wires.keys()


def test_printed_without_anything_made_or_misused(railway: Path) -> None:
    result = run("printed", railway)
    assert (result.exit_code, kept(railway).exists()) == (1, False)
    assert "[nothing-made]" in result.stderr
    run("make", railway, "--only", "lists")
    assert run("printed", railway, "--only", "lists").exit_code == 2
    assert run("printed", railway, "--only", "hats").exit_code == 2
    assert run("printed", railway, "--board", "North").exit_code == 2
    railway.write_text("railway: [", encoding="utf-8")
    assert run("printed", railway).exit_code == 1


# Two runs at once, and a kill at any moment.


def command(railway: Path, *more: str) -> list[str]:
    return [sys.executable, "-m", "labelgen", "make", str(railway), "--only", "lists", *more]


def test_two_runs_at_once_leave_a_whole_record(railway: Path, tmp_path: Path) -> None:
    """Each waits for the other: the second knows what the first has written, and no number is given twice."""
    processes = []
    for number in range(4):
        processes.append(subprocess.Popen(command(railway, "--into", str(tmp_path / f"out{number}"))))
        time.sleep(0.3)
        railway.write_text(f"{TEXT}  P{9 - number}: {{board: West, at: [100, 200]}}\n", encoding="utf-8")
    assert [process.wait() for process in processes] == [0] * 4
    made = record(railway)
    numbers = [wire.number for wire in (*made.wires, *made.retired)]
    assert len(numbers) == len(set(numbers))
    assert not [path for path in railway.parent.iterdir() if path.name.startswith(".gull")]


def test_a_kill_at_any_moment_leaves_the_old_record_or_the_new_one(railway: Path) -> None:
    run("make", railway, "--only", "lists")
    old = kept(railway).read_bytes()
    railway.write_text(THREE, encoding="utf-8")
    seen = set()
    for tenths in range(3, 16, 2):
        process = subprocess.Popen(command(railway), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        time.sleep(tenths / 10)
        process.send_signal(signal.SIGKILL)
        process.wait()
        seen.add(kept(railway).read_bytes())
        assert read_built_record(railway, "Gull Sands").problems == ()
    assert run("make", railway, "--only", "lists").exit_code == 0
    new = kept(railway).read_bytes()
    assert seen <= {old, new}
    assert not [path for path in railway.parent.iterdir() if path.name.startswith(".gull")]


def test_a_kill_between_the_output_and_the_record(railway: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The next run gives the same numbers again, for it starts from the same record."""
    run("make", railway, "--only", "lists")
    railway.write_text(THREE, encoding="utf-8")

    def die(*_: object) -> None:
        raise KeyboardInterrupt

    with monkeypatch.context() as patched:
        patched.setattr(built_record_file.RecordFile, "put_in_place", die)
        CliRunner().invoke(app, ["make", str(railway), "--only", "lists"])
    made = (railway.with_suffix("") / "wires.csv").read_bytes()
    assert len(record(railway).wires) == 14
    assert run("make", railway, "--only", "lists").exit_code == 0
    assert (railway.with_suffix("") / "wires.csv").read_bytes() == made
    assert len(record(railway).wires) == 21


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write everywhere")
def test_a_folder_that_may_only_be_read(railway: Path, tmp_path: Path) -> None:
    folder = tmp_path / "locked"
    folder.mkdir()
    locked = folder / railway.name
    railway.rename(locked)
    folder.chmod(0o555)
    try:
        assert run("make", locked, "--into", tmp_path / "out").exit_code == 1
        assert not (tmp_path / "out").exists()
        assert run("check", locked).exit_code == 0
    finally:
        folder.chmod(0o755)
