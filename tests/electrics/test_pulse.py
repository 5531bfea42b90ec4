"""Worked examples of capacitors, and the share of energy by integral, by symbols and with inductance."""

from math import exp, isclose, log

import numpy as np
import pytest
import sympy
from scipy.integrate import quad, solve_ivp

from labelgen.electrics.pulse import Pulse, seconds_to_charge, seconds_to_full
from labelgen.model.figures import WEAK_JOULES

COIL, WIRE = 5.0, 10 * 0.0784014
BASE = Pulse(farads=4700e-6, volts=24.0, ohms=COIL + WIRE)
"""10 m of 7/0.2 there and back, in series with a coil of 5 ohms."""


def test_the_base_case() -> None:
    assert isclose(BASE.stored_joules, 1.3536, abs_tol=5e-5)
    assert isclose(BASE.share_of(COIL), 0.864451, abs_tol=1e-6)
    assert isclose(BASE.share_of(COIL) * BASE.stored_joules, 1.170122, abs_tol=1e-6)
    assert isclose(BASE.peak_amps, 4.14937, abs_tol=1e-5)
    assert isclose(BASE.time_constant, 27.185e-3, abs_tol=1e-6)
    assert isclose(BASE.amps_squared_seconds, 0.2340, abs_tol=1e-4)


def test_the_share_by_integral() -> None:
    coil, _ = quad(lambda t: (BASE.peak_amps * exp(-t / BASE.time_constant)) ** 2 * COIL, 0, 5)
    assert isclose(coil, BASE.share_of(COIL) * BASE.stored_joules, rel_tol=1e-9)


def test_the_share_by_symbols() -> None:
    capacity, volts, loop, coil, time = sympy.symbols("C V R Rc t", positive=True)
    energy = sympy.integrate((volts / loop * sympy.exp(-time / (loop * capacity))) ** 2 * coil, (time, 0, sympy.oo))
    assert sympy.simplify(energy - capacity * volts**2 / 2 * coil / loop) == 0


@pytest.mark.parametrize(("millihenries", "peak"), [(1, 4.042), (5, 3.809), (50, 2.927)])
def test_inductance_lowers_the_peak_and_leaves_the_share(millihenries: float, peak: float) -> None:
    henries = millihenries / 1000

    def change(_: float, state: np.ndarray) -> list[float]:
        volts, amps, _, _ = state
        return [
            -amps / BASE.farads,
            (volts - amps * BASE.ohms) / henries,
            amps**2 * COIL,
            amps**2 * BASE.ohms,
        ]

    run = solve_ivp(change, (0, 1.5), [BASE.volts, 0, 0, 0], rtol=1e-10, atol=1e-12, method="LSODA")
    assert isclose(run.y[2][-1] / run.y[3][-1], BASE.share_of(COIL), rel_tol=1e-6)
    assert isclose(run.y[3][-1], BASE.stored_joules, rel_tol=1e-6)
    assert isclose(max(run.y[1]), peak, abs_tol=2e-3)
    assert max(run.y[1]) < BASE.peak_amps


@pytest.mark.parametrize(
    ("coils", "each", "peak"), [(1, 1.1701, 4.149), (2, 0.5152, 7.308), (3, 0.3069, 9.793), (4, 0.2080, 11.799)]
)
def test_coils_side_by_side_on_one_loop(coils: int, each: float, peak: float) -> None:
    pulse = Pulse(farads=BASE.farads, volts=BASE.volts, ohms=COIL / coils + WIRE)
    assert isclose(pulse.share_of(COIL / coils) * pulse.stored_joules / coils, each, abs_tol=1e-4)
    assert isclose(pulse.peak_amps, peak, abs_tol=1e-3)


@pytest.mark.parametrize(("ohms_per_10_m", "share"), [(0.3430, 0.93580), (0.390, 0.92764), (0.133, 0.97409)])
def test_other_wires(ohms_per_10_m: float, share: float) -> None:
    # 16/0.2 by geometry; 0.5 and 1.5 mm² by IEC 60228 class 5.
    pulse = Pulse(farads=BASE.farads, volts=BASE.volts, ohms=COIL + ohms_per_10_m)
    assert isclose(pulse.share_of(COIL), share, abs_tol=1e-5)


def test_diodes_in_the_loop_leave_their_share() -> None:
    pulse = Pulse(farads=BASE.farads, volts=BASE.volts, ohms=BASE.ohms, drop_volts=1.4)
    coil = pulse.share_of(COIL) * pulse.stored_joules
    wire = pulse.share_of(WIRE) * pulse.stored_joules
    diodes = 1.4 * pulse.farads * (24 - 1.4)
    kept = pulse.farads * 1.4**2 / 2
    assert isclose(coil, 1.0376, abs_tol=1e-4)
    assert isclose(wire, 0.1627, abs_tol=1e-4)
    assert isclose(coil + wire + diodes + kept, pulse.stored_joules, rel_tol=1e-9)
    assert pulse.volts_after(100) == pytest.approx(1.4)


@pytest.mark.parametrize(
    ("farads", "ohms", "volts", "left", "milliseconds"),
    [
        (8.00e-6, 1e3, 10e3, 500, 23.966),  # College Physics, 21.6, second example (steps of 0.368 give 24.0)
        (8.00e-6, 1.25e3, 12e3, 600, 29.957),  # College Physics, chapter 21, problem 69 with key
        (35e-6, 120, 1, 0.1, 9.671),  # a university's introductory text, example 19-13
    ],
)
def test_published_discharges(farads: float, ohms: float, volts: float, left: float, milliseconds: float) -> None:
    pulse = Pulse(farads=farads, volts=volts, ohms=ohms)
    assert isclose(pulse.volts_after(milliseconds / 1000), left, rel_tol=1e-4)


def test_published_energies() -> None:
    # College Physics, example 19.11; a college text, example 17-9.
    assert isclose(Pulse(farads=8.00e-6, volts=1.00e4, ohms=1).stored_joules, 400)
    assert isclose(Pulse(farads=80.0e-6, volts=2.50e3, ohms=1).stored_joules, 250.0)


@pytest.mark.parametrize(
    ("farads", "ohms", "part", "seconds"),
    [
        (0.30e-6, 20e3, 0.99, 27.631e-3),  # a university's introductory text, example 19-12
        (2200e-6, 220, 0.90, 1.1145),  # a hobby page rounds to 1 s
        (1.50e-6, 500, 1 - exp(-1), 0.750e-3),  # College Physics, chapter 21, problem 68
    ],
)
def test_published_charges(farads: float, ohms: float, part: float, seconds: float) -> None:
    assert isclose(seconds_to_charge(farads, ohms, part), seconds, rel_tol=1e-4)


def test_no_bank_is_ever_quite_full() -> None:
    with pytest.raises(ValueError, match="never charged"):
        seconds_to_charge(1, 1, 1.0)


@pytest.mark.parametrize(("constants", "part"), [(log(2) / 2, 0.5), (1, 0.86466), (2, 0.98168), (5, 0.99995)])
def test_how_much_is_given_by_when(constants: float, part: float) -> None:
    assert isclose(BASE.given_after(constants * BASE.time_constant), part, abs_tol=1e-5)


@pytest.mark.parametrize(
    ("ohms", "amps", "seconds"), [(220, None, 5 * 0.484), (None, 0.1, 0.55), (220, 0.1, 5 * 0.484), (1, 0.1, 0.55)]
)
def test_full_again(ohms: float | None, amps: float | None, seconds: float) -> None:
    # Five time constants (a training text of an army: 99.3 %, "taken as full"); at a steady current t = C V / I.
    found = seconds_to_full(2200e-6, 25, ohms, amps)
    assert found is not None
    assert isclose(found, seconds)


def test_of_an_unknown_charger_nothing_is_said() -> None:
    assert seconds_to_full(2200e-6, 25, None, None) is None


@pytest.mark.parametrize(
    ("constants", "part"), [(1, 0.632), (2, 0.865), (3, 0.950), (4, 0.982), (5, 0.993), (7, 0.999)]
)
def test_how_full_by_when(constants: float, part: float) -> None:
    # A training text of an army prints these; exact 95.02 at three, where it prints 95.1.
    exact = 1 - exp(-constants)
    assert isclose(exact, part, abs_tol=6e-4)
    assert isclose(seconds_to_charge(1e-3, 100, exact), constants * 0.1)


@pytest.mark.parametrize(
    ("microfarads", "volts", "joules"),
    [
        (2200, 25, 0.6875),
        (4700, 25, 1.469),
        (4700, 35, 2.879),
        (10000, 25, 3.125),
        (18000, 25, 5.625),
        (11000, 50, 13.75),
    ],
)
def test_banks_in_use(microfarads: float, volts: float, joules: float) -> None:
    # Hobby pages on discharge units; 11 000 is two of 22 000 in series.
    assert isclose(Pulse(farads=microfarads * 1e-6, volts=volts, ohms=1).stored_joules, joules, rel_tol=1e-3)


def test_what_is_weak_is_half_of_the_smallest_usual_unit() -> None:
    # 2200 µF on 16 V AC: peak 22.627 V, behind a bridge 21.227 V.
    unit = Pulse(farads=2200e-6, volts=16 * 2**0.5 - 1.4, ohms=1)
    assert isclose(unit.volts, 21.227, abs_tol=5e-4)
    assert isclose(WEAK_JOULES, unit.stored_joules / 2, rel_tol=0.02)


def test_a_published_charge_seen_as_a_discharge_of_the_rest() -> None:
    # College Physics, chapter 21, problem 68: 500 ohms, 1.50 µF, 6.16 V: 12.3 mA at once, 4.53 mA after 0.750 ms, and
    # then 3.89 V in it. What is still lacking falls as a discharge does.
    lacking = Pulse(farads=1.50e-6, volts=6.16, ohms=500)
    assert isclose(lacking.peak_amps, 12.320e-3, rel_tol=1e-3)
    assert isclose(lacking.time_constant, 0.750e-3)
    assert isclose(lacking.volts_after(0.750e-3) / 500, 4.5323e-3, rel_tol=1e-4)
    assert isclose(6.16 - lacking.volts_after(0.750e-3), 3.8939, rel_tol=1e-4)


def test_more_published_charges() -> None:
    # A university's introductory text, example 19-12: 0.30 µF, 20 kilohms, 12 V: 600 µA, 6.0 ms, 3.6 µC. College
    # Physics, 21.6, first example: 10.0 ohms and 1.6e-4 s want 16 µF.
    text = Pulse(farads=0.30e-6, volts=12, ohms=20e3)
    assert isclose(text.peak_amps, 600e-6)
    assert isclose(text.time_constant, 6.0e-3)
    assert isclose(text.farads * text.volts, 3.6e-6)
    assert isclose(Pulse(farads=16e-6, volts=1, ohms=10).time_constant, 1.6e-4)


def test_a_drop_as_high_as_the_bank_gives_nothing() -> None:
    pulse = Pulse(farads=1e-3, volts=1.0, ohms=1, drop_volts=1.4)
    assert pulse.peak_amps == pulse.spent_joules == pulse.share_of(1) == 0
    assert pulse.volts_after(1) == 1.0
