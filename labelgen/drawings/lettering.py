"""Sets the texts of one label and says, in the builder's words, which of them cannot be read there."""

from collections.abc import Sequence
from copy import copy
from typing import TypeVar

from labelgen.drawings.text_fitting import Fitted, fit, fit_head, fit_in, fit_lines
from labelgen.lengths import Rectangle
from labelgen.model.look import Look
from labelgen.places import Place
from labelgen.problems import Problem
from labelgen.typefaces import BOLD, REGULAR, missing_characters, named_missing

T = TypeVar("T")


class Lettering:
    """The texts of one label, each at the largest size that fits.

    Gathers the problems text-does-not-fit and character-missing. A text with characters that no face has is set
    without them, for an empty box in their place would look like a letter.
    """

    def __init__(self, *, label: str, place: Place, look: Look, hint: str) -> None:
        self.label = label
        self.place = place
        self.smallest = look.smallest_cap
        self.head_cap = look.head_cap
        self.says = look.says
        self.hint = hint
        self.problems: list[Problem] = []

    def afresh(self) -> "Lettering":
        """The same for another try, with no problems as yet."""
        again = copy(self)
        again.problems = []
        return again

    def known(self, text: str, face: str) -> str:
        """The text without what no face can show."""
        lacking = missing_characters(text, face)
        if not lacking:
            return text
        self._tell(
            "character-missing",
            f"{text!r} cannot be printed on the {self.label}: our typefaces have no {named_missing(text, face)}",
            "Write it in letters that they have (Latin, Greek, Cyrillic).",
        )
        return "".join(character for character in text if character not in lacking)

    def line(
        self, text: str, *, width: float, largest: float, face: str = REGULAR, smallest: float | None = None
    ) -> Fitted | None:
        """One line no wider than that; None, and a problem, when it cannot be legible."""
        known = self.known(text, face)
        return self._told(fit(known, width=width, largest=largest, smallest=smallest or self.smallest, face=face), text)

    def head(self, text: str, *, width: float, largest: float) -> Fitted | None:
        """An id or a head in one bold line; None, and a problem, when it cannot be legible even from close by."""
        known = self.known(text, BOLD)
        fitted = fit_head(known, width=width, largest=largest, wanted=self.head_cap, smallest=self.smallest)
        return self._told(fitted, text)

    def inside(
        self, text: str, box: Rectangle, *, largest: float, face: str = REGULAR, turn: float = 0, wanted: float = 0.0
    ) -> Fitted | None:
        """One line in a box, level or (-90) upwards, with room below it for the line of an ambiguous number.

        `wanted`: it is condensed before it is lower than that, in mm.
        """
        known, largest = self.known(text, face), max(largest, self.smallest)
        for least in (min(wanted, largest), self.smallest) if wanted > self.smallest else (self.smallest,):
            fitted = fit_in(known, box, largest=largest, smallest=least, face=face, underline=True, turn=turn)
            if fitted is not None:
                return fitted
        return self._told(fitted, text)

    def lines(self, text: str, *, width: float, height: float, largest: float, face: str = REGULAR) -> Sequence[Fitted]:
        """One line or more; none, and a problem, when they cannot be legible."""
        known = self.known(text, face)
        fitted = fit_lines(known, width=width, height=height, largest=largest, smallest=self.smallest, face=face)
        return self._told(fitted, text) or ()

    def too_long(self, text: str) -> None:
        self._tell(
            "text-does-not-fit",
            f"{text!r} does not fit on the {self.label}: its capitals would be lower than {self.smallest:.1f} mm",
            self.hint,
        )

    def _told(self, fitted: T | None, text: str) -> T | None:
        if fitted is None:
            self.too_long(text)
        return fitted

    def _tell(self, code: str, message: str, hint: str) -> None:
        self.problems.append(Problem(code=code, message=message, hint=hint, place=self.place))
