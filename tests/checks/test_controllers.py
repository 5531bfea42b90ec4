"""Two controllers and one section."""

import pytest
from wiring.wiring_builder import described, netlist_of

from labelgen.checks.controllers import mixed_controllers, shared_windings


def text(kind: str, second: str, winding: str = "") -> str:
    return (
        f"supplies: {{ONE: {{kind: track{winding}}}, TWO: {{kind: {second}{winding}}}}}\nstrips: {{A1: }}\n"
        f"devices: {{Y: {{kind: {kind}, lever: 1, supplies: {{cab1: ONE, cab2: TWO}}}}}}"
    )


@pytest.mark.parametrize(
    ("kind", "second", "codes"),
    [
        ("cab-selector-common", "digital", ["digital-and-dc"]),
        ("cab-selector-common", "track", []),
        ("cab-selector", "digital", []),
    ],
)
def test_digital_and_plain(kind: str, second: str, codes: list[str]) -> None:
    given = text(kind, second)
    found = mixed_controllers(described(given), netlist_of(given))
    assert [(one.code, one.place.source) for one in found] == [(code, "devices.Y") for code in codes]
    assert all("ONE and the digital TWO" in one.message for one in found)


def test_two_digital_supplies_are_no_mixture() -> None:
    given = text("cab-selector-common", "digital").replace("kind: track", "kind: digital")
    assert mixed_controllers(described(given), netlist_of(given)) == []


@pytest.mark.parametrize(("kind", "found"), [("cab-selector-common", 1), ("cab-selector", 0)])
def test_one_winding_behind_both(kind: str, found: int) -> None:
    given = text(kind, "track", ", winding: T1")
    problems = shared_windings(described(given), netlist_of(given))
    assert [one.code for one in problems] == ["winding-shared"] * found
    assert all("share the winding T1" in one.message for one in problems)


def test_windings_of_which_nothing_is_said() -> None:
    given = text("cab-selector-common", "track")
    assert shared_windings(described(given), netlist_of(given)) == []


def test_one_controller_at_both_ends_of_the_lever() -> None:
    given = text("cab-selector-common", "track", ", winding: T1").replace("cab2: TWO", "cab2: ONE")
    assert shared_windings(described(given), netlist_of(given)) == []


def test_a_supply_that_a_device_makes_is_passed_over() -> None:
    given = (
        "supplies: {BUS: {kind: digital}}\nstrips: {A1: }\n"
        "devices: {REV: {kind: auto-reverser}, Y: {kind: cab-selector-common, lever: 1,"
        " supplies: {cab1: BUS, cab2: REV}}}"
    )
    assert mixed_controllers(described(given), netlist_of(given)) == []
