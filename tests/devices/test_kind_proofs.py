"""Every device kind: its wires, and throw by throw what they feed.

Both were written by hand from the trade page, before the kinds were run.
"""

from itertools import combinations

import pytest
from devices.copper_proof import fed, meetings, rings
from devices.kind_cases import Case, table
from devices.point_cases import POINT_CASES
from devices.signal_cases import SIGNAL_CASES
from devices.track_cases import TRACK_CASES
from wiring.wiring_builder import built_in_kinds, described, lines, netlist_of, wire_texts

from labelgen.model.kinds import ChainRow, GroupRow, Kind
from labelgen.model.netlist import Netlist
from labelgen.wiring.expansion import expand

CASES = [*POINT_CASES, *TRACK_CASES, *SIGNAL_CASES]
each_case = pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)


def proved(case: Case, netlist: Netlist) -> list[str]:
    """What is not as it must be; nothing for a kind that is right."""
    wrong = [f"ring {ring}" for ring in rings(netlist)]
    for throw, expected in case.throws.items():
        positions = case.positions(throw)
        wrong += [f"{throw}: {short} meet" for short in meetings(netlist, positions) if short not in case.meet]
        found, wanted = fed(netlist, positions, case.signals), table(expected)
        wrong += [
            f"{throw}: {end} is fed by {found.get(end, 'nothing')}, not by {wanted.get(end, 'nothing')}"
            for end in sorted({*found, *wanted})
            if found.get(end) != wanted.get(end)
        ]
    return wrong


@each_case
def test_its_wires(case: Case) -> None:
    wires = [text.partition(" ")[2] for text in wire_texts(netlist_of(case.railway))]
    assert wires == lines(case.wires)


@each_case
def test_throw_by_throw_the_right_terminals_are_fed_and_no_others(case: Case) -> None:
    assert proved(case, netlist_of(case.railway)) == []


@each_case
def test_its_diodes(case: Case) -> None:
    diodes = [f"{diode.anode.name} {diode.cathode.name}" for diode in netlist_of(case.railway).diodes]
    assert "; ".join(diodes) == case.diodes


def test_every_kind_has_its_proof() -> None:
    assert {case.kind for case in CASES} == built_in_kinds().keys()


# A proof that could not fail would prove nothing: every kind is spoiled in every simple way, and must be found out.


def spoiled(case: Case, kind: Kind) -> Netlist:
    return expand(described(case.railway), {**built_in_kinds(), case.kind: kind})[0]


def one_row_less(kind: Kind, lever_type: str | None) -> list[Kind]:
    """Rows that the lever does not need are not wired in the first place."""
    return [
        kind.model_copy(update={where: rows[:number] + rows[number + 1 :]})
        for where, rows in (("group", kind.group), ("chain", kind.chain))
        for number, row in enumerate(rows)
        if row.needed_with(lever_type)
    ]


def two_terminals_changed_over(kind: Kind) -> list[Kind]:
    terminals = [*(row.terminal for row in kind.group), *(row.terminal for row in kind.chain)]
    names = dict.fromkeys(terminal for terminal in terminals if terminal is not None)
    return [_renamed(kind, {one: other, other: one}) for one, other in combinations(names, 2)]


def _renamed(kind: Kind, new: dict[str, str]) -> Kind:
    """The diodes stay on the ways where they are."""

    def turned(row: GroupRow | ChainRow) -> GroupRow | ChainRow:
        diodes = {"diodes": tuple(new.get(name, name) for name in row.diodes)} if isinstance(row, GroupRow) else {}
        return row.model_copy(update={"terminal": new.get(row.terminal or "", row.terminal), **diodes})

    return kind.model_copy(
        update={"group": tuple(map(turned, kind.group)), "chain": tuple(map(turned, kind.chain))},
    )


@each_case
def test_a_kind_without_one_of_its_rows_is_found_out(case: Case) -> None:
    levers = netlist_of(case.railway).levers
    lever_type = next((lever.type for lever in levers if lever.id == case.lever), None)
    for kind in one_row_less(built_in_kinds()[case.kind], lever_type):
        assert proved(case, spoiled(case, kind)) != [], kind


@each_case
def test_a_kind_with_two_terminals_changed_over_is_found_out(case: Case) -> None:
    for kind in two_terminals_changed_over(built_in_kinds()[case.kind]):
        assert proved(case, spoiled(case, kind)) != [], kind


def _changed(kind: str, where: str, number: int, **change: object) -> Kind:
    """A built-in kind with one row changed."""
    whole = built_in_kinds()[kind]
    rows = list(getattr(whole, where))
    rows[number] = rows[number].model_copy(update=change)
    return whole.model_copy(update={where: tuple(rows)})


def case_of(id_: str) -> Case:
    return next(case for case in CASES if case.id == id_)


def test_a_crossing_on_the_motors_return_is_found_out() -> None:
    """Trade page, rule 13: never the crossing's arm on the motor's common."""
    bad = _changed("twin-coil-frog", "chain", 0, terminal="SC")
    wrong = proved(case_of("twin-coil-frog"), spoiled(case_of("twin-coil-frog"), bad))
    assert "normal: CAB.A PULSE.return meet" in wrong


def test_both_throws_on_one_rail_are_found_out() -> None:
    """Trade page, rule 13."""
    bad = _changed("crossing-changer", "group", 2, chain="A")
    wrong = proved(case_of("crossing-changer"), spoiled(case_of("crossing-changer"), bad))
    assert "reverse: D1.vee is fed by CAB.A, not by CAB.B" in wrong


def test_a_feed_and_a_return_on_one_terminal_are_found_out() -> None:
    bad = _changed("twin-coil", "chain", 0, terminal="N")
    wrong = proved(case_of("twin-coil"), spoiled(case_of("twin-coil"), bad))
    assert "normal: PULSE.feed PULSE.return meet" in wrong
    assert "rest: P5.N is fed by PULSE.return, not by nothing" in wrong


@pytest.mark.parametrize("diodes", [("B",), ("B", "C"), ("A", "B", "D")])
def test_a_wrong_diode_is_found_out(diodes: tuple[str, ...]) -> None:
    bad = _changed("three-way", "group", 1, diodes=diodes)
    assert proved(case_of("three-way"), spoiled(case_of("three-way"), bad)) != []


def test_a_piece_of_wire_in_place_of_a_diode_is_a_sneak_path() -> None:
    """With wires for the six diodes every button would throw every coil."""
    netlist = netlist_of(case_of("three-way").railway + "\nwires: [{from: A1.2, to: A1.6}]")
    wrong = proved(case_of("three-way"), netlist)
    assert "centre: P7.D is fed by >PULSE.feed, not by nothing" in wrong


def test_a_ring_is_found_out() -> None:
    netlist = netlist_of(case_of("twin-coil two as a crossover").railway + "\nwires: [{from: P5A.N, to: P5B.N}]")
    assert "ring P5A.N P5B.N" in proved(case_of("twin-coil two as a crossover"), netlist)
