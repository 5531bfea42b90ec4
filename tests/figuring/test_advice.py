"""What would mend a weak throw: each figure against a description in which that very change is made."""

from math import isclose

import pytest
from test_throws_figures import CROSSOVER, HEAD, figured, throw

from labelgen.model.figures import BankFigure, Figures, Mend

SMALL = CROSSOVER.replace("microfarads: 4700", "microfarads: 1000")


THIN = CROSSOVER + "functions: {return: {size: 7/0.2}}\n"


def bank(figures: Figures) -> BankFigure:
    (found,) = figures.banks
    return found


def mend(figures: Figures, words: str) -> Mend:
    return next(one for one in bank(figures).mends if words in one.words)


def test_the_weakest_coil_of_all_is_named() -> None:
    figures = figured(SMALL)[2]
    every = [coil.joules for one in figures.throws for coil in one.coils]
    assert bank(figures).weakest.weakest.joules == min(every)
    assert bank(figures).throws == 4
    assert bank(figures).weak_throws == 2, "lever 5 both ways"


def test_a_larger_bank() -> None:
    # 1000 µF give about 0.12 J each: the next values of IEC 60063's E3 are 2200 and 4700.
    figures = figured(SMALL)[2]
    larger = figured(SMALL.replace("microfarads: 1000", "microfarads: 2200"))[2]
    found = mend(figures, "a bank of 2200 µF")
    assert isclose(found.joules, bank(larger).weakest.weakest.joules)
    assert found.share == bank(figures).weakest.weakest.share


def test_a_bank_that_is_large_enough_is_still_made_larger() -> None:
    assert mend(figured(CROSSOVER)[2], "a bank of 10000 µF").enough


def test_a_thicker_return() -> None:
    figures = figured(THIN)[2]
    thick = figured(THIN.replace("7/0.2", "16/0.2"))[2]
    found = mend(figures, "return wire of 16/0.2")
    weakest = throw(thick, bank(figures).weakest.lever, bank(figures).weakest.lie).weakest
    assert isclose(found.joules, weakest.joules)
    assert found.device == weakest.device


def test_beyond_the_thickest_there_is_no_thicker() -> None:
    figures = figured(CROSSOVER + "functions: {return: {size: 4 mm2}}\n")[2]
    assert not [one for one in bank(figures).mends if one.words.startswith("return wire")]


def test_a_star_in_place_of_the_chain() -> None:
    """The same by hand: a wire of the builder's own as long as the chain's way, and the chain's link taken out."""
    _, netlist, figures = figured(THIN.replace("7/0.2", "7/0.1"))
    found = mend(figures, "a star")
    by_ends = {(wire.start.name, wire.finish.name): wire for wire in netlist.wires}
    (to_first,) = [w for (a, _), w in by_ends.items() if a == "PULSE.return"]
    (link,) = [w for (a, b), w in by_ends.items() if {a, b} == {"P5A.C", "P5B.C"}]
    back = {"P5A": to_first.length, "P5B": (to_first.length or 0) + (link.length or 0)}
    coils = {"P5A": 4.5, "P5B": 6.0}
    parts = {"return": 0.3136, "normal": 0.0343}  # ohms a metre of 7/0.1 and 16/0.2, by the reference's table
    out = {name: w.length or 0 for name in coils for (a, b), w in by_ends.items() if f"{name}.N" in (a, b)}
    ohms = {n: coils[n] + (back[n] or 0) / 1000 * parts["return"] + out[n] / 1000 * parts["normal"] for n in coils}
    before = sum(w.length or 0 for (a, b), w in by_ends.items() if a == "PULSE.feed" or {"L5.F", "L5.N"} & {a, b})
    parallel = 1 / sum(1 / each for each in ohms.values())
    loop = before / 1000 * parts["normal"] + parallel
    shares = {n: coils[n] * (parallel / ohms[n] / loop) ** 2 * loop for n in coils}
    assert isclose(found.share, min(shares.values()), rel_tol=2e-3)


def test_a_second_unit_takes_half_of_the_motors() -> None:
    figures = figured(SMALL)[2]
    alone = [
        throw(figured(SMALL.replace(left_out, ""))[2], "5", bank(figures).weakest.lie).weakest.share
        for left_out in ("P5A: {at: [300, 300]}, ", "P5B: {at: [2600, 700], ohms: 6}, ")
    ]
    # Of P5B alone the return goes straight to it, and not by P5A: it gets a little more than in the chain.
    assert 0.97 * min(alone) < mend(figures, "for half of the motors").share <= min(alone) + 1e-12


def test_a_second_unit_beside_a_single_motor() -> None:
    far = HEAD + "points: {P5: {at: [2900, 50], ohms: 5}}\nfunctions: {return: {size: 7/0.1}, feed: {size: 7/0.1}}\n"
    _, netlist, figures = figured(far)
    own = sum((w.length or 0) / 1000 * 0.0343 for w in netlist.wires if w.function == "normal")
    jumper = sum((w.length or 0) / 1000 * 0.3136 for w in netlist.wires if w.circuit == "5" and w.function == "feed")
    assert isclose(mend(figures, "right beside P5").share, 5 / (5 + own + jumper), rel_tol=1e-3)


@pytest.mark.parametrize(
    ("keys", "seconds"), [("charge_ohms: 220", 5 * 0.0047 * 220), ("amps: 0.1", 0.0047 * 24 / 0.1), ("", None)]
)
def test_how_soon_it_is_full_again(keys: str, seconds: float | None) -> None:
    text = CROSSOVER.replace("microfarads: 4700", f"microfarads: 4700, {keys}")
    found = bank(figured(text)[2])
    if seconds is None:
        assert found.seconds_to_full is found.throws_a_minute is None
    else:
        assert isclose(found.seconds_to_full or 0, seconds)
        assert isclose(found.throws_a_minute or 0, 60 / seconds)


def test_no_pulse_supply_no_bank() -> None:
    assert figured("railway: Samphire Point\n")[2].banks == ()


def test_a_change_that_gives_nothing_is_not_told() -> None:
    short = HEAD + "points: {P5: {at: [150, 120], ohms: 40}}\n"
    assert [one.words for one in bank(figured(short)[2]).mends] == ["a bank of 10000 µF"]


def test_routes_have_wires_that_hot_pulses_are_judged_by() -> None:
    """Two coils side by side: each wire's I²t is that of its own part of the current."""
    thin = CROSSOVER.replace("microfarads: 4700", "microfarads: 99000") + "functions: {normal: {size: 38 AWG}}\n"
    figures = figured(thin)[2]
    found = throw(figures, "5", "normal")
    assert len(found.hot_wires) == 2, "from the lever to the strip, and to the nearer motor"
    assert max(found.hot_wires.values()) == pytest.approx(found.amps_squared_seconds)
    assert min(found.hot_wires.values()) < found.amps_squared_seconds / 2
    assert throw(figures, "5", "reverse").hot_wires == {}
