"""Loads of every kind, written out from the trade's own description of the devices."""

import pytest

from labelgen.model.kind_loads import loads_of, rails_of
from labelgen.model.kinds import Kind
from labelgen.reading.data_readers import built_in_kinds

COILS = [("N", "C"), ("R", "C")]
BY_HAND: dict[str, list[tuple[str, str]]] = {
    "twin-coil": COILS,
    "twin-coil-frog": COILS,
    "twin-coil-lamps": COILS,
    "memory-wire": COILS,
    "panel-lamps": COILS,
    "three-way": [("A", "common"), ("B", "common"), ("C", "common"), ("D", "common")],
    "stall-motor": [("1", "8")],
    "stall-motor-lamps": [("1", "8")],
    "stall-motor-one-wire": [("1", "8")],
    "limit-switch-motor": [("M1", "M2")],
    "turntable": [("M1", "M2")],
    "semaphore": [("M1", "M2"), ("L", "C")],
    "relay": [("A1", "A2")],
    "uncoupler": [("1", "2")],
    "lamps": [("L", "C")],
    "lighting-bus": [("+", "-")],
    "driver-board": [("plus", "minus")],
    "accessory-bus": [("A", "B")],
    "servo": [("in", "0V"), ("5V", "0V")],
    "signal-2-aspect": [("R", "C"), ("G", "C")],
    "signal-3-aspect": [("R", "C"), ("Y", "C"), ("G", "C")],
    "signal-4-aspect": [("R", "C"), ("Y", "C"), ("Y2", "C"), ("G", "C")],
}
"""Kinds that are not here feed rails, whose load is the train."""


@pytest.mark.parametrize("name", built_in_kinds())
def test_loads_of_a_kind(name: str) -> None:
    assert [load.terminals for load in loads_of(built_in_kinds()[name])] == BY_HAND.get(name, [])


def test_roles_of_a_kind_with_two_supplies() -> None:
    assert [load.role for load in loads_of(built_in_kinds()["semaphore"])] == ["drive", "lamp"]


def test_a_kind_may_say_so_itself() -> None:
    kind = Kind.model_validate(
        {"terminals": {"a": "", "b": "", "c": ""}, "supply": "dc", "loads": [["a", "b"], ["b", "c"]]}
    )
    assert [load.terminals for load in loads_of(kind)] == [("a", "b"), ("b", "c")]


TRAINS = {
    "accessory-bus": (),
    "cab-selector": (("A", "B"), ("A", "B")),
    "digital-bus": (("A", "B"),),
    "dropper": (("A", "B"),),
    "rail-feed": (("A", "B"),),
    "section": (("A", "B"),),
    "track-feed": (("A", "B"),),
    "turntable": (("A", "B"),),
    "reversing-loop": (("A", "B"),),
    "crossing-changer": (),
    "stall-motor": (),
    "breaker": (),
    "twin-coil": (),
}


@pytest.mark.parametrize(("name", "rails"), TRAINS.items())
def test_where_trains_stand(name: str, rails: tuple[tuple[str, str], ...]) -> None:
    assert tuple(pair.terminals for pair in rails_of(built_in_kinds()[name])) == rails


@pytest.mark.parametrize(
    ("name", "lamps"), [("semaphore", ["L"]), ("signal-2-aspect", ["R", "G"]), ("relay", []), ("lighting-bus", ["+"])]
)
def test_which_loads_are_lamps(name: str, lamps: list[str]) -> None:
    assert [load.terminals[0] for load in loads_of(built_in_kinds()[name]) if load.lamp] == lamps
