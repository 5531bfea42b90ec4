"""Says once for each kind of label that its heads came out narrow and low, which a shorter name would mend."""

from collections.abc import Iterator, Sequence

from labelgen.model.drawing import Drawing, Text
from labelgen.problems import Problem
from labelgen.typefaces import BOLD, FACES

EASY_CAP_MM = 2.5
"""Heads that are lower, and condensed besides, are hard to read. Common practice, no source."""
CALLED = {"fold": "flag", "markers": "marker", "tags": "tag", "plates": "plate", "places": "label of `places`"}
"""Not wraps and sleeves, whose lines run along the wire: what can be read on them depends on its thickness."""


def condensed_heads(use: str, drawings: Sequence[Drawing], *, hardest: bool = False) -> list[Problem]:
    """Reports text-condensed. `use`: of flags their form. `hardest`: of that kind only those with the longest words."""
    found = [(text, drawing) for drawing in drawings if (text := _worst(use, drawing)) is not None]
    if use not in CALLED or not found:
        return []
    text, drawing = min(found, key=lambda one: _cap(one[0]))
    count = f"{len(found)} {CALLED[use]}{'s' if len(found) > 1 else ''}"
    least = "at least " if hardest and len(found) == len(drawings) else ""
    return [
        Problem(
            code="text-condensed",
            message=f"the large words on {least}{count} had to be made narrow, and lower than {EASY_CAP_MM:g} mm:"
            f" `{text.text}` on the {drawing.name} is {_cap(text):.1f} mm high",
            hint="A shorter id or `shown:` makes them larger" + _or_else(use),
            place=drawing.place,
        )
    ]


def _or_else(use: str) -> str:
    return "." if use == "markers" else ", and so does a sheet with larger labels, under `sheets:`."


def _worst(use: str, drawing: Drawing) -> Text | None:
    narrow = [text for text in _heads(use, drawing) if text.stretch < 1 and _cap(text) < EASY_CAP_MM]
    return min(narrow, key=_cap, default=None)


def _heads(use: str, drawing: Drawing) -> Iterator[Text] | Sequence[Text]:
    """What is read first: all that is bold; of `places`, which have small print in bold, the largest alone."""
    texts = (shape for shape in drawing.shapes if isinstance(shape, Text))
    if use == "places":
        return [largest] if (largest := max(texts, key=_cap, default=None)) is not None else []
    return (text for text in texts if text.face == BOLD)


def _cap(text: Text) -> float:
    return FACES[text.face].cap * text.size
