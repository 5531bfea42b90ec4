"""Reads a wiring description: the file's form, the form of each value, and what refers to what."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from labelgen.model.description import Description
from labelgen.places import Path as Way
from labelgen.problems import Problem, in_file_order
from labelgen.reading.data_readers import built_in_hardware
from labelgen.reading.error_words import bare_path, in_words, keys_of, shape_at
from labelgen.reading.near_names import nearest
from labelgen.reading.node_tree import Document
from labelgen.reading.reference_list import check_references
from labelgen.reading.spreadsheet_lists import with_spreadsheets
from labelgen.reading.yaml_nodes import Result, read_yaml, read_yaml_bytes, read_yaml_text

MOST_DEVICES = 20_000
ROUNDS_AT_MOST = 8
REPORTED_AT_MOST = 1000

Read = tuple[Description | None, list[Problem]]


def read_description(path: Path) -> Read:
    """A description, and every problem of its file in file order.

    None when the form of some value is wrong. A name that refers to nothing leaves the description whole: the wiring
    leaves out what it cannot know, and reports the rest in the same run.
    """
    return _described(read_yaml(path), path.parent)


def read_description_bytes(data: bytes, file: str) -> Read:
    """The same of a file that has been loaded; it can name no spreadsheets."""
    return _described(read_yaml_bytes(data, file))


def read_description_text(text: str, file: str = "description.yaml") -> Read:
    """The same of a text; it can name no spreadsheets."""
    return _described(read_yaml_text(text, file))


def _described(result: Result, folder: Path | None = None) -> Read:
    document, problems = result
    if document is None:
        return None, in_file_order(problems)
    problems = [*problems, *_same_ways(document)]
    merged = with_spreadsheets(document.value, document.places, folder)
    problems += merged.problems
    document = Document(value=merged.value, places=merged.places)
    too_many = _too_many(document)
    if too_many:
        return None, in_file_order([*problems, *too_many])
    form = _form(document, Form(unsure=merged.unsure, whole=merged.whole))
    problems += form.problems
    if form.description is None:
        return None, in_file_order(problems)
    description = form.description.with_places(document.places).with_papers(merged.papers)
    description = description.with_parts(built_in_hardware())
    problems += check_references(description, form.unsure)
    return (description if form.whole else None), in_file_order(problems)


@dataclass(slots=True, kw_only=True)
class Form:
    """What the models make of a document."""

    description: Description | None = None
    problems: list[Problem] = field(default_factory=list)
    unsure: set[Way] = field(default_factory=set)
    """Things that were taken out because of their own mistakes, and that others may rightly refer to."""
    renamed: set[Way] = field(default_factory=set)
    """Where a mistyped key was read as a known one."""
    whole: bool = True

    def guessed(self, loc: Way) -> bool:
        """True of a mistake in what stands behind a mistyped key: it is only a guess that it belongs there."""
        return any(loc[: len(path)] == path for path in self.renamed)


def _form(document: Document, form: Form) -> Form:
    """Reads the values; takes out what is wrong and reads again, so that what is right can be looked at closer.

    Unknown keys come first, for each may be the known one that is missing. After that the first round tells all; what
    later rounds find only follows from what was taken out.
    """
    told = False
    for _ in range(ROUNDS_AT_MOST):
        errors = _errors(document, form)
        unknown_keys = [one for one in errors if one["type"] == "extra_forbidden"]
        if unknown_keys or not told:
            form.problems += _told(unknown_keys or [one for one in errors if not form.guessed(one["loc"])], document)
            told = not unknown_keys
        if not errors or len(errors) > REPORTED_AT_MOST:
            break
        for one in unknown_keys or errors:
            _take_out(document.value, one["type"], tuple(one["loc"]), form)
    return form


def _errors(document: Document, form: Form) -> Sequence[Mapping[str, Any]]:
    try:
        form.description = Description.model_validate(document.value)
    except ValidationError as error:
        return error.errors(include_url=False)
    return ()


def _told(errors: Sequence[Mapping[str, Any]], document: Document) -> list[Problem]:
    """The errors in words; beyond so many that nobody would read them, only how many more there are."""
    problems = [in_words(one, document.places) for one in errors[:REPORTED_AT_MOST]]
    if len(errors) > REPORTED_AT_MOST:
        next_one = in_words(errors[REPORTED_AT_MOST], document.places)
        message = f"{next_one.message}; and {len(errors) - REPORTED_AT_MOST - 1} more mistakes of form"
        problems.append(replace(next_one, message=message))
    return problems


def _take_out(data: dict[str, Any], kind: str, loc: Way, form: Form) -> None:
    path = bare_path(loc)
    if kind == "extra_forbidden":
        _rename(data, path, form)
        return
    form.whole = False
    if path == ("railway",):
        data["railway"] = ""
        return
    if kind == "missing":
        path = path[:-1]
    # A list is taken out as a whole: the places of its other items would move.
    numbers = [at for at, part in enumerate(path) if isinstance(part, int)]
    path = path[: numbers[0]] if numbers else path
    form.unsure.add(path)
    _delete(data, path)


def _rename(data: dict[str, Any], path: Way, form: Form) -> None:
    """Reads an unknown key as the known one that was probably meant, so that it is not missed as well."""
    owner, shape = _at(data, path[:-1]), shape_at(path[:-1])
    value = owner.pop(path[-1])
    meant = nearest(str(path[-1]), keys_of(shape.record)) if shape is not None else None
    if meant is not None and meant not in owner:
        owner[meant] = value
        form.renamed.add((*path[:-1], meant))
    elif meant is None and len(path) == 1:
        # A whole table that cannot be told: what refers into it is not to blame.
        form.whole = False


def _delete(data: dict[str, Any], path: Way) -> None:
    owner = _at(data, path[:-1])
    if isinstance(owner, dict):
        owner.pop(path[-1], None)


def _at(data: Any, path: Way) -> Any:
    """The value at a path; None when something above it was taken out."""
    for part in path:
        data = data.get(part) if isinstance(data, dict) else data and data[part]
    return data


def _too_many(document: Document) -> list[Problem]:
    tables = {table: document.value.get(table) for table in ("points", "devices")}
    counts = {table: len(things) for table, things in tables.items() if isinstance(things, dict)}
    if sum(counts.values()) <= MOST_DEVICES:
        return []
    largest = max(counts, key=lambda table: counts[table])
    message = f"there are {sum(counts.values())} points and devices; a description may have {MOST_DEVICES}"
    hint = "See whether something was pasted many times, or describe the railway in several files."
    place = document.places.of_key((largest,))
    return [Problem(code="too-many-devices", message=message, hint=hint, place=place)]


def _same_ways(document: Document) -> list[Problem]:
    """`7` and `07` under one strip's `taken` are the same way, though YAML sees two keys."""
    strips = document.value.get("strips")
    problems: list[Problem] = []
    for id_, strip in strips.items() if isinstance(strips, dict) else ():
        taken = strip.get("taken") if isinstance(strip, dict) else None
        seen: dict[str, str] = {}
        for key in taken if isinstance(taken, dict) else ():
            bare = key.strip().lstrip("+").lstrip("0").removesuffix(".0")
            if seen.setdefault(bare, key) != key:
                place = document.places.of_key(("strips", id_, "taken", key))
                message = f"`{seen[bare]}` and `{key}` are the same way"
                problems.append(Problem(code="repeated-key", message=message, hint="Keep one of the two.", place=place))
    return problems
