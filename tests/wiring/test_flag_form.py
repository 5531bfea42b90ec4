"""Which form of flag a wire gets: its own, else its function's, else that of the whole railway."""

from labelgen.model.netlist import Netlist
from labelgen.reading.data_readers import built_in_kinds
from labelgen.reading.description_reader import read_description_text
from labelgen.wiring.expansion import expand

RAILWAY = """railway: Marram Quay
boards: {West: {}}
panels: {BOX: {}}
supplies: {PULSE: {kind: pulse}}
strips: {A1: {}}
points: {P5: {}}
"""


def netlist(more: str) -> Netlist:
    description, problems = read_description_text(RAILWAY + more)
    assert problems == []
    assert description is not None
    return expand(description, built_in_kinds())[0]


def forms(more: str) -> dict[str, set[str]]:
    found: dict[str, set[str]] = {}
    for wire in netlist(more).wires:
        found.setdefault(wire.function, set()).add(wire.flag_form)
    return found


def test_flags_are_folded_unless_something_else_is_said() -> None:
    assert set().union(*forms("").values()) == {"fold"}


def test_one_word_for_the_whole_railway_and_another_for_a_function() -> None:
    found = forms("printing: {flags: wrap}\nfunctions: {return: {flags: sleeve}, normal: white}\n")
    assert found == {"normal": {"wrap"}, "feed": {"wrap"}, "reverse": {"wrap"}, "return": {"sleeve"}}


def test_a_listed_wire_that_is_a_wire_of_the_rules_sets_it_too() -> None:
    listed = "functions: {normal: {flags: sleeve}}\nwires:\n  - {from: L5.N, to: A1.1, flags: wrap}\n"
    at = {(wire.start.name, wire.finish.name): wire.flag_form for wire in netlist(listed).wires}
    assert at["L5.N", "A1.1"] == "wrap"
    assert at["A1.1", "P5.N"] == "sleeve"
    assert at["L5.F", "A1.2"] == "fold"


def test_an_extra_wire_takes_its_own() -> None:
    extra = "wires:\n  - {from: A1.11, to: P5.C, function: lamp, flags: sleeve}\n"
    (wire,) = [wire for wire in netlist(extra).wires if wire.function == "lamp"]
    assert wire.flag_form == "sleeve"


def test_a_form_that_is_not_known_is_said() -> None:
    _, problems = read_description_text(RAILWAY + "printing: {flags: wrapped}\n")
    assert [problem.code for problem in problems] == ["unknown-choice"]
