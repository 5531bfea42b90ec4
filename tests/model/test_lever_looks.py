"""What a lever is painted like follows from what it works, unless the builder says otherwise."""

from typing import Any

import pytest

from labelgen.model.description import Description
from labelgen.model.panel.lever_looks import POINT_KINDS, SECTION_KINDS, STOP_KINDS, LeverLook, lever_look
from labelgen.reading.data_readers import built_in_hardware, built_in_kinds
from labelgen.wiring.expansion import expand

RAILWAY: dict[str, Any] = {
    "railway": "Marram Quay",
    "supplies": {"PULSE": {"kind": "pulse"}, "CAB": {"kind": "track"}, "DC": {"kind": "dc"}},
    "strips": {"A1": {"ways": "100"}},
    "points": {"P5": {"lever": "5"}, "P6": {"lever": "6", "not_in_use": "burnt coil"}},
    "devices": {
        "YARD": {"kind": "section", "lever": "11"},
        "S1": {"kind": "semaphore", "lever": "1"},
        "U1": {"kind": "uncoupler", "lever": "7"},
        "M9": {"kind": "twin-coil", "lever": "9"},
    },
}


def looks(**more: Any) -> dict[str, LeverLook]:
    description = Description.model_validate({**RAILWAY, **more}).with_parts(built_in_hardware())
    netlist, problems = expand(description, built_in_kinds())
    assert problems == []
    return {lever.id: lever_look(description, netlist, lever) for lever in netlist.levers}


def test_by_the_kind_of_what_it_works() -> None:
    found = looks(levers={"10": {"spare": "yes"}})
    said = {id_: (look.words, look.colours) for id_, look in found.items()}
    assert said == {
        "1": ("stop", ("RD",)),
        "5": ("points", ("BK",)),
        "6": ("out of use", ("WH", "BK")),
        "7": ("", ()),
        "9": ("points", ("BK",)),
        "10": ("spare", ("WH",)),
        "11": ("section", ()),
    }


def test_what_the_builder_says_goes_first() -> None:
    found = looks(levers={"5": {"role": "stop", "colour": "blue/brown"}, "7": {"role": "king"}, "6": {"colour": "RD"}})
    assert found["5"] == LeverLook(role="stop", words="stop", colours=("BU", "BN"))
    assert (found["7"].colours, found["7"].mark) == (("BN", "WH"), "stripes")
    assert found["6"] == LeverLook(role="points", words="out of use", colours=("RD",), idle="out of use")


def test_one_of_two_that_is_out_of_use_is_named() -> None:
    points = {"P8A": {"lever": "8"}, "P8B": {"lever": "8", "not_in_use": "glue", "shown": "Slip end"}}
    look = looks(points=points)["8"]
    assert (look.words, look.idle, look.colours) == ("points, Slip end out of use", "Slip end out of use", ("BK",))


def test_another_set_and_none() -> None:
    assert looks(printing={"levers": "panel"}, levers={"7": {"role": "shunt"}})["7"].colours == ("YE",)
    found = looks(printing={"levers": "none"}, levers={"7": {"role": "gong"}})
    assert not any(look.colours for look in found.values())
    assert [id_ for id_, look in found.items() if look.words] == ["6", "7", "11"]


def test_a_section_that_only_the_panel_knows_as_one() -> None:
    panels = {"BOX": {"tracks": {"main": [["1", "1"], ["9", "1"]]}, "sections": {"U1": ["5", "1"]}}}
    assert looks(panels=panels)["7"].words == "section"


def test_every_kind_that_is_named_is_a_built_in_one() -> None:
    assert {*POINT_KINDS, *SECTION_KINDS, *STOP_KINDS} <= set(built_in_kinds())


@pytest.mark.parametrize("colour", ["reddish", ["red"], "red/green/blue"])
def test_no_colour_is_a_problem(colour: object) -> None:
    with pytest.raises(ValueError, match="is no colour of a lever"):
        looks(levers={"5": {"colour": colour}})
