"""The modules of a QR symbol as one number, so that all of them are masked and judged at once.

A bit a module, row by row from the top left, the highest bit first; after each row one light bit, which keeps its end
apart from the next row's beginning.
"""

from collections.abc import Iterator
from functools import cached_property, lru_cache, reduce
from operator import and_
from typing import Any, Literal

Matrix = tuple[tuple[bool, ...], ...]
LevelBits = Literal[0, 1, 2, 3]

_CORNER = "1011101"
"""Dark, light, dark, light, dark as 1:1:3:1:1, by which readers find the three corners."""


@lru_cache(maxsize=40)
def grid(version: int) -> "Grid":
    return Grid(version)


class Grid:
    """What all symbols of one version have in common."""

    def __init__(self, version: int) -> None:
        self.version = version
        self.size = 17 + 4 * version
        self.stride = self.size + 1
        self._formats: dict[tuple[LevelBits, int], int] = {}
        self._masks: dict[int, int] = {}
        light, dark = self._written(0x00), self._written(0xFF)
        self._data = light ^ dark
        """Where data stands."""
        self._fixed = light & ~self._data ^ self._format(0, 0)
        """The patterns by which a symbol is found, and its version."""

    def under_masks(self, codewords: bytes, level: LevelBits, masks: range | tuple[int, ...]) -> Iterator[int]:
        """The symbol of these codewords under each of these masks."""
        bits = f"{int.from_bytes(codewords):0{8 * len(codewords)}b}"
        modules = ["0"] * (self.size * self.stride)
        for place, bit in zip(self._order, bits, strict=False):
            modules[place] = bit
        plain = int("".join(modules), 2) | self._fixed
        for mask in masks:
            yield plain ^ self._mask(mask) ^ self._format(level, mask)

    def matrix(self, modules: int) -> Matrix:
        text = f"{modules:0{self.size * self.stride}b}"
        rows = (text[start : start + self.size] for start in range(0, len(text), self.stride))
        return tuple(tuple(module == "1" for module in row) for row in rows)

    def trouble(self, modules: int) -> tuple[int, int]:
        """How hard a symbol is to find: its runs that look like a corner's, then the standard's penalty (7.8.3.1).

        By penalty alone one symbol in fifteen was not found in a picture by one of the readers that we try.
        """
        dark, light, down = modules, self._all & ~modules, self.stride
        corners = penalty = 0
        for step in (1, down):
            runs = _matching(dark, light, _CORNER, step)
            corners += (runs & ~(dark >> 7 * step) & ~(dark << step)).bit_count()
            penalty += sum(_long_runs(colour, step) for colour in (dark, light))
            for pattern in (f"{_CORNER}0000", f"0000{_CORNER}"):
                penalty += 40 * _matching(dark, light, pattern, step).bit_count()
        for colour in (dark, light):
            beside = colour & colour >> 1
            penalty += 3 * (beside & beside >> down).bit_count()
        share = dark.bit_count() / self.size**2
        return corners, penalty + 10 * int(abs(share * 100 - 50) / 5)

    @cached_property
    def _all(self) -> int:
        return int(("1" * self.size + "0") * self.size, 2)

    @cached_property
    def _order(self) -> list[int]:
        """The places of the data's bits one after the other: up and down in columns two modules wide (7.7.3)."""
        data, found = f"{self._data:0{self.size * self.stride}b}", []
        # The column of the timing pattern is left out; to the left of it, columns are counted one less.
        pairs = [column - (column <= 6) for column in range(self.size - 1, 0, -2)]
        for number, right in enumerate(pairs):
            rows = range(self.size) if number % 2 else range(self.size - 1, -1, -1)
            found += [row * self.stride + column for row in rows for column in (right, right - 1)]
        return [place for place in found if data[place] == "1"]

    def _mask(self, mask: int) -> int:
        """Where a mask turns a module of data over."""
        from qrcode.util import mask_func

        if mask not in self._masks:
            turns = mask_func(mask)
            # Every mask repeats itself after twelve modules to either side.
            rows = ["".join("01"[bool(turns(i, j))] for j in range(12)) for i in range(12)]
            wide = [(row * (self.size // 12 + 1))[: self.size] + "0" for row in rows]
            self._masks[mask] = int("".join(wide[i % 12] for i in range(self.size)), 2) & self._data
        return self._masks[mask]

    def _format(self, level: LevelBits, mask: int) -> int:
        """The modules that tell readers the level and the mask."""
        if (level, mask) not in self._formats:
            code = self._code(level)
            code.modules_count = self.size
            code.modules = [[False] * self.size for _ in range(self.size)]
            code.setup_type_info(test=False, mask_pattern=mask)
            self._formats[level, mask] = self._number(code.modules)
        return self._formats[level, mask]

    def _written(self, codeword: int) -> int:
        """A whole symbol of one codeword over and over, at level bits 0 under mask 0."""
        code = self._code(0)
        code.data_cache = [codeword] * (self.size * self.size // 8)
        code.makeImpl(test=False, mask_pattern=0)
        return self._number(code.modules)

    def _code(self, level: LevelBits) -> Any:
        from qrcode.main import QRCode

        return QRCode(version=self.version, error_correction=level, border=0)

    def _number(self, rows: list[list[bool | None]]) -> int:
        return int("".join("".join("01"[bool(module)] for module in row) + "0" for row in rows), 2)


def _matching(dark: int, light: int, pattern: str, step: int) -> int:
    """The last modules of all lines of that pattern; `step`: to the next module of a line."""
    last = len(pattern) - 1
    return reduce(and_, ((dark if one == "1" else light) >> (last - at) * step for at, one in enumerate(pattern)))


def _long_runs(colour: int, step: int) -> int:
    """Three points for a run of five modules, one more for each more."""
    fives = _matching(colour, colour, "11111", step)
    return fives.bit_count() + 2 * (fives & ~(fives >> step)).bit_count()
