"""Reads our own data files: device kinds, label sheets, parts for panels. A mistake in one is a bug: `ValueError`."""

from functools import cache
from pathlib import Path
from typing import Any, TypeVar

from pydantic import ValidationError

from labelgen.data_files import layouts
from labelgen.model.kinds import Kind
from labelgen.model.panel.hardware import Hardware
from labelgen.model.record import Record
from labelgen.model.sheet import Stock
from labelgen.model.stock_form import StockForm, stock_of
from labelgen.reading.kind_checks import kind_problems, rows_of
from labelgen.reading.yaml_nodes import read_yaml
from labelgen.standards.functions import DEFAULT_FUNCTIONS

R = TypeVar("R", bound=Record)


@cache
def built_in_kinds() -> dict[str, Kind]:
    """The kinds of `layouts/devices/`, by name, in the order of their names. Read once."""
    return {path.stem: read_kind(path) for path in sorted(layouts("devices").glob("*.yaml"))}


@cache
def stocks() -> dict[str, Stock]:
    """The label sheets of `layouts/sheets/`, by id, in the order of their ids. Read once."""
    return {path.stem: read_stock(path) for path in sorted(layouts("sheets").glob("*.yaml"))}


@cache
def built_in_hardware() -> dict[str, Hardware]:
    """The parts for panels of `layouts/hardware/`, by name, in the order of their names. Read once."""
    return {path.stem: _record(path, Hardware)[0] for path in sorted(layouts("hardware").glob("*.yaml"))}


def read_kind(path: Path) -> Kind:
    """One device kind. `ValueError` when it does not hang together."""
    kind, places = _record(path, Kind)
    problems = [f"{problem.message}, line {problem.place.line}" for problem in kind_problems(kind, places.of_value)]
    names = [row.function for _, row in rows_of(kind)]
    problems += [f"there is no function {name}" for name in names if name not in DEFAULT_FUNCTIONS]
    if problems:
        raise ValueError(f"{path.name}: {'; '.join(problems)}")
    return kind


def read_stock(path: Path) -> Stock:
    """One label sheet. `ValueError` when its file is broken; whether it adds up is the imposition's to say."""
    return stock_of(path.stem, _record(path, StockForm)[0])


def _record(path: Path, record: type[R]) -> tuple[R, Any]:
    document, problems = read_yaml(path)
    if document is None or problems:
        raise ValueError(f"{path.name}: {'; '.join(problem.message for problem in problems)}")
    try:
        return record.model_validate(document.value), document.places
    except ValidationError as error:
        raise ValueError(f"{path.name}: {error}") from error
