"""`labelgen trace` as a builder types it, on the example."""

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner, Result

from labelgen.command_line import app
from labelgen.data_files import layouts

EXAMPLE = layouts("railways") / "marram-quay.yaml"


def trace(*words: str, typed: str = "") -> Result:
    return CliRunner().invoke(app, ["trace", str(EXAMPLE), *words], input=typed)


def answer(*words: str) -> dict[str, Any]:
    done = trace(*words, "--json")
    assert done.exit_code == 0, done.output
    found: dict[str, Any] = json.loads(done.stdout)
    return found


def test_one_answer_for_programs() -> None:
    found = answer("--dead", "5N", "--good", "5R,1N")
    assert found.keys() >= {"suspects", "measure"}
    for suspect in found["suspects"]:
        assert suspect.keys() >= {"fault", "where", "likelihood"}
        assert suspect["where"]
    likelihoods = [suspect["likelihood"] for suspect in found["suspects"]]
    assert likelihoods == sorted(likelihoods, reverse=True)
    assert sum(likelihoods) == pytest.approx(1)
    assert found["measure"].keys() >= {"from", "to", "expect"}


def test_what_5n_needs_and_5r_does_not_is_what_is_named() -> None:
    """Written out by hand from the wire list: 22 is the only wire that both motors of 5N need and 5R does not."""
    found = answer("--dead", "5N", "--good", "5R")
    wires = {tuple(s["where"]) for s in found["suspects"] if s["fault"] == "broken-wire"}
    assert wires == {("L5.N", "S2.3")}
    assert {s["fault"] for s in found["suspects"]} == {"bad-joint", "broken-wire", "dead-contact", "swapped-pair"}


def test_readings_are_taken_in() -> None:
    before = answer("--dead", "5N", "--good", "5R")
    ends = f"{before['measure']['from']}:{before['measure']['to']}"
    fine, bad = (answer("--dead", "5N", "--good", "5R", how, ends) for how in ("--right", "--wrong"))
    assert len(fine["suspects"]) < len(before["suspects"])
    assert len(bad["suspects"]) < len(before["suspects"])
    assert fine["suspects"] != bad["suspects"]


def test_a_person_is_told_where_and_what_to_measure() -> None:
    done = trace("--dead", "5N", "--good", "5R")
    assert done.exit_code == 0
    assert "the wire 22 (5N) from L5.N to S2.3, or either of its ends" in done.stdout
    assert "discharge the capacitor bank" in done.stdout
    assert "It should read under 1 ohm" in done.stdout


def test_a_link_is_called_so_with_its_screws() -> None:
    done = trace("--dead", "4N,9N,5N", "--good", "3N")
    assert "the link S1.4–S1.7, or either of its screws" in done.stdout


@pytest.mark.parametrize("word", ["P5A", "p5a.n", "L5", "Platform 1", "PULSE", "YARD", "11Ts", "LAMPSL"])
def test_things_may_be_named_as_they_are_called(word: str) -> None:
    assert answer("--dead", word)["suspects"]


@pytest.mark.parametrize("word", ["55N", "X", "S1.3"])
def test_an_unknown_head_is_misuse(word: str) -> None:
    done = trace("--dead", word)
    assert done.exit_code == 2
    assert word in done.stderr


def test_a_near_miss_is_guessed() -> None:
    assert "5N" in trace("--dead", "5NN").stderr


def test_a_reading_between_ends_that_tell_nothing_is_misuse() -> None:
    assert trace("--dead", "5N", "--right", "S1.1:LAMPS.C").exit_code == 2


def test_what_cannot_be_explained_is_said() -> None:
    done = trace("--dead", "5N", "--good", "PULSE")
    assert done.exit_code == 0
    assert "Nothing on paper explains that" in done.stdout


def test_without_a_dead_head_nothing_is_guessed() -> None:
    assert trace().exit_code == 2


def test_an_error_in_the_description_comes_first(tmp_path: Path) -> None:
    bad = tmp_path / "bad.yaml"
    bad.write_text("railway: [\n")
    done = CliRunner().invoke(app, ["trace", str(bad), "--dead", "5N"])
    assert done.exit_code == 1


def typed_at_a_terminal(keys: str) -> str:
    """What is said when the answers are typed one by one."""
    ours, theirs = os.openpty()
    command = [sys.executable, "-m", "labelgen", "trace", str(EXAMPLE), "--dead", "5N", "--good", "5R"]
    os.write(ours, keys.encode())
    with os.fdopen(theirs) as terminal:
        done = subprocess.run(command, stdin=terminal, capture_output=True, text=True, timeout=60, check=True)
    os.close(ours)
    return done.stdout


def test_it_asks_on_until_one_place_remains() -> None:
    said = typed_at_a_terminal("n\nn\nn\nn\n")
    assert said.count("It should read") >= 1
    assert "Look there: pull gently at each wire" in said
    assert "100%" in said


def test_what_cannot_be_measured_is_skipped_and_q_ends_it() -> None:
    said = typed_at_a_terminal("s\nq\n")
    first, second = [line for line in said.splitlines() if "Measure the resistance" in line]
    assert first != second
