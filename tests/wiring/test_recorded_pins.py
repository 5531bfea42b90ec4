"""Pins of plugs that were freed: spare for good, with their old head, until a wire of the builder's own names them."""

from dataclasses import replace
from typing import Any

from wiring.recorded_builder import Made, remade

from labelgen.model.built.built_labels import PrintedLabel
from labelgen.model.built.built_record import BuiltRecord, SparePin

RAILWAY: dict[str, Any] = {
    "boards": {"West": {}, "East": {}},
    "supplies": {"LIGHTS": {"kind": "dc", "board": "West"}},
    "strips": {"W1": {"board": "West"}, "E1": {"board": "East"}},
    "plugs": {"J1": {"boards": ["West", "East"], "pins": "6"}},
    "devices": {},
}


def railway(*devices: str, wires: list[dict[str, str]] | None = None, **more: Any) -> dict[str, Any]:
    """Lamps on East, whose way is on West: each has a wire of its own through the plug, and the return has one."""
    lamps = {id_: {"kind": "lamps", "board": "East", "strip": "W1"} for id_ in devices}
    return {**RAILWAY, "devices": lamps, "wires": wires or [], **more}


def pins(made: Made) -> list[str]:
    return [f"{pin.state} {pin.head or pin.was}".strip() for pin in made.netlist.plugs[0].pins]


FIRST = Made(railway("H1", "H2"))


def test_at_first_the_lowest_are_taken() -> None:
    assert pins(FIRST) == ["used H1L", "used H2L", "used C", "spare", "spare", "spare"]


def test_a_freed_pin_stays_spare_however_often_it_is_made() -> None:
    freed = FIRST.then(railway("H2"))
    # The return went to H1 first: a new wire, through a new pin, closes the gap.
    assert pins(freed) == ["spare H1L", "used H2L", "spare C", "used C", "spare", "spare"]
    for _ in range(3):
        freed = freed.then(railway("H2"))
        assert pins(freed)[0] == "spare H1L"
    more = freed.then(railway("H2", "H3"))
    assert pins(more)[0] == "spare H1L"
    assert "used H3L" in pins(more)[3:]
    assert SparePin(plug="J1", pin=1, head="H1L") in more.record.spare_pins


def test_it_is_used_again_when_a_listed_wire_names_it() -> None:
    freed = FIRST.then(railway("H2")).then(railway("H2"))
    listed = [{"from": "W1.9", "to": "J1.1", "function": "data"}, {"from": "J1.1", "to": "E1.9", "function": "data"}]
    used = freed.then(railway("H2", wires=listed))
    assert pins(used)[0].startswith("used")
    assert "J1" not in {spare.plug for spare in used.record.spare_pins if spare.pin == 1}
    again = used.then(railway("H2")).then(railway("H2"))
    assert pins(again)[0].startswith("spare ")
    assert pins(again)[0] != "spare H1L", "it remembers what it held last"


def test_a_pin_that_is_kept_empty_remembers_what_it_was() -> None:
    plug = {"J1": {**RAILWAY["plugs"]["J1"], "keep_empty": ["1"]}}
    assert pins(FIRST.then(railway("H2", plugs=plug)))[0] == "empty H1L"


def test_a_full_plug_says_which_pins_were_freed() -> None:
    freed = FIRST.then(railway("H2"))
    problems = remade(railway("H2", "H3", "H4", "H5", "H6", "H7"), freed.record)[2]
    (full,) = [problem for problem in problems if problem.code == "plug-full"]
    assert "J1.1" in full.hint
    assert "name one under `wires:` to use it again" in full.hint
    assert "were freed" not in remade(railway("H1", "H2", "H3", "H4", "H5", "H6", "H7"), None)[2][0].hint


def test_a_full_strip_says_which_ways_were_freed() -> None:
    small = {"strips": {"W1": {"board": "West", "ways": "2"}, "E1": {"board": "East"}}}
    freed = Made(railway("H1", "H2", **small)).then(railway("H2", **small))
    (full,) = [one for one in remade(railway("H2", "H3", **small), freed.record)[2] if one.code == "strip-full"]
    assert full.hint.endswith("W1.1 were freed: name them with `strip:` and `way:` or `ways:`.")


def test_a_wire_that_takes_two_pins_frees_both() -> None:
    heavy = {"functions": {"lamp": {"pins": "2"}}}
    freed = Made(railway("H1", "H2", **heavy)).then(railway("H2", **heavy))
    assert pins(freed)[:2] == ["spare H1L", "spare H1L"]


def afresh(made: Made, *labels: tuple[str, str]) -> BuiltRecord:
    printed = tuple(PrintedLabel(kind=kind, label=label) for kind, label in labels)
    return replace(made.record, printed=printed).only_printed()


def test_afresh_a_printed_plate_holds_its_plug() -> None:
    freed = FIRST.then(railway("H2"))
    assert pins(Made(railway("H2", "H3"), afresh(freed)))[:2] == ["used H2L", "used H3L"]
    held = Made(railway("H2", "H3"), afresh(freed, ("places", "J1 on West")))
    assert pins(held)[:2] == ["spare H1L", "used H2L"]


def test_a_way_that_only_a_listed_wire_used_is_not_given_away() -> None:
    """Nor while it is there, nor when it is gone."""
    listed = [{"from": "W1.1", "to": "W1.12", "function": "data"}]
    made = Made(railway(wires=listed))
    assert made.then(railway("H1", wires=listed)).ways("H1") == ["W1.2"]
    freed = made.then(railway())
    assert [(spare.way, spare.head) for spare in freed.record.spare] == [(1, "D"), (12, "D")]
    assert freed.then(railway("H1")).ways("H1") == ["W1.2"]
