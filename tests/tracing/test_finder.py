"""The fault finder against railways that are broken on purpose; networkx says what works and what a meter reads."""

import math
import random
from collections.abc import Iterable, Iterator
from itertools import islice
from pathlib import Path
from statistics import mean

import generated_railways
import pytest
from broken_railway import Broken, Node, Wrong, every_fault

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


def word(task: tuple[str, str, str], railway_: Checked) -> str:
    """What a builder would call it: the head of the lever's contact, a device, a route and what it sets."""
    lever, lie, what = task
    device = what.split(".")[0]
    if not lever:
        return device
    if lever not in railway_.netlist.lever_by_id:
        return f"{lever}.{device}"
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
            return broken.through_diode(one, other)
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
        by_word.setdefault(word(task, railway_), []).append(task in done)
    dead = [called for called, works in by_word.items() if not any(works)]
    good = [called for called, works in by_word.items() if all(works)]
    return some(dead, 6), some(good, 12)


def some(words: list[str], most: int) -> list[str]:
    """So many of them, evenly: nobody tells a hundred."""
    return words[:: max(1, len(words) // most)]


def hunt(tracing: Tracing, broken: Broken, until: float = 0.999) -> tuple[Found, Found, int]:
    """The first answer, the last, and how many measurements lie between.

    `until`: how likely a place must be that the hunt ends; of more than 1, whatever is asked to be sure is answered.
    """
    first = found = tracing.look()
    count = 0
    while found.measure is not None and found.places[0][0] < until and count < MOST_MEASUREMENTS:
        tracing.read(found.measure, as_it_should=reads_well(found.measure, broken))
        found = tracing.look()
        count += 1
    return first, found, count


def is_named(wrong: Wrong, found: Found) -> bool:
    return any(s.fault.kind == wrong.kind and set(s.fault.ends) == set(wrong.ends) for s in found.suspects)


def first_is(wrong: Wrong, found: Found) -> bool:
    """Whether a fault is what is named first."""
    first = found.places[0][1] if found.places else []
    return any(f.kind == wrong.kind and set(f.ends) == set(wrong.ends) for f in first)


def hunts(railway_: Checked, faults: list[Wrong]) -> Iterator[tuple[Wrong, Found, Found, int]]:
    sound = Broken(railway_.netlist, supplies(railway_)).asked()
    tracing = tracing_of(railway_)
    for wrong in faults:
        broken = Broken(railway_.netlist, supplies(railway_), (wrong,))
        dead, good = symptoms(broken, railway_, sound)
        if dead:
            tracing.start_again()
            assert not tracing.told(dead, good)
            yield wrong, *hunt(tracing, broken)


def of_each_class(faults: list[Wrong], number: int) -> list[Wrong]:
    """So many of every class, evenly."""
    by_class: dict[str, list[Wrong]] = {}
    for wrong in faults:
        by_class.setdefault(wrong.kind, []).append(wrong)
    return [wrong for alike in by_class.values() for wrong in alike[:: -(-len(alike) // number)]]


def prove(railway_: Checked, number: int) -> set[str]:
    """Every fault is among those named, first and last; each class is isolated in good time on average. The classes."""
    extra: dict[str, list[float]] = {}
    for wrong, first, last, count in hunts(railway_, of_each_class(every_fault_of(railway_), number)):
        assert is_named(wrong, first), wrong
        assert is_named(wrong, last), wrong
        extra.setdefault(wrong.kind, []).append(count - math.log2(len(first.places)))
    assert {kind: over for kind, over in extra.items() if mean(over) > 2} == {}
    return set(extra)


def every_fault_of(railway_: Checked) -> list[Wrong]:
    return list(every_fault(railway_.netlist, supplies(railway_)))


def share_of_pairs(railway_: Checked, number: int, seed: int) -> float:
    """Of so many pairs of faults, with symptoms, in how many the first named is one of them."""
    faults, draw = every_fault_of(railway_), random.Random(seed)
    pairs = (tuple(draw.sample(faults, 2)) for _ in iter(int, 1))
    right = [any(first_is(wrong, last) for wrong in pair) for pair, last in islice(pair_hunts(railway_, pairs), number)]
    return mean(right)


def pair_hunts(railway_: Checked, pairs: Iterable[tuple[Wrong, ...]]) -> Iterator[tuple[tuple[Wrong, ...], Found]]:
    """Of those pairs that anybody notices: the last answer."""
    sound = Broken(railway_.netlist, supplies(railway_)).asked()
    tracing = tracing_of(railway_)
    for pair in pairs:
        broken = Broken(railway_.netlist, supplies(railway_), pair)
        dead, good = symptoms(broken, railway_, sound)
        if dead:
            tracing.start_again()
            tracing.told(dead, good)
            yield pair, hunt(tracing, broken, until=2)[1]


@pytest.fixture(scope="module")
def example() -> Checked:
    return checked(EXAMPLE)


CLASSES = {
    "broken-wire", "bad-joint", "dead-contact", "stuck-contact", "open-coil", "dead-supply", "short", "swapped-pair",
}  # fmt: skip


@pytest.fixture(scope="module")
def sixty(tmp_path_factory: pytest.TempPathFactory) -> Checked:
    """Sixty points on two boards, with plugs."""
    path = tmp_path_factory.mktemp("sixty") / "sixty.yaml"
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(generated_railways, "POINTS_A_BOARD", 30)
        path.write_text(generated_railways.railway(60))
    return checked(path)


def test_single_faults_of_every_class_on_the_example_are_named_and_isolated(example: Checked) -> None:
    assert prove(example, 10) == CLASSES | {"open-diode"}


def test_single_faults_of_every_class_on_sixty_points_are_named_and_isolated(sixty: Checked) -> None:
    assert prove(sixty, 4) == CLASSES | {"bad-pin"}


def test_of_two_faults_the_first_named_is_one(example: Checked, sixty: Checked) -> None:
    assert share_of_pairs(example, 40, seed=2) >= 0.95
    assert share_of_pairs(sixty, 20, seed=2) >= 0.95
