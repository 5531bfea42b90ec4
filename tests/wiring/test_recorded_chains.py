"""A recorded chain is never rethreaded: section 5.3. Expected wires are written out by hand from the rule."""

import pytest
from wiring.recorded_builder import Made

HEAD = """
    boards: {West: {at: [0, 0]}}
    supplies: {PULSE: {kind: pulse, at: [0, 500]}}
    strips: {A1: {at: [600, 400], ways: 30, pitch: 10}}
    points:
"""
PLACES = {"1": 100, "2": 300, "3": 500, "4": 700, "5": 900}


def points(ids: str) -> str:
    """The points P1 to P5, in a row from left to right."""
    return HEAD + "".join(f"      P{id_}: {{at: [{PLACES[id_]}, 200]}}\n" for id_ in ids)


def returns(made: Made) -> set[str]:
    return made.chain("PULSE", "return")


def number_of(made: Made, ends: str) -> int | str:
    (number,) = [number for number, wire in made.wires.items() if wire == ends]
    return number


def test_one_is_put_in_the_middle() -> None:
    """P3 stands between P2 and P4, 200 mm from each; both have room only at P4, where the chain ends."""
    before = Made(points("124"))
    assert returns(before) == {"PULSE.return P1.C", "P1.C P2.C", "P2.C P4.C"}
    after = before.then(points("1234"))
    assert returns(after) == {*returns(before), "P4.C P3.C"}


def test_the_nearest_that_has_room() -> None:
    """Two wires in a terminal are all that it takes, common practice: P1 and P2 of four in a row are full."""
    after = Made(points("123")).then(points("1235")).then(points("12345"))
    assert returns(after) == {"PULSE.return P1.C", "P1.C P2.C", "P2.C P3.C", "P3.C P5.C", "P5.C P4.C"}


def test_of_two_equally_near_the_first_of_the_chain() -> None:
    """P3 and P1 are both ends of the chain, P2 is 200 mm from either."""
    railway = HEAD + "      P1: {at: [100, 200]}\n      P3: {at: [500, 200]}\n"
    forked = Made(railway + "      P9: {at: [100, 210]}\n")
    assert returns(forked) == {"PULSE.return P1.C", "P1.C P3.C", "P3.C P9.C"}


@pytest.mark.parametrize(
    ("left", "closing"),
    [
        ("2345", "PULSE.return P2.C"),
        ("1345", "P1.C P3.C"),
        ("1245", "P2.C P4.C"),
        ("145", "P1.C P4.C"),
        ("1234", None),
        ("123", None),
    ],
    ids=["the first", "the second", "in the middle", "two in the middle", "the last", "the last two"],
)
def test_one_new_wire_with_a_new_number_closes_the_gap(left: str, closing: str | None) -> None:
    before = Made(points("12345"))
    after = before.then(points(left))
    gone = {f"P{id_}" for id_ in set("12345") - set(left)}
    stay = {wire for wire in returns(before) if not gone & {end.partition(".")[0] for end in wire.split()}}
    assert returns(after) == stay | ({closing} if closing else set())
    for wire in stay:
        assert number_of(after, wire) == number_of(before, wire)
    if closing:
        assert int(number_of(after, closing)) > len(before.wires)


def test_a_wire_that_was_taken_out_comes_back_with_another_number() -> None:
    first = Made(points("123"))
    third = first.then(points("12")).then(points("123"))
    assert returns(third) == returns(first)
    assert number_of(third, "P2.C P3.C") not in first.wires
    assert number_of(third, "P1.C P2.C") == number_of(first, "P1.C P2.C")


def test_nothing_is_left_and_then_the_chain_begins_again() -> None:
    third = Made(points("12")).then(points("")).then(points("45"))
    assert returns(third) == {"PULSE.return P4.C", "P4.C P5.C"}


def test_all_are_exchanged_at_once() -> None:
    after = Made(points("12")).then(points("45"))
    assert returns(after) == {"PULSE.return P4.C", "P4.C P5.C"}


def test_the_feed_is_linked_from_way_to_way() -> None:
    """The ways of P2 were freed, P4 gets the next ones: its feed way 11 is linked to the nearest that has room."""
    before = Made(points("123"))
    assert before.chain("PULSE", "feed") == {"PULSE.feed A1.2", "A1.2 A1.5", "A1.5 A1.8"}
    after = before.then(points("134"))
    assert after.chain("PULSE", "feed") == {"PULSE.feed A1.2", "A1.2 A1.8", "A1.8 A1.11"}
    links = {f"{wire.start.name} {wire.finish.name}" for wire in after.netlist.wires if wire.link}
    assert links == {"A1.2 A1.8", "A1.8 A1.11"}


def test_an_entry_limit_of_three_lets_a_chain_branch() -> None:
    railway = HEAD.replace("ways: 30", "ways: 30, entry_limit: 3")
    before = Made(railway + "      P1: {way: 1}\n      P2: {way: 21}\n")
    after = before.then(railway + "      P1: {way: 1}\n      P2: {way: 21}\n      P3: {way: 4}\n")
    assert after.chain("PULSE", "feed") == {"PULSE.feed A1.2", "A1.2 A1.22", "A1.2 A1.5"}


def test_a_branch_that_is_cut_off_finds_room_elsewhere() -> None:
    """A1.5 held three wires; its two branches cannot both go to A1.2, which has room for two in all."""
    wide, narrow = HEAD.replace("ways: 30", "ways: 30, entry_limit: 3"), HEAD
    rows = ["      P1: {way: 1}\n", "      P2: {way: 4}\n", "      P3: {way: 21}\n", "      P4: {way: 7}\n"]
    branched = Made(wide + "".join(rows[:3])).then(wide + "".join(rows))
    assert branched.chain("PULSE", "feed") == {"PULSE.feed A1.2", "A1.2 A1.5", "A1.5 A1.22", "A1.5 A1.8"}
    after = branched.then(narrow + "".join([rows[0], *rows[2:]]))
    assert after.chain("PULSE", "feed") == {"PULSE.feed A1.2", "A1.2 A1.22", "A1.22 A1.8"}


def test_a_crowded_chain_is_joined_at_its_nearest_all_the_same() -> None:
    """The only member's entry is full of the builder's own wires; a caution says so elsewhere."""
    wires = "    wires: [{from: A1.2/layout, to: A1.29, function: feed}]\n"
    before = Made(points("1") + wires)
    after = before.then(points("12") + wires)
    assert after.chain("PULSE", "feed") == {"PULSE.feed A1.2", "A1.2 A1.5"}


def test_a_new_bridge_takes_the_place_of_a_link() -> None:
    before = Made(points("12"))
    after = before.then(points("12").replace("pitch: 10", "pitch: 10, bridges: [[2, 5]]"))
    assert after.chain("PULSE", "feed") == {"PULSE.feed A1.2"}
    again = after.then(points("12"))
    assert again.chain("PULSE", "feed") == before.chain("PULSE", "feed")
    assert number_of(again, "A1.2 A1.5") not in before.wires


def test_a_supply_that_feeds_another_stays_wired_to_it() -> None:
    railway = """
        supplies: {LIGHTS: {kind: dc}, MORE: {kind: dc, fed_by: LIGHTS}}
        strips: {A1: {}}
        devices: {H1: {kind: lamps, supply: LIGHTS}}
    """
    before = Made(railway)
    after = before.then(railway.replace("H1:", "H2: {kind: lamps, supply: LIGHTS}, H1:"))
    assert before.wires.items() <= after.wires.items()


def test_what_changes_to_another_supply_is_new_there() -> None:
    railway = """
        supplies: {PULSE: {kind: pulse}, SECOND: {kind: pulse}}
        strips: {A1: {}}
        points: {P1: {supply: PULSE}, P2: {supply: PULSE}, P3: {supply: SECOND}}
    """
    before = Made(railway)
    after = before.then(railway.replace("P2: {supply: PULSE", "P2: {supply: SECOND"))
    assert after.chain("PULSE", "return") == {"PULSE.return P1.C"}
    assert after.chain("SECOND", "return") == {"SECOND.return P3.C", "P3.C P2.C"}
    assert after.ways("P2") == before.ways("P2")


def test_no_chain_comes_back_through_a_plug_for_a_newcomer() -> None:
    """P1 has two wires, and P4 beyond the plug has room: P2 stands beside P1, and hangs on the supply itself."""
    head = """
    boards: {West: {size: [1200, 600], at: [0, 0]}, East: {size: [1000, 600], right_of: West}}
    supplies: {PULSE: {kind: pulse, board: West, at: [150, 540]}}
    strips: {A1: {board: West, at: [600, 430], ways: 12}, B1: {board: East, at: [300, 430], ways: 12}}
    plugs: {J1: {boards: [West, East], pins: 9, at: {West: [1190, 400], East: [10, 400]}}}
    points:
      P1: {board: West, at: [420, 250]}
      P4: {board: East, at: [120, 180]}
"""
    before = Made(head)
    after = before.then(head + "      P2: {board: West, at: [900, 250]}\n")
    assert returns(after) == {*returns(before), "PULSE.return P2.C"}
    assert after.chain("PULSE", "feed") == {*before.chain("PULSE", "feed"), "PULSE.feed A1.5"}
