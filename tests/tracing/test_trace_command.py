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
    """The lamps are dead, but every reading on their one way there and back is as it should be, and the supply's."""
    asked = ["--dead", "LAMPS"]
    while (measure := answer(*asked)["measure"]) is not None:
        asked += ["--right", f"{measure['from']}:{measure['to']}"]
    assert "Look there: at the mains plug, the switch and the fuse first" in trace(*asked).stdout
    assert "Nothing on paper explains that" in trace(*asked, "--right", "LIGHT.feed:LIGHT.return").stdout


@pytest.mark.parametrize(
    ("dead", "good", "said"),
    [
        ("5N", "PULSE", "5N cannot be dead while PULSE works"),
        ("5N", "5n", "5N cannot both work and not work"),
        ("L5", "5R", "L5 cannot be dead while 5R works"),
    ],
)
def test_what_clashes_is_said(dead: str, good: str, said: str) -> None:
    done = trace("--dead", dead, "--good", good)
    assert done.exit_code == 0
    assert done.stdout.startswith(said)


def test_of_a_route_one_device_may_be_dead() -> None:
    """Platform 1 throws P1 by its own diode, which nothing else needs: 1N by lever and P1 by Platform 2 still work."""
    found = answer("--dead", "Platform 1.P1", "--good", "Platform 1.P2,1N,Platform 2.P1")
    assert [(s["fault"], s["where"]) for s in found["suspects"]] == [("open-diode", ["MATRIX.A", "MATRIX.1"])]


def test_the_last_place_is_proved_before_anything_is_mended() -> None:
    """Of two motors at one lever one is dead: two crossed wires alone explain that, which two readings must show."""
    done = trace("--dead", "P5A", "--good", "P5B")
    assert "Be sure before you mend:" in done.stdout
    assert "If it does: not that, but something else, or two things at once." in done.stdout
    bad = trace("--dead", "P5A", "--good", "P5B", "--wrong", "S2.3:P5A.N", "--wrong", "S2.5:P5A.R")
    assert "Look there: change the two wires over at one end" in bad.stdout
    assert "If all is well there, more than one thing is wrong" in bad.stdout
    fine = trace("--dead", "P5A", "--good", "P5B", "--right", "S2.3:P5A.N")
    assert "It takes two faults to explain that" in fine.stdout


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
    assert "Look there: pull gently at the wire" in said
    assert "100%" in said


def test_what_cannot_be_measured_is_skipped_and_q_ends_it() -> None:
    said = typed_at_a_terminal("s\nq\n")
    first, second = [line for line in said.splitlines() if "Measure the resistance" in line]
    assert first != second
