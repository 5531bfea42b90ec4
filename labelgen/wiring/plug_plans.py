"""Plugs pin by pin: what each pin carries, once the wires are made."""

from collections.abc import Iterable, Mapping
from typing import Literal

from labelgen.model.description import Description, Plug
from labelgen.model.netlist import EndKind, PinPlan, PlugPlan, Wire
from labelgen.natural_order import natural
from labelgen.wiring.plug_pins import Pin


def plug_plans(
    description: Description,
    plugs: Iterable[str],
    wires: Iterable[Wire],
    bridged: Mapping[Pin, int],
    recorded: Mapping[Pin, str],
) -> tuple[PlugPlan, ...]:
    """Every plug, in natural order of id. `bridged`: of a further pin of a wire, the one on which the wire lands.

    `recorded`: the head of what each pin holds, or held, by the record.
    """
    landing: dict[Pin, list[Wire]] = {}
    for wire in wires:
        for end in wire.ends:
            if end.kind is EndKind.PIN:
                landing.setdefault((end.thing, int(end.terminal)), []).append(wire)
    return tuple(_plan(id_, description.plugs[id_], landing, bridged, recorded) for id_ in sorted(plugs, key=natural))


def _plan(
    id_: str,
    plug: Plug,
    landing: Mapping[Pin, list[Wire]],
    bridged: Mapping[Pin, int],
    recorded: Mapping[Pin, str],
) -> PlugPlan:
    return PlugPlan(
        id=id_,
        shown=plug.shown or id_,
        name=plug.name,
        boards=(plug.boards[0], plug.boards[1]),
        pins=tuple(_pin(plug, (id_, number), landing, bridged, recorded) for number in range(1, plug.pins + 1)),
        keep_empty=plug.keep_empty,
    )


def _pin(
    plug: Plug,
    pin: Pin,
    landing: Mapping[Pin, list[Wire]],
    bridged: Mapping[Pin, int],
    recorded: Mapping[Pin, str],
) -> PinPlan:
    number, lead = pin[1], bridged.get(pin)
    wires = landing.get((pin[0], lead or number), [])
    if not wires:
        state: Literal["empty", "spare"] = "empty" if number in plug.keep_empty else "spare"
        return PinPlan(number=number, state=state, was=recorded.get(pin, ""))
    first = wires[0]
    return PinPlan(
        number=number,
        state="used",
        function=first.function,
        head=f"{first.stem}{first.code}{first.mark}",
        stem=first.stem,
        code=first.code,
        mark=first.mark,
        wires=tuple(wires),
        bridged_to=lead,
    )
