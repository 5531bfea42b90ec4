"""QR symbols (ISO/IEC 18004): the smallest one for a text, and how large to print it.

The only module that knows `qrcode`. Sizes are mm. A matrix is rows of modules from the top, dark where true, without
its quiet zone.
"""

import re
from collections.abc import Iterable, Iterator
from functools import lru_cache
from typing import Any, Literal

from labelgen.lengths import MM_PER_INCH

Matrix = tuple[tuple[bool, ...], ...]
Level = Literal["L", "M", "Q", "H"]
Segments = tuple[tuple[str, bytes], ...]
"""Mode (`numeric`, `alphanumeric`, `byte`) and the bytes written in it."""

QUIET_MODULES = 4
"""Clear modules on every side: ISO/IEC 18004."""
LARGEST_VERSION = 40
LEVELS: tuple[Level, ...] = ("L", "M", "Q", "H")
"""Of error correction, weakest first; and how `qrcode` counts them (the bits of the format information)."""
_LEVEL_BITS: dict[Level, Literal[0, 1, 2, 3]] = {"L": 1, "M": 0, "Q": 3, "H": 2}

DOT_MM = MM_PER_INCH / 300
"""A printer dot at 300 dpi, two at 600: only whole dots make modules of one width on paper."""
LEAST_DOTS = 4
"""Four dots a module: the symbology originator's public guidance. 0.3387 mm."""
MOST_DOTS = 10
"""0.847 mm: a phone held in the hand gains nothing from more. Common practice, no source."""

_MODES = ("numeric", "alphanumeric", "byte")
_QR_MODE: dict[str, Literal[1, 2, 4]] = {"numeric": 1, "alphanumeric": 2, "byte": 4}
"""Mode indicators: ISO/IEC 18004, table 2."""
_SIXTHS = {"numeric": 20, "alphanumeric": 33, "byte": 48}
"""Sixths of a bit that one character takes: 10 bits for 3 digits, 11 for 2 characters, 8 for a byte."""
_COUNT_BITS = {9: (10, 9, 8), 26: (12, 11, 16), 40: (14, 13, 16)}
"""Up to version: bits of the character count, by mode. ISO/IEC 18004, table 3."""
_CORNER_RUN = re.compile("(?=(?<!1)1011101(?!1))")
"""Dark, light, dark, light, dark as 1:1:3:1:1, by which readers find the three corners."""
_ALPHANUMERIC = frozenset(b"0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:")


def modules_for(version: int) -> int:
    """Modules along one side."""
    return 17 + 4 * version


def module_sizes(version: int, space: float) -> list[float]:
    """The modules, each whole printer dots and the largest first, at which a symbol fits a square of `space` mm.

    Its quiet zone included; none when there is no room for it at the least module.
    """
    across = modules_for(version) + 2 * QUIET_MODULES
    most = min(MOST_DOTS, int(space / (across * DOT_MM) + 1e-9))
    return [dots * DOT_MM for dots in range(most, LEAST_DOTS - 1, -1)]


def version_for(text: str, *, level: Level = "M", largest_version: int = LARGEST_VERSION) -> int | None:
    """The smallest version that holds the text at that level; None when not even the largest does."""
    return _smallest(text, level, largest_version)[0]


@lru_cache(maxsize=4096)
def symbol(text: str, *, level: Level = "M", largest_version: int = LARGEST_VERSION) -> Matrix | None:
    """The text as the smallest symbol of at least that level; None when it needs more than the largest version.

    Where the same version allows a higher level, it has it.
    """
    version, segments = _smallest(text, level, largest_version)
    if version is None:
        return None
    bits = _bits(segments, version)
    strongest = [better for better in LEVELS if _capacity(version, better) >= bits][-1]
    return min(matrices(segments, version=version, level=strongest), key=_trouble)


def matrix(segments: Segments, *, version: int, level: Level, mask: int) -> Matrix:
    """One certain symbol."""
    return next(matrices(segments, version=version, level=level, masks=(mask,)))


def matrices(segments: Segments, *, version: int, level: Level, masks: Iterable[int] = range(8)) -> Iterator[Matrix]:
    """The symbol under each mask; its codewords are worked out once."""
    from qrcode.main import QRCode
    from qrcode.util import QRData

    code: QRCode[Any] = QRCode(version=version, error_correction=_LEVEL_BITS[level], border=0)
    for mode, data in segments:
        code.add_data(QRData(data, mode=_QR_MODE[mode], check_data=False), optimize=0)
    for mask in masks:
        code.mask_pattern = mask
        code.make(fit=False)
        yield tuple(tuple(bool(module) for module in row) for row in code.modules)


def _trouble(rows: Matrix) -> tuple[int, int]:
    """How hard a symbol is to find: its runs that look like a corner's, then the standard's penalty (7.8.3.1).

    By penalty alone one symbol in fifteen was not found in a picture by one of the readers that we try.
    """
    from qrcode.util import lost_point

    lines = ("".join("01"[module] for module in line) for line in (*rows, *zip(*rows, strict=True)))
    alike = sum(len(_CORNER_RUN.findall(line)) for line in lines)
    return alike, int(lost_point([list(row) for row in rows]))


@lru_cache(maxsize=4096)
def _smallest(text: str, level: Level, largest_version: int) -> tuple[int | None, Segments]:
    for last in _COUNT_BITS:
        segments = segmented(text.encode(), last)
        bits = _bits(segments, last)
        for version in range(max((v + 1 for v in _COUNT_BITS if v < last), default=1), min(last, largest_version) + 1):
            if _capacity(version, level) >= bits:
                return version, segments
    return None, ()


def _count_bits(version: int) -> dict[str, int]:
    return dict(zip(_MODES, next(bits for last, bits in _COUNT_BITS.items() if version <= last), strict=True))


def _bits(segments: Segments, version: int) -> int:
    counts = _count_bits(version)
    return sum(4 + counts[mode] + -(-len(data) * _SIXTHS[mode] // 6) for mode, data in segments)


def _capacity(version: int, level: Level) -> int:
    """Data bits of a symbol."""
    from qrcode.util import BIT_LIMIT_TABLE

    return int(BIT_LIMIT_TABLE[_LEVEL_BITS[level]][version])


def _modes_of(byte: int) -> tuple[str, ...]:
    if 0x30 <= byte <= 0x39:
        return _MODES
    return _MODES[1:] if byte in _ALPHANUMERIC else _MODES[2:]


def segmented(data: bytes, version: int) -> Segments:
    """The bytes cut into the runs of one mode each that take the fewest bits in symbols of the version's size class."""
    counts = _count_bits(version)
    best: dict[str, int] = {}
    """Mode of the last byte: the fewest sixths of a bit so far."""
    came_from: list[dict[str, str]] = []
    for byte in data:
        following: dict[str, tuple[int, str]] = {}
        for mode in _modes_of(byte):
            fresh = 6 * (4 + counts[mode])
            choices = [(cost if last == mode else _whole(cost) + fresh, last) for last, cost in best.items()]
            cost, last = min(choices, default=(fresh, mode))
            following[mode] = (cost + _SIXTHS[mode], last)
        best = {mode: cost for mode, (cost, _) in following.items()}
        came_from.append({mode: last for mode, (_, last) in following.items()})
    return _runs(data, came_from, min(best, key=lambda mode: _whole(best[mode]), default="byte"))


def _whole(sixths: int) -> int:
    """Rounded up to a whole bit, as at the end of a segment."""
    return -(-sixths // 6) * 6


def _runs(data: bytes, came_from: list[dict[str, str]], last: str) -> Segments:
    """The bytes with their modes, walked back from the last one and joined into runs."""
    runs: list[tuple[str, bytes]] = []
    mode = last
    for index in range(len(data) - 1, -1, -1):
        byte = data[index : index + 1]
        if runs and runs[-1][0] == mode:
            runs[-1] = (mode, byte + runs[-1][1])
        else:
            runs.append((mode, byte))
        mode = came_from[index][mode]
    return tuple(reversed(runs))
