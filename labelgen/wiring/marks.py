"""The functions of this railway, and the heads by which its wires are called: section 6 of the format."""

from collections.abc import Mapping
from dataclasses import dataclass

from labelgen.model.description import Description
from labelgen.model.kinds import SUPPLY_TERMINALS
from labelgen.model.netlist import Function
from labelgen.standards.colour_letters import letters_of
from labelgen.standards.functions import PALETTES, FunctionDefault

NO_FUNCTION = FunctionDefault(code="?", colour="", pattern="plain", size="")


def functions_of(description: Description) -> dict[str, Function]:
    """The defaults in the colours of the palette, with what the builder changed, and the builder's own."""
    usual = PALETTES[description.palette]
    names = [*usual, *(name for name in description.functions if name not in usual)]
    return {name: _function(description, name) for name in names}


def _function(description: Description, name: str) -> Function:
    default = PALETTES[description.palette].get(name, NO_FUNCTION)
    given = description.functions.get(name)
    if given is None:
        return Function(name=name, code=default.code, colour=default.colour, pattern=default.pattern, size=default.size)
    return Function(
        name=name,
        code=given.code or (name[:1].upper() if default is NO_FUNCTION else default.code),
        colour=colour_letters(given.colour) if given.colour else default.colour,
        pattern=given.pattern or default.pattern,
        size=given.size or default.size,
    )


def colour_letters(text: str) -> str:
    """IEC 60757 letters of what the builder wrote; what cannot be read was reported by the reading stage."""
    return "".join(letters_of(text) or ())


@dataclass(frozen=True, slots=True, kw_only=True)
class Head:
    """A head in its parts: what stands before the code letter, the letter, and what follows it."""

    stem: str
    """As an id."""
    painted: str
    """The stem as it is painted on the railway."""
    code: str
    mark: str = ""

    @property
    def text(self) -> str:
        return f"{self.stem}{self.code}{self.mark}"


class ChainHeads:
    """The heads of chains: the code alone, with the supply's id before it where it would not be clear which supply."""

    def __init__(self, description: Description, codes: Mapping[tuple[str, str], set[str]]) -> None:
        """`codes`: of each chain (supply, terminal), the code letters of its wires."""
        self._supplies = description.supplies
        terminals = [name for supply in self._supplies.values() for name in SUPPLY_TERMINALS[supply.kind]]
        self._shared_terminals = {name for name in terminals if terminals.count(name) > 1}
        owners: dict[str, set[str]] = {}
        for (supply, _), letters in codes.items():
            for letter in letters:
                owners.setdefault(letter, set()).add(supply)
        self._shared_codes = {letter for letter, supplies in owners.items() if len(supplies) > 1}

    def head(self, supply: str, terminal: str, code: str) -> Head:
        if terminal in self._shared_terminals or code in self._shared_codes:
            return Head(stem=supply, painted=self._supplies[supply].shown or supply, code=code)
        return Head(stem="", painted="", code=code)
