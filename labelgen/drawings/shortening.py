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
    best: Fitted | None = None
    fitting, too_long = -1, len(text) - tail
    while whole is None and fitting + 1 < too_long:
        kept = (fitting + too_long) // 2
        shorter = f"{text[:kept].rstrip()}{ELLIPSIS}{end}"
        found = fit(shorter, width=width, largest=smallest, smallest=smallest, face=face)
        fitting, too_long, best = (fitting, kept, best) if found is None else (kept, too_long, found)
    return whole or best
