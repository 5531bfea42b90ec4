"""The page of worked examples: each can be copied as it is, and makes a railway without a short or a ring."""

import re
from pathlib import Path

import pytest
from devices.copper_proof import fed, meetings, rings
from devices.kind_cases import table
from wiring.wiring_builder import built_in_kinds, lines, wire_texts

import labelgen
from labelgen.making import Request
from labelgen.model.kinds import ChainRow, GroupRow, Kind
from labelgen.model.netlist import Netlist
from labelgen.pipeline import check_file, make
from labelgen.problems import has_errors

PAGE = (Path(labelgen.__file__).parent / "manual" / "kinds.md").read_text(encoding="utf-8")
EXAMPLES = re.findall(r"```yaml\n(.*?)```", PAGE, re.DOTALL)


def made(folder: Path, example: str) -> Netlist:
    path = folder / "railway.yaml"
    path.write_text(f"railway: Marram Quay\n{example}", encoding="utf-8")
    checked, problems = check_file(path)
    assert not has_errors(problems), problems
    assert checked is not None
    return checked.netlist


def example_with(words: str) -> str:
    (found,) = [example for example in EXAMPLES if words in example]
    return found


@pytest.mark.parametrize("example", EXAMPLES)
def test_each_example_is_right_as_it_stands(example: str, tmp_path: Path) -> None:
    netlist = made(tmp_path, example)
    assert netlist.wires
    assert rings(netlist) == []
    assert meetings(netlist, {}) == []
    for throw in ("normal", "reverse"):
        # All levers that can lie so at once; buttons, studs and rotary switches have other positions.
        levers = [lever.id for lever in netlist.levers if lever.type in {"sprung", "passing", "latching", "changeover"}]
        assert meetings(netlist, dict.fromkeys(levers, throw)) == []


def test_every_built_in_kind_is_on_the_page() -> None:
    assert built_in_kinds().keys() - set(re.findall(r"`([\w-]+)`", PAGE)) == set()


def test_every_built_in_kind_that_is_hard_to_write_down_is_in_an_example() -> None:
    used = set(re.findall(r"kind: ([\w-]+)", " ".join(EXAMPLES)))
    several = {name for name, kind in built_in_kinds().items() if len(kind.supply) > 1 or kind.gives}
    # These are written like their neighbours on the page.
    assert several - used <= {
        "twin-coil-frog",
        "limit-switch-motor",
        "relay",
        "cab-selector-common",
        "cab-selector-rotary",
    }


def test_every_key_of_the_form_is_in_an_example() -> None:
    keys = set(re.findall(r"(\w+):\s", " ".join(EXAMPLES)))
    described = {"notes", "ohms", "diodes", "loads", "accepted", "lamp_volts", "lamp_milliamps"}
    for record in (Kind, GroupRow, ChainRow):
        assert record.model_fields.keys() - keys - described == set()


def throws(folder: Path, words: str, expected: dict[str, str], lever: str) -> None:
    netlist = made(folder, example_with(words))
    for position, text in expected.items():
        assert fed(netlist, {lever: position}) == table(text), position


def test_two_arms_take_turns_at_the_crossing(tmp_path: Path) -> None:
    """Trade page, the second of the two published ways: rails to 4 and 5, 2 and 7 to the vee."""
    throws(
        tmp_path,
        "stall-motor-two-arms",
        {
            "normal": "P5.1 DRIVE.feed; P5.8 DRIVE.return; P5.4 CAB.A; P5.5 CAB.B; P5.2 CAB.A; P5.7 CAB.A; "
            "P5.vee CAB.A",
            "reverse": "P5.1 DRIVE.return; P5.8 DRIVE.feed; P5.4 CAB.A; P5.5 CAB.B; P5.2 CAB.B; P5.7 CAB.B; "
            "P5.vee CAB.B",
        },
        "5",
    )


def test_two_arms_that_close_together_short_the_track(tmp_path: Path) -> None:
    """Trade page: closing together they short the track. It is refused; accepted all the same, the proof shows why."""
    bad = example_with("stall-motor-two-arms").replace("normal: [[4, 2]]", "normal: [[4, 2], [5, 7]]")
    path = tmp_path / "railway.yaml"
    path.write_text(f"railway: Marram Quay\n{bad}", encoding="utf-8")
    assert "crossing-shorted" in {problem.code for problem in check_file(path)[1]}
    point = "P5: {kind: stall-motor-two-arms}"
    assert point in bad
    accepted = bad.replace(point, point.replace("}", ", accepted: {crossing-shorted: to see what happens}}"))
    assert meetings(made(tmp_path, accepted), {"5": "normal"}) == ["CAB.A CAB.B"]


def test_a_head_with_a_shared_plus(tmp_path: Path) -> None:
    throws(
        tmp_path,
        "signal-shared-plus",
        {
            "off": "S4.C LIGHT.feed",
            "normal": "S4.R LIGHT.return; S4.C LIGHT.feed",
            "reverse": "S4.G LIGHT.return; S4.C LIGHT.feed",
        },
        "S4",
    )


def test_one_rail_or_both_by_the_lever(tmp_path: Path) -> None:
    netlist = made(tmp_path, example_with("my-section"))
    assert wire_texts(netlist) == lines("""
        1 11T L11.1 > A1.1/panel
        2 11Ts L11.2 > A1.2/panel
        3 11Ts A1.2/layout > YARD.A
        4 12T L12.N1 > A1.3/panel
        5 12Ts L12.F1 > A1.4/panel
        6 12Ts A1.4/layout > SHED.A
        7 12U L12.N2 > A1.5/panel
        8 12Us L12.F2 > A1.6/panel
        9 12Us A1.6/layout > SHED.B
        10 T CAB.A > A1.1/layout
        11 T A1.1/layout > A1.3/layout link
        12 U CAB.B > A1.5/layout
        13 U CAB.B > YARD.B
    """)
    assert fed(netlist, {}) == table("YARD.B CAB.B")
    assert fed(netlist, {"12": "normal"}) == table("YARD.B CAB.B; SHED.A CAB.A; SHED.B CAB.B")


def test_a_fuse_feeds_the_lamps_behind_it(tmp_path: Path) -> None:
    throws(
        tmp_path,
        "about: fuse",
        {
            "normal": "F1.in LIGHT.feed; F1.out LIGHT.feed; F1.minus LIGHT.return; LH1.L LIGHT.feed;"
            "LH1.C LIGHT.return; LH2.L LIGHT.feed; LH2.C LIGHT.return",
            "open": "F1.in LIGHT.feed; F1.minus LIGHT.return; LH1.C LIGHT.return; LH2.C LIGHT.return",
        },
        "F1",
    )


def test_the_schedule_says_which_two_to_swap(tmp_path: Path) -> None:
    path = tmp_path / "railway.yaml"
    path.write_text(
        "railway: Marram Quay\nsupplies: {DRIVE: {kind: dc}, CAB: {kind: track}}\nstrips: {A1: {measured: 110}}\n"
        "points: {P5: {kind: stall-motor}}\n",
        encoding="utf-8",
    )
    checked, _ = check_file(path)
    assert checked is not None
    files = make(checked, Request(only=frozenset({"schedule"}))).files
    page = re.sub(r"<[^>]+>", "", files["schedule/A1/index.html"].decode())
    assert "swap these two if it shorts: 5T here, 5U at way 5" in page
    assert "swap these two if it shorts: 5U here, 5T at way 3" in page
    assert page.count("swap these two") == 2
