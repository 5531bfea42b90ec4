"""Texts that are said in full elsewhere, shortened where they are too long: an ellipsis stands for what is left out."""

from labelgen.drawings.text_fitting import Fitted, fit
from labelgen.typefaces import REGULAR

ELLIPSIS = "…"


def shortened(
    text: str, *, width: float, largest: float, smallest: float, face: str = REGULAR, tail: int = 0
) -> Fitted | None:
    """The text, or as much of it as there is room for, and its last `tail` characters; None when there is no room."""
    whole = fit(text, width=width, largest=largest, smallest=smallest, face=face)
    end = text[len(text) - tail :]
    for kept in range(len(text) - tail - 1, -1, -1) if whole is None else ():
        shorter = f"{text[:kept].rstrip()}{ELLIPSIS}{end}"
        found = fit(shorter, width=width, largest=smallest, smallest=smallest, face=face)
        if found is not None:
            return found
    return whole
