"""The base of what a description is read into."""

from dataclasses import dataclass
from typing import Annotated, Any, Literal, TypeVar

from pydantic import (
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    GetJsonSchemaHandler,
    WithJsonSchema,
    model_validator,
)
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import CoreSchema

from labelgen.model.scalars import Word, complaint, what

T = TypeVar("T")


class Record(BaseModel):
    """Frozen; an unknown key is an error; a key may be `from` although the field cannot be called so."""

    model_config = ConfigDict(frozen=True, extra="forbid", populate_by_name=True)

    @model_validator(mode="before")
    @classmethod
    def _nothing_is_an_empty_set(cls, value: Any) -> Any:
        """`P5:` with nothing behind it is a point with nothing special about it."""
        if value is None:
            return {}
        if isinstance(value, (dict, BaseModel)):
            return value
        raise complaint("wrong-type", f"a set of keys is expected here, not {what(value)}", "Write `key: value` lines.")


def _table(value: Any) -> Any:
    if value is None:
        return {}
    if not isinstance(value, dict):
        raise complaint(
            "wrong-type", f"a set of ids is expected here, not {what(value)}", "Write one `ID:` a line, set in."
        )
    return value


def _list(value: Any) -> Any:
    if not isinstance(value, (list, tuple)):
        raise complaint("wrong-type", f"a list is expected here, not {what(value)}", "Write it in brackets: [1, 2].")
    return value


def _rows(value: Any) -> Any:
    if isinstance(value, dict) and value:
        message = "a list of entries is expected here, and each of them begins with a dash"
        hint = f"Put a dash and a blank before the first key of each: - {{{next(iter(value))}: …}}."
        raise complaint("wrong-type", message, hint)
    return _list(value)


@dataclass(frozen=True)
class OrShort:
    """Says in the JSON Schema that something shorter may stand for the whole."""

    short: Literal["string", "array"]

    def __get_pydantic_json_schema__(self, core: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchemaValue:
        return {"anyOf": [{"type": self.short}, handler(core)]}


def _reason(value: Any) -> str:
    if not isinstance(value, str) or not value.strip():
        raise complaint(
            "bad-accepted",
            "nothing says why this is accepted",
            "Write the reason behind it: whoever reads this in ten years will want to know.",
        )
    return value


Table = Annotated[T, BeforeValidator(_table)]
"""A mapping; a key with nothing behind it is an empty one."""
Listing = Annotated[T, BeforeValidator(_list)]
"""A list, kept as a tuple."""
Rows = Annotated[T, BeforeValidator(_rows)]
"""A list of sets of keys."""
Reason = Annotated[str, BeforeValidator(_reason), WithJsonSchema({"type": ["string", "number", "boolean"]})]


class Thing(Record):
    """What stands in a description by itself, so that problems of its own can be accepted beside it."""

    accepted: Table[dict[Word, Reason]] = Field(default_factory=dict)
    """Code of a problem: why it is accepted here."""
