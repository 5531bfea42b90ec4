"""A small panel with everything right, and one fault at a time: shared by the tests of the panel's checks."""

from typing import Any

from labelgen.model.description import Description
from labelgen.model.netlist import LeverPlan, Netlist
from labelgen.places import Path, Place
from labelgen.problems import Problem


class PathsAsPlaces:
    """Says the path itself instead of a line."""

    def of_key(self, path: Path) -> Place:
        return Place(file="/".join(map(str, path)))

    of_value = of_key


def lever(id_: str, *devices: str, spare: bool = False) -> LeverPlan:
    return LeverPlan(
        id=id_,
        shown=id_,
        name="",
        type="sprung",
        panel="HARBOUR",
        board=None,
        normal="up",
        spare=spare,
        devices=devices,
        path=("levers", id_),
    )


GOOD: dict[str, Any] = {
    "size": [200, 100],
    "tracks": {"main": [[1, 5], [19, 5]], "loop": ["P1", [8, 3], [19, 3]], "over": [[10, 1], [10, 9]]},
    "points": {"P1": [6, 5]},
    "sections": {"YARD": [15, 5]},
    "breaks": [[12, 5]],
    "platforms": {"Quay": [[2, 6], [5, 7]]},
    "texts": {"to the sea": [17, 8]},
}
LEVERS = (lever("1", "P1"), lever("11", "YARD"))


def panel_with(plans: tuple[LeverPlan, ...] = LEVERS, **keys: Any) -> tuple[Description, Netlist]:
    """The panel with some of its keys changed; None takes one away."""
    panel = {key: value for key, value in {**GOOD, **keys}.items() if value is not None}
    description = Description.model_validate({"railway": "Marram Quay", "panels": {"HARBOUR": panel}})
    netlist = Netlist(railway="Marram Quay", circuits=(), strips=(), levers=plans, wires=(), functions={})
    return description.with_places(PathsAsPlaces()), netlist


def the_one(found: list[Problem]) -> tuple[str, str, str]:
    (problem,) = found
    assert problem.hint
    return problem.code, problem.message, problem.place.file.removeprefix("panels/HARBOUR/")
