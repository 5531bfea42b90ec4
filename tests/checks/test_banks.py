"""Several motors at once, and the return that they share."""

import pytest
from wiring.wiring_builder import described, netlist_of, wired

from labelgen.checks.banks import small_banks, thin_returns
from labelgen.figuring.figures import figures_of
from labelgen.model.figures import Figures
from labelgen.problems import Problem

BOARD = "boards: {B: {size: [9000, 600], at: [0, 0]}}\n"
TEXT = (
    BOARD + "supplies: {PULSE: {kind: pulse, at: [0, 0], microfarads: %s}}\nstrips: {A1: {at: [100, 300], ways: 24}}\n"
    "points: {P1: {at: [200, 100]}, P2: {at: [300, 100]}, P3A: {at: [400, 100]}, P3B: {at: [500, 100]}}\n"
)
ROUTES = "routes: {Bay: {1: normal, 2: reverse, 3: normal}, Main: {1: reverse, 2: reverse}}\n"


def banks(text: str) -> list[Problem]:
    return small_banks(described(text), netlist_of(text), Figures())


@pytest.mark.parametrize(("microfarads", "found"), [(4399, 1), (4400, 0)])
def test_two_motors_of_one_lever(microfarads: int, found: int) -> None:
    problems = banks(TEXT % microfarads)
    assert len(problems) == found
    assert all("lever 3, which fires 2 coils at once" in one.message for one in problems)


@pytest.mark.parametrize(("microfarads", "found"), [(8799, 1), (8800, 0)])
def test_the_route_with_most_coils_is_told(microfarads: int, found: int) -> None:
    problems = banks(TEXT % microfarads + ROUTES)
    assert [one.place.source for one in problems] == ["supplies.PULSE.microfarads"] * found
    assert all("route 'Bay', which fires 4 coils" in one.message and "8800" in one.hint for one in problems)


def test_one_motor_at_a_time_needs_no_more_than_its_maker_says() -> None:
    text = "supplies: {PULSE: {kind: pulse, microfarads: 1000}}\nstrips: {A1: }\npoints: {P1: , P2: }"
    assert banks(text) == []


def test_two_coils_of_one_device() -> None:
    """Of a three-way point every button fires two."""
    text = "supplies: {PULSE: {kind: pulse, microfarads: 2200}}\nstrips: {A1: }\npoints: {P1: {kind: three-way}}"
    assert [one.code for one in banks(text)] == ["bank-small"]


@pytest.mark.parametrize("volts", ["", ", volts: 24"])
def test_where_there_are_figures_they_decide(volts: str) -> None:
    """2,200 µF at 24 V hold 0.63 J: 0.3 J each for two motors, where half of 0.5 J is said to throw one."""
    text = (TEXT % 2200).replace("2200", f"2200{volts}")
    netlist = netlist_of(text)
    figures = figures_of(described(text), netlist)
    assert all(0.28 < bank.weakest.weakest.joules < 0.317 for bank in figures.banks)
    assert [one.code for one in small_banks(described(text), netlist, figures)] == ([] if volts else ["bank-small"])


def test_what_is_not_said_is_not_judged() -> None:
    assert banks((TEXT % 5).replace(", microfarads: 5", "")) == []


def returns(text: str) -> list[str]:
    return [one.message for one in thin_returns(described(text), netlist_of(text))]


SHORT = TEXT.replace(", P3A: {at: [400, 100]}, P3B: {at: [500, 100]}", "") % 4700


def test_a_return_as_it_is_by_itself() -> None:
    assert returns(TEXT % 4700 + ROUTES) == []
    assert returns("railway: x") == []


def test_a_return_thinner_than_what_goes_out() -> None:
    assert returns(SHORT + "functions: {return: {size: 7/0.2}}") == [
        "PULSE's common return is 7/0.2, thinner than 16/0.2, in which wires go out"
    ]


def test_a_return_of_one_millimetre_is_asked_with_routes_and_beyond_six_metres() -> None:
    thin = "functions: {return: {size: 24/0.2}}\n"
    assert returns(SHORT + thin) == []
    with_routes = SHORT + thin + "routes: {Main: {1: reverse, 2: reverse}}\n"
    assert returns(with_routes) == ["PULSE's common return is 24/0.2, thin where routes fire several coils at once"]
    far = (SHORT + thin).replace("P2: {at: [300, 100]}", "P2: {at: [8000, 100]}")
    assert returns(far) == ["PULSE's common return is 24/0.2, thin for more than 6 m"]


def test_a_size_that_is_none_is_reported_elsewhere() -> None:
    text = SHORT + "functions: {return: {size: thick}}"
    netlist, _ = wired(text)
    assert "thick" in {wire.size for wire in netlist.wires}
    assert thin_returns(described(text), netlist) == []
