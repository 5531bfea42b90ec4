"""What is accepted beside a thing: section 2 of the format."""

from pathlib import Path

import pytest

from labelgen.accepting import THINGS, Accepting, thing_at
from labelgen.model.description import Description
from labelgen.pipeline import check_file
from labelgen.problems import CODES, OVERRIDABLE, Problem, Severity, may_be_accepted
from labelgen.reading.description_reader import read_description_text

TEXT = """\
railway: Marram Quay
boards:
  West:
    size: [1200, 600]
    at: [0, 0]
    holes: {H1: {at: [1300, 100], diameter: 20}}
supplies:
  PULSE: {kind: pulse, at: [100, 550]}
strips:
  A1: {at: [600, 500], measured: 110}
points:
  P5: {name: harbour siding, at: [1400, 200], board: West}
  P6: {at: [1500, 200]}
wires:
  - {from: A1.10, to: A1.11, function: lamp}
"""
OUTSIDE = "accepted: {outside-board: it hangs on the wall}"


def checked(folder: Path, text: str) -> tuple[list[tuple[str, int]], list[tuple[str, str, list[int]]]]:
    """(code, line) of what is left of the cautions about boards, and (code, thing, lines) of what is accepted."""
    file = folder / "railway.yaml"
    file.write_text(text, encoding="utf-8")
    found, problems = check_file(file)
    assert found is not None
    told = [(one.code, one.place.line) for one in problems if one.code not in ("no-lengths", "fuse-not-said")]
    accepted = [(one.code, one.thing, [p.place.line for p in one.problems]) for one in found.acceptances]
    return told, accepted


def test_without_any_all_is_told(tmp_path: Path) -> None:
    told, accepted = checked(tmp_path, TEXT)
    assert told == [("outside-board", 6), ("outside-board", 12), ("outside-board", 13)]
    assert accepted == []


@pytest.mark.parametrize(
    ("where", "to", "left", "expected"),
    [
        ("board: West}", f"board: West, {OUTSIDE}}}", [6, 13], ("point P5", [12])),
        ("diameter: 20}", f"diameter: 20, {OUTSIDE}}}", [12, 13], ("hole H1", [6])),
        ("    at: [0, 0]\n", f"    at: [0, 0]\n    {OUTSIDE}\n", [13, 14], ("board West", [7])),
        ("railway: Marram Quay\n", f"railway: Marram Quay\n{OUTSIDE}\n", [], ("the railway", [7, 13, 14])),
    ],
)
def test_it_holds_for_what_stands_within_the_thing(
    tmp_path: Path, where: str, to: str, left: list[int], expected: tuple[str, list[int]]
) -> None:
    told, accepted = checked(tmp_path, TEXT.replace(where, to))
    assert [line for code, line in told if code == "outside-board"] == left
    assert accepted == [("outside-board", *expected)]


def test_the_nearest_one_counts(tmp_path: Path) -> None:
    text = TEXT.replace("board: West}", f"board: West, {OUTSIDE}}}") + f"{OUTSIDE}\n"
    told, accepted = checked(tmp_path, text)
    assert told == []
    assert accepted == [
        ("outside-board", "the railway", [6, 13]),
        ("outside-board", "point P5", [12]),
    ]


def test_one_that_never_applies_is_a_note_at_its_own_place(tmp_path: Path) -> None:
    text = TEXT.replace("at: [1400, 200]", "at: [400, 200]").replace("board: West}", f"board: West, {OUTSIDE}}}")
    told, accepted = checked(tmp_path, text)
    assert ("accepted-idle", 12) in told
    assert CODES["accepted-idle"] is Severity.NOTE
    assert accepted == []


def test_an_error_that_may_be_overridden(tmp_path: Path) -> None:
    text = "railway: x\nsupplies: {D: {kind: pulse}}\nstrips: {A: }\npoints: {P5: }\nlevers:\n  5: {type: latching%s}\n"
    assert [code for code, _ in checked(tmp_path, text % "")[0]] == ["pitch-not-measured", "coil-steady"]
    told, accepted = checked(tmp_path, text % ", accepted: {coil-steady: a key cuts the feed off}")
    assert [code for code, _ in told] == ["pitch-not-measured"]
    assert accepted == [("coil-steady", "lever 5", [6])]


def test_an_accepted_error_does_not_keep_other_checks_back(tmp_path: Path) -> None:
    """Where an error stands, notes are not told: an accepted one is none."""
    text = TEXT.replace("strips:", "levers: {5: {type: latching, accepted: {coil-steady: so it is}}}\nstrips:")
    assert ("outside-board", 6) in checked(tmp_path, text)[0]


@pytest.mark.parametrize(
    ("accepted", "said"),
    [
        ("{outside-bord: why}", "there is no problem called `outside-bord`"),
        ("{mains-plug: it never happens}", "`mains-plug` cannot be accepted"),
        ("{unknown-key: why}", "`unknown-key` cannot be accepted"),
    ],
)
def test_what_cannot_be_accepted_is_an_error(tmp_path: Path, accepted: str, said: str) -> None:
    file = tmp_path / "railway.yaml"
    file.write_text(TEXT.replace("board: West}", f"board: West, accepted: {accepted}}}"), encoding="utf-8")
    (problem,) = [one for one in check_file(file)[1] if one.code == "bad-accepted"]
    assert problem.message == said
    assert problem.severity is Severity.ERROR
    assert problem.place.line == 12


@pytest.mark.parametrize("reason", ["", "''", "'  '"])
def test_a_reason_is_asked_for(reason: str) -> None:
    description, problems = read_description_text(f"railway: x\npoints: {{P5: {{accepted: {{moved: {reason} }}}}}}\n")
    assert description is None
    assert [(one.code, one.place.line) for one in problems] == [("bad-accepted", 2)]


def test_moved_is_the_wirings_and_stands_beside_a_device() -> None:
    beside, _ = read_description_text("railway: x\npoints: {P5: {lever: none, accepted: {moved: burnt}}}\n")
    assert beside is not None
    accepting = Accepting(beside)
    assert accepting.problems == []
    assert accepting.idle() == []
    (one,) = accepting.acceptances()
    assert (one.code, one.thing, [p.code for p in one.problems]) == ("moved", "point P5", ["moved"])
    elsewhere, _ = read_description_text("railway: x\nstrips: {A1: {accepted: {moved: burnt}}}\n")
    assert elsewhere is not None
    assert [p.message for p in Accepting(elsewhere).problems] == ["`moved` is not accepted here"]


def test_what_only_making_comes_to_is_never_idle() -> None:
    description, _ = read_description_text("railway: x\naccepted: {near-paper-edge: my printer can}\n")
    assert description is not None
    accepting = Accepting(description)
    assert accepting.idle() == []
    place = description.place_of("railway")
    assert accepting.left([Problem(code="near-paper-edge", message="", hint="", place=place)]) == []


def test_beside_every_thing_of_the_form() -> None:
    """Each record that stands in a table of the description, holes and listed wires besides."""
    assert {name for name in THINGS if name not in Description.model_fields} == set()
    text = """
railway: x
accepted: {no-lengths: a}
boards: {B: {accepted: {no-lengths: b}, holes: {H: {at: [1, 1], accepted: {no-lengths: c}}}}}
panels: {P: {accepted: {no-lengths: d}}}
supplies: {S: {kind: dc, accepted: {no-lengths: e}}}
strips: {A: {accepted: {no-lengths: f}}}
levers: {1: {spare: yes, accepted: {no-lengths: g}}}
points: {P1: {lever: none, accepted: {no-lengths: h}}}
devices: {D: {kind: lamps, accepted: {no-lengths: i}}}
plugs: {J: {boards: [B, C], pins: 2, accepted: {no-lengths: j}}}
hardware: {own: {about: x, use: lever, hole: 6, covers: 9, fingers: 9, body: [9, 9], accepted: {no-lengths: k}}}
routes: {R: {levers: {}, accepted: {no-lengths: l}}}
kinds: {k: {terminals: {A: }, supply: dc, accepted: {no-lengths: m}}}
functions: {f: {code: Z, accepted: {no-lengths: n}}}
wires: [{from: A.1, to: A.2, accepted: {no-lengths: o}}]
"""
    description, _ = read_description_text(text)
    assert description is not None
    reasons = {one.place.line: one for one in Accepting(description).idle()}
    assert len(Accepting(description).idle()) == 15
    assert sorted(reasons) == list(range(3, 17))


def test_errors_that_may_be_overridden_are_rules_of_the_trade() -> None:
    refused = {"voltage-too-high", "mains-on-layout", "mains-plug", "safety-colour", "ac-joined", "bad-yaml", "ring"}
    assert [code for code in refused if may_be_accepted(code)] == []
    assert {CODES[code] for code in OVERRIDABLE} == {Severity.ERROR}
    assert may_be_accepted("no-fuse")
    assert may_be_accepted("fuse-not-said")


@pytest.mark.parametrize(
    ("path", "called"),
    [
        ((), ""),
        (("railway",), "railway"),
        (("strips", "A1", "ways"), "strip A1"),
        (("supplies", "PULSE"), "supply PULSE"),
        (("boards", "West", "holes", "H1"), "hole H1"),
        (("wires", 2, "from"), "entry 3 of wires"),
        (("wires",), "wires"),
        (("hardware", "own"), "part own"),
        (("routes", "Platform 1"), "route Platform 1"),
    ],
)
def test_what_things_are_called(path: tuple[str | int, ...], called: str) -> None:
    assert thing_at(path) == called
