"""Short ways to write a railway and to read its wires, for the tests of wiring and checks.

A railway is written as YAML without its name. Scalars stay text, as in the real reader (BaseLoader).
"""

from functools import cache
from textwrap import dedent
from typing import Any

import yaml

from labelgen.data_files import layouts
from labelgen.model.description import Description
from labelgen.model.kinds import Kind
from labelgen.model.netlist import End, Netlist, Wire
from labelgen.places import Path, Place
from labelgen.problems import Problem
from labelgen.wiring.expansion import expand


@cache
def built_in_kinds() -> dict[str, Kind]:
    """The kinds of layouts/devices, by the name of their file."""
    files = sorted(layouts("devices").glob("*.yaml"))
    return {file.stem: Kind.model_validate(read(file.read_text(encoding="utf-8"))) for file in files}


class _TextLoader(yaml.BaseLoader):
    """Every scalar is a text, and nothing at all is nothing, as in the real reader."""

    def construct_scalar(self, node: yaml.ScalarNode) -> Any:  # type: ignore[override]
        return super().construct_scalar(node) or (None if node.style is None else "")


def read(text: str) -> Any:
    return yaml.load(dedent(text), Loader=_TextLoader)


class PathAsPlace:
    """Shows the path itself as the place's source, so that a test can see where a problem points."""

    def of_key(self, path: Path) -> Place:
        return Place(file="key", source=".".join(map(str, path)))

    def of_value(self, path: Path) -> Place:
        return Place(file="value", source=".".join(map(str, path)))


def described(railway: str | dict[str, Any]) -> Description:
    content = (read(railway) or {}) if isinstance(railway, str) else railway
    return Description.model_validate({"railway": "Marram Quay", **content}).with_places(PathAsPlace())


def wired(railway: str | dict[str, Any]) -> tuple[Netlist, list[Problem]]:
    return expand(described(railway), built_in_kinds())


def netlist_of(railway: str | dict[str, Any]) -> Netlist:
    """The netlist of a railway in which the wiring finds nothing wrong."""
    netlist, problems = wired(railway)
    assert problems == [], problems
    return netlist


def problems_of(railway: str | dict[str, Any]) -> list[tuple[str, str]]:
    """Code and path of each problem of the wiring."""
    return [(problem.code, problem.place.source) for problem in wired(railway)[1]]


def end_text(end: End) -> str:
    return f"{end.name}/{end.side}" if end.side else end.name


def wire_text(wire: Wire) -> str:
    """`7 5N L5.N > A1.1/panel`, with ` link` behind it where it is one."""
    return f"{wire.number} {wire.head} {end_text(wire.start)} > {end_text(wire.finish)}" + " link" * wire.link


def wire_texts(netlist: Netlist) -> list[str]:
    return [wire_text(wire) for wire in netlist.wires]


def lines(text: str) -> list[str]:
    """The expected wires: one a line; what stands behind ` ; ` is the reason."""
    return [line.split(" ; ")[0].strip() for line in dedent(text).strip().splitlines()]


def wires_of(railway: str | dict[str, Any]) -> list[str]:
    return wire_texts(netlist_of(railway))


def way_heads(netlist: Netlist, strip: str) -> list[str]:
    """What the strip's marker says, way by way."""
    return [way.head for way in netlist.strip_by_id[strip].ways]


def wire_between(netlist: Netlist, start: str, finish: str) -> Wire:
    (found,) = [wire for wire in netlist.wires if {wire.start.name, wire.finish.name} == {start, finish}]
    return found


def length_of(netlist: Netlist, start: str, finish: str) -> int | None:
    return wire_between(netlist, start, finish).length
