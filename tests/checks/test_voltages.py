"""Voltages.

Limits: IEC 61558-1:2005, 3.7.16, and IEC 61140 (50 and 120 V); EN 60204-1, 6.4 (25 and 60 V); 2009/48/EC (24 V).
"""

import pytest
from wiring.wiring_builder import described, netlist_of

from labelgen.checks.voltages import high_voltages
from labelgen.problems import Problem


def problems(supply: str) -> list[Problem]:
    text = f"supplies: {{S: {{{supply}}}}}"
    return high_voltages(described(text), netlist_of(text))


@pytest.mark.parametrize(
    ("kind", "volts", "code"),
    [
        ("ac", 50.1, "voltage-too-high"),
        ("ac", 50, "above-touch-limit"),
        ("ac", 25.1, "above-touch-limit"),
        ("ac", 25, "above-toy-limit"),
        ("ac", 24.1, "above-toy-limit"),
        ("ac", 24, None),
        ("digital", 50.1, "voltage-too-high"),
        ("digital", 26, "above-touch-limit"),
        ("digital", 22, None),
        ("dc", 120.1, "voltage-too-high"),
        ("dc", 120, "above-touch-limit"),
        ("dc", 60.1, "above-touch-limit"),
        ("dc", 60, "above-toy-limit"),
        ("dc", 24, None),
        ("track", 121, "voltage-too-high"),
        ("pulse", 121, "voltage-too-high"),
        ("pulse", 45.25, "above-toy-limit"),  # a doubler on 16 V of alternating current
    ],
)
def test_the_gravest_is_said_alone(kind: str, volts: float, code: str | None) -> None:
    found = problems(f"kind: {kind}, volts: {volts}")
    assert [one.code for one in found] == ([code] if code else [])
    assert all(one.place.source == "supplies.S.volts" and f"{volts:g} volts" in one.message for one in found)


@pytest.mark.parametrize(
    ("supply", "said"),
    [
        ("kind: dc, volts: 12, amps: 10", None),
        ("kind: dc, volts: 12, amps: 10.5", "10.5 amps are more than the 10 amps"),
        ("kind: dc, volts: 20, amps: 10", None),
        ("kind: dc, volts: 24, amps: 9", "216 volt-amps are more than the 200"),
        ("kind: dc", None),
    ],
)
def test_what_a_transformer_for_toys_may_give(supply: str, said: str | None) -> None:
    found = problems(supply)
    assert [one.message for one in found] == ([f"S's {said} of a toy"] if said else [])


@pytest.mark.parametrize("volts", [61, 130])
def test_what_hurts_defers_to_local_codes_and_an_electrician(volts: int) -> None:
    (problem,) = problems(f"kind: dc, volts: {volts}")
    assert "Local codes come first" in problem.hint
    assert "licensed electrician" in problem.hint
