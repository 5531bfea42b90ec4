"""Mains, and fuses."""

import pytest
from wiring.wiring_builder import described, netlist_of

from labelgen.checks.fuses import unfused_supplies, unsaid_fuses
from labelgen.checks.mains import mains_on_layout, mains_plugs
from labelgen.problems import OVERRIDABLE, Problem

NOTHING = netlist_of("railway: Marram Quay")


def on_layout(text: str) -> list[tuple[str, str]]:
    return [(one.place.source, one.message) for one in mains_on_layout(described(text), NOTHING)]


@pytest.mark.parametrize(
    "words", ["mains", "Mains in", "230 V", "230V lamp", "240 volts", "120 VAC", "110 v ac", "100... 120 V"]
)
def test_a_way_that_is_taken_for_mains(words: str) -> None:
    ((place, message),) = on_layout(f'strips: {{A1: {{taken: {{7: "{words}"}}}}}}')
    assert place == "strips.A1.taken.7"
    assert message.startswith("way 7 of strip A1 is taken for ")


@pytest.mark.parametrize("words", ["12 V", "24 V lamp", "doorbell", "remains", "lamp 230", "1230 V", "230 vehicles"])
def test_a_way_that_is_not(words: str) -> None:
    assert on_layout(f'strips: {{A1: {{taken: {{7: "{words}"}}}}}}') == []


def test_a_supply_and_a_function() -> None:
    text = (
        "supplies: {S: {kind: dc, mains: layout}, T: {kind: dc, mains: case}}\nfunctions: {mains: {code: Q}, lamp: {}}"
    )
    assert [place for place, _ in on_layout(text)] == ["supplies.S.mains", "functions.mains"]


def test_a_plug_that_fits_mains() -> None:
    plug = "J%d: {boards: [A, B], pins: 3, fits_mains: %s}"
    text = f"plugs: {{{plug % (1, 'yes')}, {plug % (2, 'no')}}}"
    assert [one.place.source for one in mains_plugs(described(text), NOTHING)] == ["plugs.J1.fits_mains"]


def test_nobody_can_accept_them() -> None:
    assert OVERRIDABLE.isdisjoint({"mains-on-layout", "mains-plug", "voltage-too-high", "safety-colour", "ac-joined"})


def fuses(supplies: str) -> list[Problem]:
    given = described(f"supplies: {{{supplies}}}")
    return [*unfused_supplies(given, NOTHING), *unsaid_fuses(given, NOTHING)]


def test_a_supply_without_a_fuse_and_one_of_which_nothing_is_said() -> None:
    found = fuses("A: {kind: dc, protection: none}, B: {kind: track}, C: {kind: ac}, D: {kind: pulse}")
    assert [(one.code, one.place.source) for one in found] == [
        ("no-fuse", "supplies.A.protection"),
        ("fuse-not-said", "supplies.B"),
    ]
    assert "B, C" in found[1].message


def test_supplies_that_are_protected() -> None:
    given = "A: {kind: dc, fuse: 1}, B: {kind: track, protection: built-in}, C: {kind: dc, fuse: 1, protection: none}"
    assert fuses(given) == []
