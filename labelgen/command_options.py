"""What stands behind an option, read; a mistake in it ends the command with status 2."""

import re
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import typer

from labelgen.command_output import stop_at

if TYPE_CHECKING:
    from labelgen.labelling import Cells
    from labelgen.model.correction import Correction

PORT = 8470
"""Not registered with IANA for any service (service names and port numbers registry, from memory)."""


def kinds_of(only: str | None) -> frozenset[str]:
    """None where the option was left out; of its value, at least one."""
    from labelgen.makers.maker_list import MAKERS

    if only is None:
        return frozenset()
    kinds = frozenset(words_of(only, "--only", "flags,tags"))
    unknown = sorted(kinds - MAKERS.keys())
    if unknown:
        misused(f"--only: {unknown[0]} is not one of {', '.join(MAKERS)}")
    return kinds


def words_of(text: str, option: str, example: str) -> list[str]:
    """What stands between commas; never nothing."""
    words = [word.strip() for word in text.split(",") if word.strip()]
    return words or misused(f"{option}: nothing stands behind it; write it so: {option} {example}")


def id_of(text: str | None, option: str, example: str) -> str | None:
    """One name, if the option was given."""
    return text if text is None or text.strip() else misused(f"{option}: write a name behind it, such as {example}")


def pairs_of(texts: list[str], option: str, example: str) -> dict[str, str]:
    """`flags=a4-65` as a mapping; the kinds are those that are printed on label sheets."""
    from labelgen.model.printing_form import SheetChoice

    pairs: dict[str, str] = {}
    for text in (part for whole in texts for part in whole.split(",")):
        kind, equals, value = text.partition("=")
        if not equals or not value or kind not in SheetChoice.model_fields:
            misused(f"{option}: write a kind of label, = and a value, such as {example}")
        if kind in pairs:
            misused(f"{option}: {kind} stands there twice; say it once, the rest in another run")
        pairs[kind] = value
    return pairs


def size_of(text: str | None) -> tuple[float, float] | None:
    """`360x160` as width and height."""
    if text is None:
        return None
    numbers = text.lower().replace("×", "x").split("x")
    if len(numbers) != 2 or not all(re.fullmatch(r"[1-9]\d{0,3}|10000", n, re.ASCII) for n in numbers):
        misused(f"--size: write width and height in mm, such as 360x160, not {text}")
    return float(numbers[0]), float(numbers[1])


def cells_of(pairs: dict[str, str]) -> dict[str, int]:
    for text in pairs.values():
        if not re.fullmatch(r"0*[1-9]\d{0,2}", text, re.ASCII):
            misused(f"--start: {text} is not the number of a cell, counted from 1")
    return {kind: int(text) for kind, text in pairs.items()}


def jammed_of(pairs: dict[str, str]) -> "dict[str, Cells]":
    """`9-12`, `9`, or, of the second sheet, `2:9-12`."""
    from labelgen.labelling import Cells

    found = {}
    for kind, text in pairs.items():
        said = re.fullmatch(r"(?:([1-9]\d{0,2}):)?([1-9]\d{0,2})(?:-([1-9]\d{0,2}))?", text, re.ASCII)
        if said is None or int(said[3] or said[2]) < int(said[2]):
            misused(f"--again: write the cells as they are counted on the sheet, such as {kind}=9-12, not {text}")
        found[kind] = Cells(sheet=int(said[1] or 1), first=int(said[2]), last=int(said[3] or said[2]))
    return found


def misused(message: str) -> NoReturn:
    typer.echo(f"labelgen: {message}", err=True)
    raise typer.Exit(2)


def printer_named(name: str | None) -> str | None:
    """The name by which a printer is kept, if one was given."""
    from labelgen.model.scalars import ID

    if name is not None and not ID.fullmatch(name):
        misused("--printer: a printer's name is one word of letters, digits, - and _, such as study")
    return name


def folder_beside(file: Path) -> Path:
    """Where everything of a description goes: its own name without `.yaml`."""
    if file.suffix.lower() in (".yaml", ".yml"):
        return file.with_suffix("")
    return file.with_name(f"{file.name}-made")


def printer_of(name: str | None) -> "Correction | None":
    """What is kept of a printer that was named."""
    if printer_named(name) is None or name is None:
        return None
    from labelgen.printers import correction_of, printers_file

    correction, problems = correction_of(name, printers_file())
    stop_at(problems)
    return misused(f"--printer: {correction}") if isinstance(correction, str) else correction
