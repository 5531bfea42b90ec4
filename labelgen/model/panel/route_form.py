"""Routes as the builder writes them: `Platform 1: {5: normal, 6: reverse}`, or a longer form with `levers:`."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, Any, Literal, get_args

from pydantic import BeforeValidator, Field, GetJsonSchemaHandler, WithJsonSchema
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import CoreSchema

from labelgen.model.record import Table, Thing
from labelgen.model.scalars import Id, Word
from labelgen.places import Path

Lie = Literal["normal", "reverse"]
LIES: tuple[Lie, ...] = get_args(Lie)


def _any(value: Any) -> str:
    """What is neither normal nor reverse is kept, so that it is reported where it stands; "": no word at all."""
    return str(value) if isinstance(value, (str, int, float)) else ""


Lies = dict[Word, Annotated[str, BeforeValidator(_any), WithJsonSchema({"enum": list(LIES)})]]
"""Lever, by its id or as it is painted: how it lies."""


class Route(Thing):
    levers: Table[Lies] = Field(default_factory=dict)
    number: Id | None = None
    """Of its button; left out: the lowest that is free, in the order of the description."""
    stud: Id | None = None
    """The same where it is a stud, touched with the panel's probe."""
    panel: Word | None = None

    @property
    def own_number(self) -> str | None:
        return self.number if self.stud is None else self.stud


class ShortRoute(Route):
    """One that was written as its levers alone."""


def levers_path(name: str, route: Route) -> Path:
    """Where in the description the levers of a route stand."""
    return ("routes", name) if isinstance(route, ShortRoute) else ("routes", name, "levers")


def _levers_alone(value: Any) -> Any:
    alone = isinstance(value, dict) and value and not set(value) & Route.model_fields.keys()
    return ShortRoute(levers=value) if alone else value


@dataclass(frozen=True)
class _OrLeversAlone:
    """Says in the JSON Schema that the levers alone may stand for the whole."""

    def __get_pydantic_json_schema__(self, core: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchemaValue:
        short = {"type": "object", "additionalProperties": {"enum": list(LIES)}}
        return {"anyOf": [short, handler(core)]}


RouteOrLevers = Annotated[Route, BeforeValidator(_levers_alone), _OrLeversAlone()]


def route_numbers(routes: Mapping[str, Route]) -> dict[str, str]:
    """The number of each route: its own, else 1, 2, 3 … in order, past those that others have of their own."""
    own = {route.own_number for route in routes.values()}
    found: dict[str, str] = {}
    following = 1
    for name, route in routes.items():
        if route.own_number is not None:
            found[name] = route.own_number
            continue
        while str(following) in own:
            following += 1
        found[name] = str(following)
        following += 1
    return found


def lie_of(text: str) -> Lie | None:
    """None for what is no way to lie."""
    return next((lie for lie in LIES if lie == text), None)
