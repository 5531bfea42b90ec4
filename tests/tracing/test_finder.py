"""The fault finder against railways that are broken on purpose; networkx says what works and what a meter reads."""

import math
import random
from collections.abc import Iterator
from pathlib import Path

import pytest
from broken_railway import Broken, Node, Wrong, every_fault
from generated_railways import railway

from labelgen.making import Checked
from labelgen.model.copper_tree import Point, name_of
from labelgen.pipeline import check_file, tracing_of
from labelgen.problems import has_errors
from labelgen.tracing.answer import Tracing
from labelgen.tracing.evidence import Measure
from labelgen.tracing.finder import Found

EXAMPLE = Path(__file__).parents[2] / "layouts" / "railways" / "marram-quay.yaml"
MOST_MEASUREMENTS = 40


def checked(path: Path) -> Checked:
    found, problems = check_file(path)
    assert found is not None
    assert not has_errors(problems)
    return found


def supplies(railway_: Checked) -> dict[str, str]:
    return {id_: supply.kind for id_, supply in railway_.description.supplies.items()}


def word(task: tuple[str, str, str], railway_: Checked) -> str | None:
    """What a builder would call it: the head of the lever's contact, a device; nothing for routes."""
    lever, lie, what = task
    if not lever:
        return what.split(".")[0]
    if lever not in railway_.netlist.lever_by_id:
        return None
    heads = {"normal": f"{lever}N", "reverse": f"{lever}R", "on": f"{lever}Ts"}
    return heads[lie]


def node(point: Point) -> Node:
    return (name_of(point), point[3])


def reads_well(measure: Measure, broken: Broken) -> bool:
    """What the meter says on the broken railway: whether it is what the finder calls as it should be."""
    one, other = node(measure.one), node(measure.other)
    if measure.expected == "volts":
        return broken.volts(measure.supply)
    if measure.expected == "clear":
        assert measure.lifted is not None
        assert measure.lifted.wire is not None
        near = node(measure.lifted.beyond(measure.one))
        return broken.clear(one, other, measure.lifted.wire, near)
    if measure.expected == "load":
        if measure.load is not None and measure.load.kind == "diode":
            return broken.joined(one, other) or broken.joined(other, one)
        return broken.through_load(one, other)
    hold = None
    if measure.hold:
        parts = measure.hold.split(" ", 1)[1].rsplit(" ", 1)
        hold = (parts[0], parts[1]) if measure.hold.startswith("lever") else (measure.hold.split(" ", 1)[1], "set")
        hold = hold if hold in broken.contacts else (hold[0], "on")
    return broken.joined(one, other, hold) is (measure.expected == "joined")


def symptoms(broken: Broken, railway_: Checked, sound: set[tuple[str, str, str]]) -> tuple[list[str], list[str]]:
    """The words for what does not work (nothing of what they stand for), and for what does."""
    done = broken.done()
    by_word: dict[str, list[bool]] = {}
    for task in sorted(sound):
        if (called := word(task, railway_)) is not None:
            by_word.setdefault(called, []).append(task in done)
    dead = [called for called, works in by_word.items() if not any(works)]
    good = [called for called, works in by_word.items() if all(works)]
    return some(dead, 6), some(good, 12)


def some(words: list[str], most: int) -> list[str]:
    """So many of them, evenly: nobody tells a hundred."""
    return words[:: max(1, len(words) // most)]


def hunt(tracing: Tracing, broken: Broken) -> tuple[Found, Found, int]:
    """The first answer, the last, and how many measurements lie between."""
    first = found = tracing.look()
    count = 0
    while found.measure is not None and found.places[0][0] < 0.999 and count < MOST_MEASUREMENTS:
        tracing.read(found.measure, as_it_should=reads_well(found.measure, broken))
        found = tracing.look()
        count += 1
    return first, found, count


def is_named(wrong: Wrong, found: Found) -> bool:
    return any(s.fault.kind == wrong.kind and set(s.fault.ends) == set(wrong.ends) for s in found.suspects)


def hunts(railway_: Checked, faults: list[Wrong]) -> Iterator[tuple[Wrong, Found, Found, int]]:
    sound = Broken(railway_.netlist, supplies(railway_)).asked()
    for wrong in faults:
        broken = Broken(railway_.netlist, supplies(railway_), (wrong,))
        dead, good = symptoms(broken, railway_, sound)
        if dead:
            tracing = tracing_of(railway_)
            assert not tracing.told(dead, good)
            yield wrong, *hunt(tracing, broken)


def prove(railway_: Checked, faults: list[Wrong]) -> int:
    """Every fault is among those named, first and last, and is isolated in good time on average."""
    extra: list[float] = []
    for wrong, first, last, count in hunts(railway_, faults):
        assert is_named(wrong, first), wrong
        assert is_named(wrong, last), wrong
        extra.append(count - math.log2(len(first.places)))
    assert sum(extra) / len(extra) <= 2
    return len(extra)


@pytest.fixture(scope="module")
def example() -> Checked:
    return checked(EXAMPLE)


def test_every_single_fault_of_every_class_on_the_example_is_named_and_isolated(example: Checked) -> None:
    faults = list(every_fault(example.netlist, supplies(example)))
    assert {fault.kind for fault in faults} == {
        "broken-wire", "bad-joint", "dead-contact", "stuck-contact", "open-coil", "open-diode", "dead-supply",
        "short", "swapped-pair",
    }  # fmt: skip
    assert prove(example, faults[::7]) > 35


def test_single_faults_of_a_railway_of_some_sixty_points_with_plugs(tmp_path: Path) -> None:
    path = tmp_path / "sixty.yaml"
    path.write_text(railway(64))
    sixty = checked(path)
    faults = list(every_fault(sixty.netlist, supplies(sixty)))
    assert "bad-pin" in {fault.kind for fault in faults}
    assert prove(sixty, random.Random(60).sample(faults, 5)) > 2


def test_of_two_faults_the_first_named_is_one(example: Checked) -> None:
    faults = list(every_fault(example.netlist, supplies(example)))
    sound = Broken(example.netlist, supplies(example)).asked()
    draw = random.Random(2)
    right = total = 0
    for _ in range(20):
        pair = tuple(draw.sample(faults, 2))
        broken = Broken(example.netlist, supplies(example), pair)
        dead, good = symptoms(broken, example, sound)
        if not dead:
            continue
        tracing = tracing_of(example)
        tracing.told(dead, good)
        _, last, _ = hunt(tracing, broken)
        named = last.places[0][1]
        total += 1
        right += any(f.kind == w.kind and set(f.ends) == set(w.ends) for f in named for w in pair)
    assert total > 10
    assert right >= 0.95 * total
