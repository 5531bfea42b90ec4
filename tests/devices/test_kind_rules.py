"""What a kind may not say. Each case is one small mistake in a kind that is right without it."""

import pytest
from wiring.wiring_builder import built_in_kinds, read

from labelgen.model.kinds import GroupRow, Kind
from labelgen.places import Path, Place
from labelgen.reading.kind_checks import kind_problems

GOOD = """
    terminals: {1: motor, 8: motor, 2: throw, 4: arm, 3: throw, vee: crossing}
    supply: {drive: dc, rails: track}
    lever_type: changeover
    group:
      - {function: drive-a, contact: A, terminal: 1}
      - {function: drive-b, contact: B, terminal: 8}
      - {function: track, terminal: 2, chain: rails.A, swap: rails}
      - {function: frog, terminal: 4, across: vee}
      - {function: track-return, terminal: 3, chain: rails.B, swap: rails}
    chain:
      - {function: feed, contact: P, supply: drive.feed}
      - {function: return, contact: M, supply: drive.return}
    inside: {normal: [[2, 4]], reverse: [[3, 4]]}
"""

# What is changed, and into what; where it is found; what is said.
MISTAKES = [
    ("across: vee", "across: vea", "", None),  # beside the lever anything may stand
    ("lever_type: changeover\n", "\n", "group.0.contact", "has no lever"),
    ("across: vee", "across: 4", "group.3.across", "terminal `4` is joined to itself"),
    ("terminal: 4, across: vee", "across: vee", "group.3.across", "has nothing on the other side"),
    ("terminal: 1}", "terminal: 1, across: lamp}", "group.0.across", "both a contact and `across: lamp`"),
    ("contact: A, terminal: 1", "mark: x", "group.0", "nothing lands on the way"),
    ("chain: rails.B, swap: rails", "chain: rails.B", "group.2.swap", "`swap: rails` stands at one row"),
    ("across: vee}", "across: vee, swap: rails}", "group.2.swap", "stands at 3 rows"),
    ("chain: rails.A", "chain: rails.feed", "group.2.chain", "a supply of kind track has no terminal `feed`"),
    ("chain: rails.A", "chain: rail.A", "group.2.chain", "names no supply `rail`"),
    ("chain: rails.B", "chain: B", "group.4.chain", "a supply of kind dc has no terminal `B`"),
    ("contact: P,", "contact: P, terminal: 1,", "chain.0", "one of `terminal` and `contact`"),
    ("contact: P, ", "", "chain.0", "one of `terminal` and `contact`"),
    ("contact: P", "contact: A", "chain.0.contact", "contact `A` is used twice"),
    ("contact: P", "contact: F", "chain.0.contact", "no contact `F`"),
    (
        "terminal: 1}",
        "terminal: 1, only: [two-pole]}",
        "group.0.contact",
        "a lever of type two-pole has no contact `A`",
    ),
    ("terminal: 1}", "terminal: 1, only: [changeover], unless: [changeover]}", "group.0", "and not with it"),
    ("terminal: 1}", "terminal: 1, diodes: [9]}", "group.0.diodes.0", "no row has a terminal or contact `9`"),
    ("terminal: 1}", "terminal: 1, diodes: [1]}", "group.0.diodes.0", "from the way of `1` to itself"),
    ("terminal: 1}", "terminal: 1, diodes: [A]}", "group.0.diodes.0", "from the way of `A` to itself"),
    ("terminal: 1}", "terminal: 1, diodes: [vee]}", "group.0.diodes.0", "no row has a terminal or contact `vee`"),
    ("terminal: 1}", "terminal: 1, diodes: [8, 8]}", "group.0.diodes.1", "is there twice"),
    ("terminal: 1}", "terminal: 1, diodes: [8]}", "", None),
    ("terminal: 1}", "terminal: 1, diodes: [B]}", "", None),
    ("normal: [[2, 4]]", "norml: [[2, 4]]", "inside.norml", "not a way for it to lie"),
    ("normal: [[2, 4]]", "A: [[2, 4]]", "", None),
    ("normal: [[2, 4]]", "normal: [[2, 2]]", "inside.normal.0", "joins two different terminals"),
    ("normal: [[2, 4]]", "normal: [[2, 4, 3]]", "inside.normal.0", "joins two different terminals"),
    ("normal: [[2, 4]]", "normal: [[2, 9]]", "inside.normal.0", "no terminal `9`"),
    ("inside:", "gives: {A: 2}\n    inside:", "gives", "not the two terminals of a supply"),
    ("inside:", "gives: {feed: 2, B: 3}\n    inside:", "gives", "not the two terminals of a supply"),
    ("inside:", "gives: {A: 2, B: 9}\n    inside:", "gives.B", "no terminal `9`"),
    ("inside:", "gives: {feed: 2, return: 3}\n    inside:", "", None),
]


def told(kind: Kind) -> list[tuple[str, str]]:
    def place_of(path: Path) -> Place:
        return Place(file="", source=".".join(map(str, path)))

    problems = kind_problems(kind, place_of)
    assert {problem.code for problem in problems} <= {"bad-kind"}
    assert all(problem.hint.endswith(".") and not problem.message.endswith(".") for problem in problems)
    return [(problem.place.source, problem.message) for problem in problems]


def kind_of(text: str) -> Kind:
    return Kind.model_validate(read(text))


def test_the_kind_is_right_as_it_stands() -> None:
    assert told(kind_of(GOOD)) == []


@pytest.mark.parametrize(("was", "now", "at", "said"), MISTAKES)
def test_one_mistake(was: str, now: str, at: str, said: str | None) -> None:
    assert GOOD.count(was) >= 1
    found = told(kind_of(GOOD.replace(was, now, 1)))
    if said is None:
        assert found == []
        return
    assert found[0][0] == at
    assert said in found[0][1]
    # Without its lever every contact is in the air; any other mistake is said once.
    assert len(found) == 1 or "no lever" in said


def test_across_needs_a_lever_or_a_terminal() -> None:
    kind = Kind.model_validate(
        {"terminals": {"A": None, "arm": None}, "supply": "track", "group": [{"function": "frog", "terminal": "arm"}]}
    )
    (row,) = kind.group
    lamp = kind.model_copy(update={"group": (row.model_copy(update={"across": "a"}),)})
    assert told(lamp)[0][0] == "group.0.across"
    assert "no lever beside which it could stand" in told(lamp)[0][1]


def test_rows_depend_on_a_lever_only_where_there_is_one() -> None:
    rows = (GroupRow(function="lamp", terminal="L", chain="feed", only=("on-off",)),)
    assert told(built_in_kinds()["lamps"].model_copy(update={"group": rows})) == [
        ("group.0", "a row depends on the lever, and the kind has none")
    ]


def test_a_diode_to_a_terminal_with_two_ways() -> None:
    """It could not be told on which way it ends; with different levers it can."""
    text = GOOD.replace("terminal: 1}", "terminal: 1, diodes: [8]}")
    text = text.replace("across: vee}", "across: vee}\n      - {function: drive-b, mark: x, terminal: 8}")
    assert told(kind_of(text)) == [("group.0.diodes.0", "`8` has more than one way to which a diode could lead")]
    by_lever = text.replace("contact: B, terminal: 8", "contact: B, terminal: 8, only: [changeover]")
    by_lever = by_lever.replace("mark: x, terminal: 8", "mark: x, terminal: 8, unless: [changeover]")
    assert told(kind_of(by_lever)) == []


def test_a_spare_way_may_be_kept_in_the_group() -> None:
    assert told(kind_of(GOOD.replace("contact: A, terminal: 1", "mark: x").replace("drive-a", "spare"))) == []


def test_a_kind_without_a_supply() -> None:
    with pytest.raises(ValueError, match="the kind names no supply"):
        kind_of(GOOD.replace("{drive: dc, rails: track}", "{}"))


def test_a_contact_of_a_row_for_another_lever() -> None:
    """A row that is needed with another lever alone has that lever's contacts."""
    assert told(kind_of(GOOD.replace("contact: A, terminal: 1", "contact: N1, terminal: 1, only: [two-pole]"))) == []


@pytest.mark.parametrize("name", sorted(built_in_kinds()))
def test_the_built_in_kinds_are_right(name: str) -> None:
    assert told(built_in_kinds()[name]) == []
