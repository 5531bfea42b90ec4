"""How a printed list says things: texts that can be printed, colours, metres, counts."""

from dataclasses import dataclass
from functools import lru_cache
from math import ceil, floor

from labelgen.drawings.function_marks import WHITE
from labelgen.drawings.lettering import Lettering
from labelgen.drawings.lists.blocks import Setting
from labelgen.drawings.lists.cells import Cell, Swatch, Words
from labelgen.drawings.lists.pages import ListPaper
from labelgen.model.look import Look
from labelgen.model.netlist import Function
from labelgen.standards.colour_letters import COLOURS, letters_of
from labelgen.typefaces import REGULAR, missing_characters

UNSAID = "–"


@dataclass(frozen=True, slots=True, kw_only=True)
class Writer:
    """Makes the cells of one list."""

    look: Look
    setting: Setting

    @property
    def lettering(self) -> Lettering:
        return self.setting.lettering

    def says(self, text: str) -> str:
        """A text of ours in the trade words that are wanted."""
        return self.look.says(text)

    def known(self, text: str) -> str:
        """The text without what no face can show; that is reported as character-missing."""
        return text if _has_all(text) else self.lettering.known(text, REGULAR)

    def words(self, text: object, *, bold: bool = False) -> Words:
        return Words(text=self.known(str(text)), bold=bold)

    def swatch(self, function: Function) -> Swatch:
        """Colour and pattern, and the colour's letters."""
        return Swatch(function=function, letters="".join(letters_of(function.colour) or UNSAID), look=self.look)

    def insulation(self, colour: str) -> Cell:
        """A colour that is nothing but that of some wire: letters and name, and, in colour, a patch of it."""
        letters = letters_of(colour) or ()
        word = self.says("-".join(COLOURS[each].word for each in letters))
        said = f"{''.join(letters)} {word}" if letters else UNSAID
        if self.look.mono:
            return Words(text=said)
        dark = bool(letters) and COLOURS[letters[0]].ink == WHITE.paint
        function = Function(name="", code="", colour=colour, pattern="solid" if dark else "plain", size="")
        return Swatch(function=function, letters=said, look=self.look)


def writer_on(on: ListPaper, lettering: Lettering, look: Look, cap: float) -> Writer:
    """Of a list that fills its paper's room; `cap`: mm, or as much more as the smallest text is to be."""
    cap = max(cap, look.smallest_cap)
    return Writer(look=look, setting=Setting(cap=cap, left=on.room.x, width=on.room.width, lettering=lettering))


@lru_cache(maxsize=65536)
def _has_all(text: str) -> bool:
    """True when our faces have every character of the text."""
    return not missing_characters(text, REGULAR)


def metres(length_mm: float, *, down: bool = False) -> str:
    """To 0.1 m: what is needed rounded up, what is left over rounded down."""
    return f"{(floor if down else ceil)(length_mm / 100) / 10:.1f} m"


def count(number: int, what: str) -> str:
    return f"{number} {what}" if number == 1 else f"{number} {what}s"
