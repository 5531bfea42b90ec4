"""From a file to a description: every mistake at its place, in the builder's words, in one run."""

from pathlib import Path

import pytest

from labelgen.model.description import Description
from labelgen.places import NoPlaces
from labelgen.problems import CODES, Problem
from labelgen.reading.description_reader import read_description, read_description_bytes, read_description_text
from labelgen.reading.error_words import in_words
from labelgen.reading.reference_list import check_references

GOOD = """\
railway: Marram Quay
boards:
  West: {size: [1200, 600], at: [0, 0], holes: {H1: {at: [10, 20]}}, panel: BOX}
  East: {size: [1200, 600], right_of: West}
supplies:
  PULSE: {kind: pulse, board: West, terminals: {feed: "+"}}
  CAB: {kind: track, board: West, fed_by: PULSE}
  LAMPS: {kind: dc, board: East}
strips:
  A1: {board: West, ways: 12, taken: {7: doorbell}, bridges: [[1, 4]], keep: [11, 12], panel_side: back}
  B1: {board: East, way_1: front, panel_side: right, measured: 110}
  C1: {board: East, amps: 30, pitch: 13, ways: 1}
levers:
  Y3: {panel: BOX}
points:
  P5A: {board: West, name: Harbour siding, at: [400, 200], terminals: {N: "1"}}
  P5B: {board: East}
  P08: {board: West, lever: none}
  P: {board: West}
devices:
  S1: {board: West, kind: section, lever: Y3}
  QUAY: {board: East, kind: lamps, supply: LAMPS}
kinds:
  buzzer: {terminals: {A: one, B: other}, supply: dc, lever_type: button,
    group: [{function: horn, contact: 1, chain: feed}, {function: horn, mark: b, contact: 2, terminal: A}],
    chain: [{function: return, terminal: B, supply: return}]}
functions:
  horn: {code: H, colour: red/blue, pattern: dots, size: 20 AWG}
  lamp: pink
panels:
  BOX: {board: West, size: [300, 200], tracks: {main: [[1, 2], P5A, [9, 2]]}, levers: {row: 15, 5: [2, 3]},
    points: {P5A: [4, 2], P5B: {at: [6, 2], normal: main}}, sections: {S1: [3, 2]}}
wires:
  - {from: A1.9, to: B1.1, function: horn, colour: BK, size: 0.5}
"""


def problems_of(text: str) -> list[Problem]:
    return read_description_text(text, "quay.yaml")[1]


def good() -> dict[str, object]:
    description, _ = read_description_text(GOOD, "quay.yaml")
    assert description is not None
    return description.model_dump()


def told(text: str) -> list[tuple[str, int, int]]:
    return [(one.code, one.place.line, one.place.column) for one in problems_of(text)]


def test_a_good_description() -> None:
    description, problems = read_description_text(GOOD, "quay.yaml")
    assert problems == []
    assert description is not None
    assert description.points["P5A"].at == (400, 200)
    place = description.place_of("points", "P5A", "name")
    assert (place.file, place.line, place.column, place.length) == ("quay.yaml", 16, 28, 14)
    assert description.place_of_key("devices", "S1").line == 21


def test_a_file(tmp_path: Path) -> None:
    path = tmp_path / "quay.yaml"
    path.write_text(GOOD, encoding="utf-8")
    description, problems = read_description(path)
    assert problems == []
    assert description is not None
    assert description.model_dump() == good()
    assert read_description(tmp_path / "none.yaml")[1][0].code == "file-missing"


def test_line_ends_and_a_mark_change_nothing() -> None:
    crlf = b"\xef\xbb\xbf" + GOOD.replace("\n", "\r\n").encode()
    description, problems = read_description_bytes(crlf, "quay.yaml")
    assert problems == []
    assert description is not None
    assert description.model_dump() == good()


def test_a_description_made_in_memory_can_be_checked() -> None:
    description = Description.model_validate({"railway": "x", "points": {"P5": {"board": "Y"}}})
    assert [one.place for one in check_references(description)] == [NoPlaces().of_key(())]


BAD = [
    # form
    ("about: x", "missing-key", (1, 1), "railway"),
    ("railway:", "wrong-type", (1, 1), "nothing"),
    ("railway: x\nwords: english", "unknown-choice", (2, 8), "british or american"),
    ("railway: x\nwords: [british]", "wrong-type", (2, 8), "list"),
    ("railway: x\nwords:", "wrong-type", (2, 1), "nothing"),
    ("railway: x\nstirps: {}", "unknown-key", (2, 1), "Did you mean `strips`?"),
    ("railway: x\nlever: 5", "unknown-key", (2, 1), "Did you mean `levers`?"),
    ("railway: x\nohms: 5", "unknown-key", (2, 1), "a kind"),
    ("railway: x\nsmallest_text: 5", "unknown-key", (2, 1), "`printing`"),
    ("railway: x\nabout: y\nabot: z", "unknown-key", (3, 1), "Did you mean `about`?"),
    ("railway: x\nzzzz: 5", "unknown-key", (2, 1), "It may have: railway"),
    ("railway: x\npoints: {P5: {ohms: 4,5}}", "unknown-key", (2, 23), "4.5"),
    ("railway: x\npoints: {P5: {way: 4.5}}", "bad-number", (2, 20), "whole"),
    ("railway: x\npoints: {P5: {at: [1, x]}}", "bad-number", (2, 23), "plain number"),
    ("railway: x\npoints: {P5: {at: 400}}", "wrong-type", (2, 19), "brackets"),
    ("railway: x\npoints: {P5: {at: [1, 200000]}}", "out-of-range", (2, 23), "between"),
    ("railway: x\npoints: {P5: {at: [120 180]}}", "wrong-type", (2, 19), "comma between these two numbers is missing"),
    ("railway: x\npoints: {P5: {at: [120 180]}}", "wrong-type", (2, 19), "Write [120, 180]."),
    ("railway: x\npoints: {P5: {at: [1, 2, 3]}}", "wrong-type", (2, 19), "two numbers are expected here, not 3"),
    ("railway: x\nboards: {A: {size: 420x190}}", "wrong-type", (2, 20), "Write [420, 190]."),
    ("railway: x\nboards: {A: {size: 420 × 190 mm}}", "wrong-type", (2, 20), "Write [420, 190]."),
    ("railway: x\nboards: {A: {size: wide}}", "wrong-type", (2, 20), "[120, 45]"),
    ("railway: x\nboards: {A: {size: [0, 600]}}", "out-of-range", (2, 21), "more than 0, and 100 000 mm at most"),
    ("railway: x\nsupplies: {S: {kind: dc, volts: 0}}", "out-of-range", (2, 33), "more than 0, and 100 000 at most"),
    (
        "railway: x\npanels: {Q: {size: 42x19, tracks: {up: [[1, 2], [3, 2]]}}}",
        "wrong-type",
        (2, 20),
        "Write [42, 19].",
    ),
    ("railway: x\nwires:\n  {from: A.1, to: A.2}", "wrong-type", (3, 3), "begins with a dash"),
    ("railway: x\nwires:\n  from: A.1\n  to: A.2", "wrong-type", (2, 1), "- {from: …}"),
    ("railway: x\nwires: {}", "wrong-type", (2, 8), "a list is expected here"),
    ("railway: x\npoints: [P5]", "wrong-type", (2, 9), "a list"),
    ("railway: x\npoints:\n  - P5", "wrong-type", (2, 1), "a list"),
    ("railway: x\npoints: {P 5: {}}", "bad-id", (2, 10), "cannot be an id"),
    ("railway: x\nboards: {aux: {}}", "bad-id", (2, 10), "keep for themselves"),
    ("railway: x\nstrips: {A: {ways: 1000000000}}", "out-of-range", (2, 20), "between 1 and 200"),
    ("railway: x\nstrips: {A: {ways: 1000000000}}", "out-of-range", (2, 20), "1000000000 is too large"),
    ("railway: x\nstrips: {A: {ways: 0}}", "out-of-range", (2, 20), "0 is too small"),
    ("railway: x\nstrips: {A: {ways: 1" + "0" * 20 + "}}", "out-of-range", (2, 20), "this number is too large"),
    ("railway: x\nstrips: {A: {ways: " + "9" * 5000 + "}}", "out-of-range", (2, 20), "smaller"),
    ("railway: x\nstrips: {A: {ways: 1e1}}", "bad-number", (2, 20), "plain number"),
    ("railway: x\nstrips: {A: {ways: ١٢}}", "bad-number", (2, 20), "plain number"),
    ("railway: x\nstrips: {A: {taken: {x: y}}}", "bad-number", (2, 22), "plain number"),
    ("railway: x\nstrips: {A: {taken: {7: y, 07: z}}}", "repeated-key", (2, 28), "same way"),
    ("railway: x\nsupplies: {S: {volts: 12}}", "missing-key", (2, 12), "supply `S` has no `kind`"),
    ("railway: x\nsupplies: {S: {}}", "missing-key", (2, 12), "pulse, dc, ac, track or digital."),
    ("railway: x\nwires: [{from: A.1}]", "missing-key", (2, 9), "a listed wire has no `to`"),
    ("railway: x\npanels: {M: {points: {P5: {normal: x}}}}", "missing-key", (2, 23), "`at`"),
    ("railway: x\nlevers: {5: {spare: maybe}}", "wrong-type", (2, 21), "yes or no"),
    ("railway: x\nkinds: {k: {terminals: {A: a}, supply: x}}", "unknown-choice", (2, 40), "pulse"),
    # later
    # kinds with more to them
    (
        "railway: x\nkinds: {k: {terminals: {A: }, supply: {drive: dc},"
        " group: [{function: lamp, terminal: A, chain: rails.A}]}}",
        "bad-kind",
        (2, 97),
        "drive",
    ),
    (
        "railway: x\nkinds: {k: {terminals: {A: }, supply: {drive: dx}, group: [{function: lamp, terminal: A}]}}",
        "unknown-choice",
        (2, 47),
        "pulse",
    ),
    (
        "railway: x\nkinds: {k: {terminals: {A: }, supply: dc, group: [{function: feed, terminal: A, diodes: [B]}]}}",
        "bad-kind",
        (2, 90),
        "It has no other row",
    ),
    (
        "railway: x\nkinds: {k: {terminals: {A: }, supply: dc, gives: {feed: B},"
        " group: [{function: feed, terminal: A}]}}",
        "bad-kind",
        (2, 57),
        "Its terminals: A",
    ),
    (
        "railway: x\nkinds: {k: {terminals: {A: }, supply: dc, lever_type: on-off,"
        " chain: [{function: lamp, terminal: A, contact: 1, supply: feed}]}}",
        "bad-kind",
        (2, 71),
        "terminal, or a lever",
    ),
    ("railway: x\npoints: {P5: {accepted: moved}}", "wrong-type", (2, 25), "a set of ids"),
    # ids
    ("railway: x\nstrips: {A1: {}}\nboards: {a1: {}}", "repeated-id", (3, 10), "the strip on line 2"),
    (
        "railway: x\nboards: {B: {holes: {A1: {at: [1, 1]}}}}\ndevices: {A1: {kind: lamps}}",
        "repeated-id",
        (3, 11),
        "the hole on line 2",
    ),
    ("railway: x\npoints: {P5: {}}\nstrips: {L5: {}}", "bad-id", (3, 10), "lever 5"),
    ("railway: x\nlevers: {Y3: {}}\nstrips: {ly3: {}}", "bad-id", (3, 10), "lever Y3"),
    ("railway: x\npoints: {P5AB: {}}\nstrips: {L5A: {}}", "bad-id", (3, 10), "lever 5A"),
    ("railway: x\npoints: {P: {}}\nstrips: {LP: {}}", "bad-id", (3, 10), "lever P"),
    ("railway: x\nlevers: {Y3: {}}\npoints: {P1: {lever: y3}}", "repeated-id", (3, 22), "capitals"),
    ("railway: x\npoints: {P1: {lever: 5 a}}", "bad-id", (2, 22), "none"),
    ("railway: x\npoints: {P1: {lever: nul}}", "bad-id", (2, 22), "lever"),
    # names
    ("railway: x\nboards: {West: {}}\nstrips: {A: {board: Wset}}", "unknown-name", (3, 21), "Did you mean West?"),
    ("railway: x\nboards: {B: {supply: S}}", "unknown-name", (2, 22), "No supply is described"),
    ("railway: x\nboards: {B: {kind: twincoil}}", "unknown-name", (2, 20), "twin-coil"),
    ("railway: x\nboards: {B: {panel: M}}", "unknown-name", (2, 21), "panel"),
    ("railway: x\nboards: {B: {right_of: C}}", "unknown-name", (2, 24), "The boards here: B."),
    ("railway: x\nsupplies: {S: {kind: dc, fed_by: T}}", "unknown-name", (2, 34), "The supplies here: S."),
    ("railway: x\nsupplies: {S: {kind: dc, terminals: {fed: x}}}", "unknown-name", (2, 38), "feed"),
    ("railway: x\nlevers: {5: {panel: M}}", "unknown-name", (2, 21), "panel"),
    ("railway: x\npoints: {P5: {kind: twincoil}}", "unknown-name", (2, 21), "twin-coil"),
    ("railway: x\npoints: {P5: {strip: A}}", "unknown-name", (2, 22), "strip"),
    ("railway: x\npoints: {P5: {terminals: {X: 1}}}", "unknown-name", (2, 27), "terminal"),
    ("railway: x\ndevices: {D: {}}", "missing-key", (2, 11), "kind"),
    ("railway: x\nwires: [{from: a.1, to: b.1, function: hron}]", "unknown-name", (2, 40), "function"),
    ("railway: x\npanels: {M: {points: {P5: [1, 1]}}}", "unknown-name", (2, 23), "point"),
    ("railway: x\npanels: {M: {sections: {S: [1, 1]}}}", "unknown-name", (2, 25), "device"),
    ("railway: x\nlevers: {08: {}}\npanels: {M: {levers: {8: [1, 1]}}}", "unknown-name", (3, 23), "Did you mean 08?"),
    (
        "railway: x\npanels: {M: {size: [9, 9], tracks: {m: [[1, 1], P5]}}}",
        "unknown-name",
        (2, 49),
        "point on this panel",
    ),
    (
        "railway: x\npoints: {P5: }\npanels: {M: {points: {P5: {at: [1, 1], normal: m}}}}",
        "unknown-name",
        (3, 48),
        "track",
    ),
    ("railway: x\npanels: {M: {tracks: {m: [[1, 1], [2, 2]]}}}", "missing-key", (2, 10), "size"),
    ("railway: x\nboards: {A: {right_of: B}, B: {right_of: A}, C: {right_of: A}}", "wrong-type", (2, 42), "A, B, A"),
    ("railway: x\nsupplies: {S: {kind: dc, fed_by: S}}", "wrong-type", (2, 34), "S, S"),
    ("railway: x\nboards: {A: {}, B: {at: [1, 1], right_of: A}}", "wrong-type", (2, 33), "both"),
    # strips
    ("railway: x\nstrips: {A: {taken: {13: x}}}", "bad-strip", (2, 22), "no way 13"),
    ("railway: x\nstrips: {A: {keep: [1, 13]}}", "bad-strip", (2, 24), "no way 13"),
    ("railway: x\nstrips: {A: {test_points: [1, 13]}}", "bad-strip", (2, 31), "no way 13"),
    ("railway: x\nstrips: {A: {ways: 13, tiers: 2}}", "bad-strip", (2, 31), "in 2 rows"),
    ("railway: x\nstrips: {A: {ways: 2, tiers: 2, measured: 9}}", "bad-strip", (2, 43), "a row of one way"),
    ("railway: x\nstrips: {A: {bridges: [[1, 13]]}}", "bad-strip", (2, 28), "no way 13"),
    ("railway: x\nstrips: {A: {bridges: [[1, 1]]}}", "bad-strip", (2, 24), "two ways"),
    ("railway: x\nstrips: {A: {panel_side: left}}", "bad-strip", (2, 26), "front or back"),
    ("railway: x\nstrips: {A: {way_1: back, panel_side: front}}", "bad-strip", (2, 39), "left or right"),
    ("railway: x\nstrips: {A: {ways: 1, measured: 10}}", "bad-strip", (2, 33), "pitch"),
    ("railway: x\nstrips: {A: {pitch: 9, measured: 10}}", "bad-strip", (2, 21), "both"),
    ("railway: x\nstrips: {A: {amps: 16}}", "bad-strip", (2, 20), "16 A"),
    # functions
    ("railway: x\nfunctions: {horn: red}", "missing-key", (2, 13), "code"),
    ("railway: x\nfunctions: {lamp: {code: LMP}}", "wrong-type", (2, 26), "code"),
    ("railway: x\nfunctions: {lamp: {code: 5L}}", "wrong-type", (2, 26), "digit"),
    ("railway: x\nfunctions: {lamp: {code: ''}}", "wrong-type", (2, 26), "code"),
    ("railway: x\nfunctions: {lamp: gren}", "bad-colour", (2, 19), "Did you mean green?"),
    ("railway: x\nfunctions: {lamp: teal}", "bad-colour", (2, 19), "turquoise (TQ)"),
    ("railway: x\nfunctions: {lamp: teal}", "bad-colour", (2, 19), "violet or purple (VT), grey or gray (GY)"),
    ("railway: x\nfunctions: {lamp: GD}", "bad-colour", (2, 19), "gold and silver are not told from"),
    ("railway: x\nfunctions: {lamp: Silver}", "bad-colour", (2, 19), "gold and silver are not told from"),
    ("railway: x\nfunctions: {lamp: GNYE}", "safety-colour", (2, 19), "protective"),
    ("railway: x\nfunctions: {lamp: yellow/green}", "safety-colour", (2, 19), "protective"),
    ("railway: x\nfunctions: {lamp: yellow/blue}", "safety-colour", (2, 19), "neither green nor yellow"),
    ("railway: x\nfunctions: {lamp: {colour: GNRD}}", "safety-colour", (2, 28), "neither green nor yellow"),
    ("railway: x\nwires: [{from: a.1, to: b.1, colour: YEBU}]", "safety-colour", (2, 38), "neither green nor yellow"),
    ("railway: x\nfunctions: {lamp: {pattern: dot}}", "unknown-choice", (2, 29), "dots"),
    ("railway: x\nfunctions: {lamp: {pattern: qqq}}", "unknown-choice", (2, 29), "zigzag"),
    ("railway: x\nfunctions: {lamp: {size: 20}}", "bad-size", (2, 26), "20 AWG"),
    ("railway: x\nwires: [{from: a.1, to: b.1, size: 16x0.2}]", "bad-size", (2, 36), "16/0.2"),
    ("railway: x\nwires: [{from: a.1, to: b.1, colour: GNYE}]", "safety-colour", (2, 38), "protective"),
]


@pytest.mark.parametrize(("text", "code", "at", "word"), BAD)
def test_one_mistake_is_one_problem_at_its_place(text: str, code: str, at: tuple[int, int], word: str) -> None:
    problems = problems_of(text)
    assert [(one.code, (one.place.line, one.place.column)) for one in problems] == [(code, at)]
    assert word in f"{problems[0].message} {problems[0].hint}"


KIND_ROWS = [
    ("", "no rows", "{terminals"),
    ("group: [{function: feed, terminal: X}]", "no terminal `X`", "X"),
    ("chain: [{function: feed, terminal: X, supply: feed}]", "no terminal `X`", "X"),
    ("group: [{function: feed, terminal: A, contact: 3}]", "no contact `3`", "3"),
    ("group: [{function: feed, contact: 1}, {function: lamp, contact: 1 }]", "used twice", "1 }"),
    ("group: [{function: feed, terminal: A, chain: fed}]", "no terminal `fed`", "fed"),
    ("chain: [{function: feed, terminal: A, supply: plus}]", "no terminal `plus`", "plus"),
    (
        "chain: [{function: feed, terminal: A, supply: feed}, {function: lamp, supply: feed, terminal: A}]",
        "twice",
        "{function: lamp",
    ),
    (
        "group: [{function: feed, terminal: A, chain: feed}], chain: [{function: lamp, terminal: A, supply: feed}]",
        "twice",
        "{function: lamp",
    ),
]


@pytest.mark.parametrize(("rows", "word", "at"), KIND_ROWS)
def test_a_kind_that_does_not_hang_together(rows: str, word: str, at: str) -> None:
    line = f"kinds: {{k: {{terminals: {{A: }}, supply: dc, lever_type: on-off, {rows}}}}}"
    problems = problems_of(f"railway: x\n{line}")
    assert [(one.code, one.place.line) for one in problems] == [("bad-kind", 2)]
    assert word in problems[0].message
    assert line[problems[0].place.column - 1 :].startswith(at)


def test_a_contact_needs_a_lever() -> None:
    text = "railway: x\nkinds: {k: {terminals: {A: }, supply: dc, group: [{function: feed, contact: 1, terminal: A}]}}"
    assert [one.code for one in problems_of(text)] == ["bad-kind"]


def test_buttons_name_their_own_contacts() -> None:
    text = (
        "railway: x\nkinds: {k: {terminals: {A: }, supply: dc, lever_type: buttons, "
        "group: [{function: feed, contact: left, terminal: A}]}}"
    )
    assert problems_of(text) == []


def test_a_kind_with_an_unknown_function() -> None:
    text = "railway: x\nkinds: {k: {terminals: {A: }, supply: dc, group: [{function: fed, terminal: A}]}}"
    assert told(text) == [("unknown-name", 2, 62)]


def test_a_device_takes_the_kind_of_its_board() -> None:
    """By its own board, its strip's, its panel's, or the only one."""
    boards = "railway: x\nboards: {A: {kind: lamps}, B: {}}\nstrips: {S: {board: A}}\npanels: {M: {board: A}}\n"
    assert problems_of(boards + "devices: {D: {board: A}, E: {strip: S}, F: {panel: M}}") == []
    assert told(boards + "devices: {D: {board: B}}") == [("missing-key", 5, 11)]
    assert problems_of("railway: x\nboards: {A: {kind: lamps}}\ndevices: {D: {}}") == []


def test_all_the_problems_of_a_file_come_in_one_run_in_file_order() -> None:
    text = GOOD.replace("ways: 12,", "ways: twelve,").replace("board: East}", "board: Est}", 1)
    text = text.replace("name: Harbour siding", "nmae: Harbour #2").replace("lever: Y3", "lever: y3")
    text = text.replace("colour: red/blue", "colour: teal") + "levers: {}\n"
    assert [code for code, _, _ in told(text)] == [
        "unknown-name",
        "bad-number",
        "unknown-key",
        "hash-swallows",
        "repeated-id",
        "bad-colour",
        "repeated-key",
    ]
    lines = [line for _, line, _ in told(text)]
    assert lines == sorted(lines)


def test_what_was_taken_out_for_a_mistake_of_its_own_may_still_be_named() -> None:
    text = (
        "railway: x\nboards: {West: {size: 5}, E st: {}}\nsupplies: {S: {kind: x}}\nstrips: [A1]\n"
        "points:\n  P5: {board: West, supply: S, strip: A1}\n  P6: {board: E st}\n"
    )
    assert told(text) == [("wrong-type", 2, 23), ("bad-id", 2, 27), ("unknown-choice", 3, 22), ("wrong-type", 4, 9)]


def test_a_mistyped_key_is_not_missed_as_well() -> None:
    description, problems = read_description_text("railway: x\nsupplies: {S: {knid: dc}}\n")
    assert [one.code for one in problems] == ["unknown-key"]
    assert description is not None
    assert description.supplies["S"].kind == "dc"


def test_a_name_that_refers_to_nothing_leaves_the_description_whole() -> None:
    description, problems = read_description_text("railway: x\npoints: {P5: {board: West}}\n")
    assert [one.code for one in problems] == ["unknown-name"]
    assert description is not None


def test_a_value_of_the_wrong_form_does_not() -> None:
    assert read_description_text("railway: x\npoints: {P5: {way: x}}\n")[0] is None
    assert read_description_text("about: x\n")[0] is None
    assert read_description_text("railway: x\nzzzz: {A: {}}\n")[0] is None


def test_lever_ids_are_text() -> None:
    description, problems = read_description_text("railway: x\npoints: {P8: {}, P08: {}}\nlevers: {8: {}, 08: {}}\n")
    assert problems == []
    assert description is not None
    assert list(description.levers) == ["8", "08"]


def test_too_many_devices() -> None:
    text = "railway: x\nboards: {B: {}}\npoints:\n" + "".join(f"  P{n}: {{}}\n" for n in range(20_001))
    assert told(text) == [("too-many-devices", 3, 1)]


def test_of_very_many_mistakes_the_first_are_told_and_the_rest_counted() -> None:
    text = "railway: x\npoints:\n" + "".join(f"  P{n}: {{zzzz: 1}}\n" for n in range(1500))
    problems = problems_of(text)
    assert len(problems) == 1001
    assert "499 more" in problems[-1].message
    text = "railway: x\npoints:\n" + "".join(f"  P{n}: {{board: Q}}\n" for n in range(300))
    problems = problems_of(text)
    assert len(problems) == 300
    assert {one.code for one in problems} == {"unknown-name"}


def test_an_error_that_nobody_has_met_yet_is_still_a_problem() -> None:
    found = in_words({"type": "recursion_loop", "loc": ("boards",), "input": ["x"]}, NoPlaces())
    assert (found.code, found.message) == ("wrong-type", "this does not fit here: a list")


def test_every_code_that_is_told_here_exists() -> None:
    assert {row[1] for row in BAD} <= CODES.keys()
