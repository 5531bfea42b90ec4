"""Writes drawings and documents as plain text, one shape a line: what the tests compare, and what a person can read."""

import json
from collections.abc import Iterator

from labelgen.model.drawing import Box, Circle, Corner, Drawing, Line, Outline, Shape, Symbol, Text
from labelgen.model.sheet import Document, Placed, Sheet


def text_record(what: Drawing | Document) -> str:
    """One line for each shape, in the order of painting; mm to three decimals, origin top left, y down."""
    lines = _of_drawing(what) if isinstance(what, Drawing) else _of_document(what)
    return "\n".join(lines) + "\n"


def _of_document(document: Document) -> Iterator[str]:
    yield f"document {_quoted(document.title)}"
    for number, page in enumerate(document.pages, 1):
        yield f"page {number}: {_size(page.width, page.height)}"
        yield from (f"  {line}" for line in _of_page(page))


def _of_page(page: Sheet) -> Iterator[str]:
    if page.window is not None:
        window = page.window
        yield f"window {_at(window.x, window.y)} {_size(window.width, window.height)}"
    for placed in page.placed:
        yield from _of_placed(placed)
    for mark in page.marks:
        yield f"mark {_of_shape(mark)}"
    for stop in page.stops:
        called = f" level {stop.level} {_quoted(stop.bookmark)}" if stop.bookmark else ""
        yield f"stop {_n(stop.y)} {_quoted(stop.name)}{called}"


def _of_placed(placed: Placed) -> Iterator[str]:
    turn = f" turned {placed.turn}" if placed.turn else ""
    yield f"at {_at(placed.x, placed.y)}{turn}"
    yield from (f"  {line}" for line in _of_drawing(placed.drawing))


def _of_drawing(drawing: Drawing) -> Iterator[str]:
    board = f" board {drawing.board}" if drawing.board else ""
    folds = "".join(f" fold {_n(x)}" for x in drawing.folds)
    yield f"drawing {_quoted(drawing.name)} {_size(drawing.width, drawing.height)}{board}{folds}"
    for shape in drawing.shapes:
        yield f"  {_of_shape(shape)}"


def _of_shape(shape: Shape) -> str:
    match shape:
        case Line():
            dash = f" dash {' '.join(map(_n, shape.dash))}" if shape.dash else ""
            ends = f"{_at(shape.x1, shape.y1)} to {_at(shape.x2, shape.y2)}"
            return f"line {ends} {shape.colour} {_n(shape.width)}{dash}"
        case Box():
            radius = f" radius {_n(shape.radius)}" if shape.radius else ""
            return f"box {_at(shape.x, shape.y)} {_size(shape.width, shape.height)}{radius}{_paint(shape)}"
        case Circle():
            return f"circle {_at(shape.x, shape.y)} radius {_n(shape.radius)}{_paint(shape)}"
        case Outline():
            rounded = " round" if shape.round_ends else ""
            return f"outline{' closed' if shape.closed else ''} {_runs(shape.runs)}{rounded}{_paint(shape)}"
        case Symbol():
            return _of_symbol(shape)
        case _:
            return _of_text(shape)


def _of_text(text: Text) -> str:
    extras: list[str] = [text.anchor] if text.anchor != "start" else []
    extras += [f"turn {_n(text.turn)}"] if text.turn else []
    extras += [f"stretch {_n(text.stretch)}"] if text.stretch != 1 else []
    extras += [f"leads to {_quoted(text.leads_to)}"] if text.leads_to else []
    words = ["text", _at(text.x, text.y), _quoted(text.text), text.face, _n(text.size), text.colour, *extras]
    return " ".join(words)


def _of_symbol(symbol: Symbol) -> str:
    """Each row as hexadecimal, dark = 1, first module the highest bit."""
    rows = " ".join(f"{int(''.join(str(int(dark)) for dark in row), 2):x}" for row in symbol.rows if row)
    return f"symbol {_at(symbol.x, symbol.y)} module {_n(symbol.module)} rows {rows}"


def _runs(runs: tuple[tuple[Corner, ...], ...]) -> str:
    return " / ".join(" ".join(_at(x, y) for x, y in run) for run in runs if run)


def _paint(shape: Box | Circle | Outline) -> str:
    fill = f" fill {shape.fill}" if shape.fill else ""
    stroke = f" stroke {shape.stroke} {_n(shape.stroke_width)}" if shape.stroke else ""
    return fill + stroke


def _at(x: float, y: float) -> str:
    return f"{_n(x)},{_n(y)}"


def _size(width: float, height: float) -> str:
    return f"{_n(width)}x{_n(height)}"


def _quoted(text: str) -> str:
    return json.dumps(text, ensure_ascii=False)


def _n(number: float) -> str:
    written = f"{number:.3f}".rstrip("0").rstrip(".")
    return "0" if written == "-0" else written
