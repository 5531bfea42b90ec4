"""Turns each error of the form's models into a problem at the right place, in the builder's words."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, get_args

from labelgen.model import description as form
from labelgen.model import printing_form
from labelgen.model.kinds import ChainRow, GroupRow, Kind
from labelgen.model.panel import form as panel_form
from labelgen.model.panel.hardware import Hardware
from labelgen.model.panel.route_form import Route
from labelgen.model.paper_lists import DeviceColumns, DeviceFile, WireColumns, WireFile
from labelgen.model.record import Record
from labelgen.model.scalars import what
from labelgen.model.stock_form import StockForm
from labelgen.places import Path, Place, Places
from labelgen.problems import CODES, Problem
from labelgen.reading.near_names import did_you_mean, nearest


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """What stands at a path of the form; `*` is any id or position."""

    path: tuple[str, ...]
    record: type[Record]
    called: str


SHAPES = tuple(
    Shape(path=tuple(path.split()), record=record, called=called)
    for path, record, called in (
        ("", form.Description, "the description"),
        ("boards *", form.Board, "a board"),
        ("boards * holes *", form.Hole, "a hole"),
        ("panels *", panel_form.Panel, "a panel"),
        ("panels * turntables *", panel_form.Turntable, "a turntable"),
        ("panels * screws", panel_form.Screws, "`screws`"),
        ("hardware *", Hardware, "a part for panels"),
        ("panels * points *", panel_form.PanelPoint, "a point on a panel"),
        ("supplies *", form.Supply, "a supply"),
        ("strips *", form.Strip, "a strip"),
        ("levers *", form.Lever, "a lever"),
        ("points *", form.Device, "a point"),
        ("devices *", form.Device, "a device"),
        ("kinds *", Kind, "a kind"),
        ("kinds * group *", GroupRow, "a row of a group"),
        ("kinds * chain *", ChainRow, "a row of a chain"),
        ("functions *", form.Function, "a function"),
        ("routes *", Route, "a route"),
        ("wires *", form.ListedWire, "a listed wire"),
        ("wire_list", WireFile, "`wire_list`"),
        ("wire_list columns", WireColumns, "`columns` of a wire list"),
        ("device_list", DeviceFile, "`device_list`"),
        ("device_list columns", DeviceColumns, "`columns` of a device list"),
        ("stocks *", StockForm, "a label stock"),
        ("slack", form.Slack, "`slack`"),
        ("sheets", printing_form.SheetChoice, "`sheets`"),
        ("printing", printing_form.Printing, "`printing`"),
    )
)


def keys_of(record: type[Record]) -> list[str]:
    """The keys that may stand in a record, as they are written."""
    keys = [field.alias or name for name, field in record.model_fields.items()]
    return sorted(keys, key="accepted".__eq__)  # what nearly everything may have comes last


def choices_of(record: type[Record], key: str) -> list[str]:
    """The words of which a key takes one; none where it takes anything else."""
    field = next((field for name, field in record.model_fields.items() if key in (field.alias, name)), None)
    return [one for one in get_args(field.annotation) if isinstance(one, str)] if field is not None else []


def either(words: Sequence[str]) -> str:
    """`left, right, front or back`."""
    return f"{', '.join(words[:-1])} or {words[-1]}" if len(words) > 1 else words[0]


def shape_at(path: Path) -> Shape | None:
    """What the form holds at a path."""
    return next((shape for shape in SHAPES if _fits(shape.path, path)), None)


def _fits(pattern: tuple[str, ...], path: Path) -> bool:
    return len(pattern) == len(path) and all(sign in ("*", part) for sign, part in zip(pattern, path, strict=True))


def bare_path(loc: Path) -> Path:
    """The path of a pydantic error, without the sign for a key."""
    return loc[:-1] if loc[-1:] == ("[key]",) else loc


def in_words(error: Mapping[str, Any], places: Places) -> Problem:
    """One error of the models as a problem."""
    loc: Path = tuple(error["loc"])
    kind = error["type"]
    path = bare_path(loc)
    if kind == "extra_forbidden":
        return _unknown_key(path, places)
    if kind == "missing":
        return missing_key(str(path[-1]), path[:-1], places)
    place = places.of_key(path) if loc != path else places.of_value(path)
    if kind == "literal_error":
        return _unknown_choice(error, place)
    context = error.get("ctx") or {}
    if kind in CODES:
        return Problem(code=kind, message=context["message"], hint=context["hint"], place=place)
    message = f"this does not fit here: {what(error.get('input'))}"
    return Problem(code="wrong-type", message=message, hint="Compare it with the same key elsewhere.", place=place)


def _unknown_key(path: Path, places: Places) -> Problem:
    key, shape = str(path[-1]), shape_at(path[:-1])
    known = keys_of(shape.record) if shape is not None else []
    called = shape.called if shape is not None else "this"
    if key.isdecimal() and path[:-1]:
        message, hint = f"{called} has no key `{key}`", "If this belongs to a number, write a point for the comma: 4.5."
        return Problem(code="unknown-key", message=message, hint=hint, place=places.of_key(path))
    return Problem(
        code="unknown-key",
        message=f"{called} has no key `{key}`",
        hint=did_you_mean_key(key, known) or _elsewhere(key) or f"It may have: {', '.join(known)}.",
        place=places.of_key(path),
    )


def did_you_mean_key(key: str, known: list[str]) -> str:
    near = nearest(key, known)
    return f"Did you mean `{near}`?" if near is not None else ""


def _elsewhere(key: str) -> str:
    """Says where a key would be in its place."""
    owners = [shape.called for shape in SHAPES if key in keys_of(shape.record)]
    if not owners:
        return ""
    owners = ["the description itself" if owner == "the description" else owner for owner in owners]
    first, last = ", ".join(owners[:-1]), owners[-1]
    return f"`{key}` is a key of {f'{first} and {last}' if first else last}: see how far the line is set in."


def missing_key(key: str, owner: Path, places: Places) -> Problem:
    """A thing that lacks what cannot be left out; shown at the thing's own key."""
    shape = shape_at(owner)
    called = shape.called if shape is not None else "this"
    if owner and not isinstance(owner[-1], int):
        called = f"{called.removeprefix('a ')} `{owner[-1]}`"
    choices = choices_of(shape.record, key) if shape is not None else []
    listed = f" It may be {either(choices)}." if choices else ""
    hint = f"Add `{key}:` to it.{listed}" if owner else f"Add a line `{key}:`, and a text behind it."
    return Problem(code="missing-key", message=f"{called} has no `{key}`", hint=hint, place=places.of_key(owner))


def _unknown_choice(error: Mapping[str, Any], place: Place) -> Problem:
    given = error.get("input")
    choices = re.findall(r"'([^']*)'", error["ctx"]["expected"])
    listed = either(choices)
    if not isinstance(given, str):
        message = f"one word is expected here, not {what(given)}"
        return Problem(code="wrong-type", message=message, hint=f"Write {listed}.", place=place)
    hint = f"{did_you_mean(given, choices)}Write {listed}."
    return Problem(code="unknown-choice", message=f"{given!r} is not a choice here", hint=hint, place=place)
