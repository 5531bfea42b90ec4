"""What a lamp of a fascia shows, where nothing drawn there says so: a supply, or a device that is not drawn."""

from labelgen.drawings.fascia.plan import FasciaPlan
from labelgen.drawings.fascia.spots import Label, names_of, write_one_size
from labelgen.drawings.fascia.style import NAME_CAP_MM, SMALL_CAP_MM
from labelgen.drawings.fascia.writing import Writing
from labelgen.drawings.number_placing import CLEAR_MM
from labelgen.model.panel.holes import PanelHole


def write_lamp_names(writing: Writing) -> None:
    """Once for each thing that is shown, at the middle of its row of lamps. Problems: text-does-not-fit."""
    plan = writing.plan
    rows: dict[str, list[PanelHole]] = {}
    for hole in plan.drilled:
        if hole.use == "lamp" and _name(plan, hole.thing):
            rows.setdefault(hole.thing, []).append(hole)
    labels = [
        Label(
            key=thing,
            what=f"the name of the lamp {thing}",
            text=writing.known(_name(plan, thing), row[0].path),
            spot=row[len(row) // 2].at,
            reach=row[0].room.reach + CLEAR_MM,
            path=row[0].path,
        )
        for thing, row in rows.items()
    ]
    write_one_size(writing, labels, writing.caps(NAME_CAP_MM, SMALL_CAP_MM), names_of, colour=plan.style.soft)


def _name(plan: FasciaPlan, thing: str) -> str:
    """None of a point's road, of a drawn section, or of one terminal of many: they stand where they belong."""
    supply = plan.description.supplies.get(thing)
    if supply is not None:
        shown = plan.netlist.shown_id(thing)
        return f"{shown} ready" if supply.kind == "pulse" else shown
    return plan.device_name(thing) if thing in plan.description.devices and thing not in plan.drawn else ""
