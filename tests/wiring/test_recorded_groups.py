"""What the as-built record holds comes first and never moves: section 5.2."""

from typing import Any

import pytest
from wiring.recorded_builder import Made, remade
from wiring.wiring_builder import read

from labelgen.problems import Problem

RAILWAY = """
    boards: {West: {}, East: {}}
    supplies: {PULSE: {kind: pulse, board: West}}
    strips: {A1: {board: West}, A2: {board: West}, B1: {board: East}}
    points: {P5: {board: West}, P6: {board: West}}
"""


def changed(**points: Any) -> dict[str, Any]:
    """The railway with other points: None takes one out, a dict adds to what it says."""
    railway: dict[str, Any] = read(RAILWAY)
    for id_, point in points.items():
        if point is None:
            railway["points"].pop(id_)
        else:
            railway["points"][id_] = {**railway["points"].get(id_, {"board": "West"}), **point}
    return railway


def problems_after(made: Made, railway: dict[str, Any]) -> list[Problem]:
    return remade(railway, made.record)[2]


def test_one_that_comes_earlier_in_order_takes_later_ways() -> None:
    after = Made(RAILWAY).then(changed(P1={}))
    assert after.ways("P5") == ["A1.1", "A1.2", "A1.3"]
    assert after.ways("P6") == ["A1.4", "A1.5", "A1.6"]
    assert after.ways("P1") == ["A1.7", "A1.8", "A1.9"]


def test_a_freed_way_is_spare_with_its_old_head_until_it_is_named() -> None:
    freed = Made(RAILWAY).then(changed(P5=None))
    heads = [(way.state, way.was) for way in freed.netlist.strip_by_id["A1"].ways[:4]]
    assert heads == [("spare", "5N"), ("spare", "5F"), ("spare", "5R"), ("used", "")]
    later = freed.then(changed(P5=None, P7={}))
    assert later.ways("P7") == ["A1.7", "A1.8", "A1.9"]
    named = later.then(changed(P5=None, P7={}, P8={"strip": "A1", "way": "1"}))
    assert named.ways("P8") == ["A1.1", "A1.2", "A1.3"]
    assert named.record.spare == ()


def test_a_full_strip_is_full_although_it_has_spare_ways() -> None:
    made = Made(RAILWAY).then(changed(P5=None))
    more = changed(P5=None, **{id_: {"strip": "A1"} for id_ in ("P7", "P8", "P9")})
    assert [(one.code, one.place.source) for one in problems_after(made, more)] == [("strip-full", "points.P9.strip")]


def test_a_freed_way_that_is_kept_free_remembers_what_it_was() -> None:
    railway = changed(P5=None)
    railway["strips"]["A1"]["keep"] = ["2"]
    made = Made(RAILWAY).then(railway)
    assert (made.netlist.strip_by_id["A1"].ways[1].state, made.netlist.strip_by_id["A1"].ways[1].was) == ("kept", "5F")


MOVES: dict[str, tuple[dict[str, Any], str, str]] = {
    "another strip": ({"strip": "A2"}, "points.P5.strip", "now to be on strip A2"),
    "another way": ({"strip": "A1", "way": "7"}, "points.P5.way", "now to have A1.7, A1.8, A1.9"),
    "other ways": ({"strip": "A1", "ways": ["1", "2", "9"]}, "points.P5.ways", "now to have A1.1, A1.2, A1.9"),
    "another board": ({"board": "East"}, "points.P5.board", "not on P5's board East"),
}


@pytest.mark.parametrize("move", MOVES)
def test_a_place_that_differs_from_the_record_is_an_error(move: str) -> None:
    keys, path, words = MOVES[move]
    (problem,) = problems_after(Made(RAILWAY), changed(P5=keys))
    assert (problem.code, problem.place.source) == ("moved", path)
    assert words in problem.message
    assert "accepted: {moved: why}" in problem.hint


@pytest.mark.parametrize("move", MOVES)
def test_unless_it_is_accepted(move: str) -> None:
    before = Made(RAILWAY)
    after = before.then(changed(P5={**MOVES[move][0], "accepted": {"moved": "the strip broke"}}))
    assert after.ways("P5") != before.ways("P5")
    assert after.ways("P6") == before.ways("P6")
    old = {way for way in before.ways("P5") if way not in after.ways("P5")}
    assert {f"{spare.strip}.{spare.way}" for spare in after.record.spare} == old
    later = after.then(changed(P5={**MOVES[move][0], "accepted": {"moved": "the strip broke"}}, P7={}))
    assert later.ways("P5") == after.ways("P5"), "it moves once"


@pytest.mark.parametrize(
    ("strip", "path", "words"),
    [
        ({"ways": "2"}, "strips.A1.ways", "which now has only 2"),
        ({"taken": {"2": "doorbell"}}, "strips.A1.taken", "way 2 is now taken for doorbell"),
        ({"keep": ["3"]}, "strips.A1.keep", "way 3 is now to be kept free"),
    ],
)
def test_a_strip_that_takes_away_what_is_wired(strip: dict[str, Any], path: str, words: str) -> None:
    railway = changed(P6=None)
    made = Made(railway)
    railway["strips"]["A1"] |= strip
    problem = next(one for one in problems_after(made, railway) if one.code == "moved")
    assert problem.place.source == path
    assert words in problem.message


def test_a_strip_that_is_gone() -> None:
    made, railway = Made(RAILWAY), changed()
    del railway["strips"]["A1"]
    problems = problems_after(made, railway)
    assert [(one.code, one.place.source) for one in problems] == [("moved", "points.P5"), ("moved", "points.P6")]
    assert "there is no strip A1 any more" in problems[0].message


def test_naming_the_ways_that_it_has_is_no_move() -> None:
    made = Made(RAILWAY)
    for keys in ({"strip": "A1"}, {"strip": "A1", "way": "1"}, {"ways": ["1", "2", "3"], "strip": "A1"}):
        assert made.then(changed(P5=keys)).wires == made.wires


def test_ways_that_are_too_few_are_still_wrong() -> None:
    problems = problems_after(Made(RAILWAY), changed(P5={"strip": "A1", "ways": ["1", "2"]}))
    assert [problem.code for problem in problems] == ["bad-ways"]


def test_a_point_that_joins_a_lever_shares_its_group() -> None:
    before = Made(changed(P6A={}, P6=None))
    after = before.then(changed(P6A={}, P6B={}, P6=None))
    assert after.ways("P6B") == after.ways("P6A") == before.ways("P6A")


def test_of_two_groups_of_one_lever_neither_moves_when_strips_are_no_longer_named() -> None:
    before = Made(changed(P6=None, P6A={"strip": "A1"}, P6B={"strip": "A2"}))
    after = before.then(changed(P6=None, P6A={}, P6B={}))
    assert after.wires == before.wires


def test_a_lever_that_loses_its_first_group_gets_a_feed_way_beside() -> None:
    """Only the first group has the feed: the second gets one more way, and what it had stays."""
    before = Made(changed(P6=None, P6A={"strip": "A1"}, P6B={"strip": "A2"}))
    assert before.ways("P6B") == ["A2.1", "A2.2"]
    after = before.then(changed(P6=None, P6B={"strip": "A2"}))
    assert after.ways("P6B") == ["A2.1", "A2.3", "A2.2"]
    assert "L6.N A2.1" in after.wires.values()


def test_no_room_for_that_feed_way_is_an_error() -> None:
    def railway(*points: str) -> dict[str, Any]:
        found = changed(P5=None, P6=None, **{id_: {"strip": "A1" if id_ == "P6A" else "A2"} for id_ in points})
        found["strips"]["A2"]["ways"] = "2"
        return found

    problems = problems_after(Made(railway("P6A", "P6B")), railway("P6B"))
    assert [(problem.code, problem.place.source) for problem in problems] == [("strip-full", "points.P6B")]


def test_or_it_is_named() -> None:
    before = Made(changed(P6=None, P6A={"strip": "A1"}, P6B={"strip": "A2"}))
    named = before.then(changed(P6=None, P6B={"strip": "A2", "ways": ["1", "9", "2"]}))
    assert named.ways("P6B") == ["A2.1", "A2.9", "A2.2"]
    taken = changed(P6=None, P6B={"strip": "A2", "ways": ["1", "9", "2"]})
    taken["strips"]["A2"]["taken"] = {"9": "doorbell"}
    (problem,) = problems_after(before, taken)
    assert (problem.code, problem.place.source) == ("way-taken", "points.P6B.ways")


def test_a_device_in_the_place_of_another_on_the_same_lever() -> None:
    """The lever's wires stay; only those to the motor are new."""
    before = Made(RAILWAY)
    after = before.then(changed(P5=None, P5X={"lever": "5"}))
    assert after.ways("P5X") == before.ways("P5")
    kept = {wire for wire in before.wires.values() if "P5." not in wire and wire in after.wires.values()}
    assert {"L5.N A1.1", "L5.F A1.2", "L5.R A1.3"} <= kept


def test_a_device_in_the_place_of_another_but_elsewhere() -> None:
    before = Made(RAILWAY)
    for keys in ({"strip": "A2"}, {"strip": "A1", "way": "7"}, {"board": "East"}):
        assert before.then(changed(P5=None, P5X={"lever": "5", **keys})).ways("P5X") != before.ways("P5")


def test_a_point_that_gets_another_lever_keeps_its_ways() -> None:
    before = Made(RAILWAY)
    after = before.then(changed(P5={"lever": "9"}))
    assert after.ways("P5") == before.ways("P5")
    shared = before.then(changed(P5={"lever": "6"}))
    assert {"A1.1 P5.N", "A1.4 P6.N", "A1.4 A1.1"} <= {*shared.wires.values()} | {
        " ".join(reversed(wire.split())) for wire in shared.wires.values()
    }


def test_of_a_shared_group_the_lever_that_had_it_keeps_it() -> None:
    before = Made(changed(P6=None, P6A={}, P6B={}))
    after = before.then(changed(P6=None, P6A={"lever": "4"}, P6B={}))
    assert after.ways("P6B") == before.ways("P6B")
    assert not {*after.ways("P6A")} & {*after.ways("P6B")}
    apart = before.then(changed(P6=None, P6A={"lever": "4"}, P6B={"lever": "3"}))
    assert apart.ways("P6B") == before.ways("P6B")


def test_another_kind_begins_anew() -> None:
    railway = {**read(RAILWAY), "supplies": {"PULSE": {"kind": "pulse", "board": "West"}, "L": {"kind": "dc"}}}
    before = Made(railway)
    after = before.then({**railway, "points": {"P5": {"board": "West", "kind": "lamps", "lever": "none"}}})
    assert not {*after.ways("P5")} & {*before.ways("P5")}


def test_rows_of_one_name_are_told_apart() -> None:
    railway = """
        kinds:
          double:
            terminals: {a: , b: }
            supply: dc
            group: [{function: lamp, terminal: a}, {function: lamp, terminal: b}]
        supplies: {LIGHTS: {kind: dc}}
        strips: {A1: {}}
        devices: {D1: {kind: double, ways: [4, 2], strip: A1}}
    """
    made = Made(railway)
    assert made.record.groups[0].ways == {"lamp": 4, "lamp #2": 2}
    assert made.then(railway.replace(", ways: [4, 2]", "")).ways("D1") == ["A1.4", "A1.2"]
