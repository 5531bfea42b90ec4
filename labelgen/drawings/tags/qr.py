"""QR symbols (ISO/IEC 18004): the smallest one for a text, and how large to print it.

With `qr_grid` the only module that knows `qrcode`. Sizes are mm. A matrix is rows of modules from the top, dark where
true, without its quiet zone.
"""

from functools import lru_cache
from typing import Literal

from labelgen.drawings.tags.qr_codewords import ALPHANUMERIC, Segments, codewords
from labelgen.drawings.tags.qr_grid import LevelBits, Matrix, grid
from labelgen.lengths import MM_PER_INCH

Level = Literal["L", "M", "Q", "H"]

QUIET_MODULES = 4
"""Clear modules on every side: ISO/IEC 18004."""
LARGEST_VERSION = 40
LEVELS: tuple[Level, ...] = ("L", "M", "Q", "H")
"""Of error correction, weakest first; and how `qrcode` counts them (the bits of the format information)."""
_LEVEL_BITS: dict[Level, LevelBits] = {"L": 1, "M": 0, "Q": 3, "H": 2}

DOT_MM = MM_PER_INCH / 300
"""A printer dot at 300 dpi, two at 600: only whole dots make modules of one width on paper."""
LEAST_DOTS = 4
"""Four dots a module: the symbology originator's public guidance. 0.3387 mm."""
MOST_DOTS = 10
"""0.847 mm: a phone held in the hand gains nothing from more. Common practice, no source."""

_MODES = ("numeric", "alphanumeric", "byte")
_SIXTHS = {"numeric": 20, "alphanumeric": 33, "byte": 48}
"""Sixths of a bit that one character takes: 10 bits for 3 digits, 11 for 2 characters, 8 for a byte."""
_COUNT_BITS = {9: (10, 9, 8), 26: (12, 11, 16), 40: (14, 13, 16)}
"""Up to version: bits of the character count, by mode. ISO/IEC 18004, table 3."""
_ALPHANUMERIC = frozenset(ALPHANUMERIC)


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


@lru_cache(maxsize=16)
def symbol(text: str, *, level: Level = "M", largest_version: int = LARGEST_VERSION) -> Matrix | None:
    """The text as the smallest symbol of at least that level; None when it needs more than the largest version.

    Where the same version allows a higher level, it has it.
    """
    version, segments = _smallest(text, level, largest_version)
    if version is None:
        return None
    bits = _bits(segments, version)
    strongest = [better for better in LEVELS if _capacity(version, better) >= bits][-1]
    on = grid(version)
    words = _codewords(segments, version, strongest)
    return on.matrix(min(on.under_masks(words, _LEVEL_BITS[strongest], range(8)), key=on.trouble))


def matrix(segments: Segments, *, version: int, level: Level, mask: int) -> Matrix:
    """One certain symbol."""
    on = grid(version)
    (modules,) = on.under_masks(_codewords(segments, version, level), _LEVEL_BITS[level], (mask,))
    return on.matrix(modules)


def _codewords(segments: Segments, version: int, level: Level) -> bytes:
    from qrcode.base import rs_blocks

    blocks = rs_blocks(version, _LEVEL_BITS[level])
    sizes = [(block.data_count, block.total_count - block.data_count) for block in blocks]
    return codewords(segments, _count_bits(version), sizes)


@lru_cache(maxsize=64)
def _smallest(text: str, level: Level, largest_version: int) -> tuple[int | None, Segments]:
    data = text.encode()
    for last in _COUNT_BITS:
        if _least_bits(data) > _capacity(min(last, largest_version), level):
            continue
        segments = segmented(data, last)
        bits = _bits(segments, last)
        for version in range(max((v + 1 for v in _COUNT_BITS if v < last), default=1), min(last, largest_version) + 1):
            if _capacity(version, level) >= bits:
                return version, segments
    return None, ()


def _least_bits(data: bytes) -> int:
    """What the bytes take, each in its shortest mode, without all that stands between modes: at least so much."""
    return sum(min(_SIXTHS[mode] for mode in _modes_of(byte)) for byte in data) // 6


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
