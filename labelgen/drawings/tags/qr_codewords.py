"""The codewords of a QR symbol (ISO/IEC 18004, 7.4 to 7.6): data bits, padding, error correction, all interleaved."""

from collections.abc import Iterator, Mapping, Sequence
from functools import lru_cache
from itertools import chain, cycle, islice, zip_longest

Segments = tuple[tuple[str, bytes], ...]
"""Mode (`numeric`, `alphanumeric`, `byte`) and the bytes written in it."""

_INDICATORS = {"numeric": 1, "alphanumeric": 2, "byte": 4}
"""Mode indicators: table 2."""
ALPHANUMERIC = b"0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:"
"""In order of their values: table 5."""
_PADDING = (0b11101100, 0b00010001)
_FIELD = 0b100011101
"""The polynomial modulo which bytes are multiplied: 7.5.2."""


def codewords(segments: Segments, count_bits: Mapping[str, int], blocks: Sequence[tuple[int, int]]) -> bytes:
    """`count_bits`: of the character count, by mode; `blocks`: data and correction codewords of each block."""
    room = sum(of_data for of_data, _ in blocks)
    bits = "".join(_bits(segments, count_bits))
    bits += "0" * min(4, 8 * room - len(bits))
    bits += "0" * (-len(bits) % 8)
    data = int(bits, 2).to_bytes(len(bits) // 8)
    data += bytes(islice(cycle(_PADDING), room - len(data)))
    of_blocks, start = [], 0
    for of_data, _ in blocks:
        of_blocks.append(data[start : start + of_data])
        start += of_data
    corrections = [_correction(block, degree) for block, (_, degree) in zip(of_blocks, blocks, strict=True)]
    return bytes((*_interleaved(of_blocks), *_interleaved(corrections)))


def _interleaved(blocks: Sequence[bytes]) -> Iterator[int]:
    return (byte for byte in chain.from_iterable(zip_longest(*blocks)) if byte is not None)


def _bits(segments: Segments, count_bits: Mapping[str, int]) -> Iterator[str]:
    for mode, data in segments:
        yield f"{_INDICATORS[mode]:04b}{len(data):0{count_bits[mode]}b}"
        if mode == "numeric":
            for at in range(0, len(data), 3):
                digits = data[at : at + 3]
                yield f"{int(digits):0{3 * len(digits) + 1}b}"
        elif mode == "alphanumeric":
            values = [ALPHANUMERIC.index(byte) for byte in data]
            yield from (f"{45 * a + b:011b}" for a, b in zip(values[::2], values[1::2], strict=False))
            yield f"{values[-1]:06b}" if len(values) % 2 else ""
        else:
            yield f"{int.from_bytes(data):0{8 * len(data)}b}"


def _correction(data: bytes, degree: int) -> bytes:
    """The remainder of the data, shifted up by so many bytes, divided by the generator polynomial of that degree."""
    multiples, top = _multiples(degree), 8 * (degree - 1)
    below, rest = (1 << top) - 1, 0
    for byte in data:
        rest = ((rest & below) << 8) ^ multiples[(rest >> top) ^ byte]
    return rest.to_bytes(degree)


@lru_cache(maxsize=64)
def _multiples(degree: int) -> tuple[int, ...]:
    """The generator polynomial times each byte, without its leading term: one number, a byte for each term."""
    generator = [1]
    for power in range(degree):
        root = _powers()[power]
        generator = [a ^ _times(root, b) for a, b in zip([*generator, 0], [0, *generator], strict=True)]
    return tuple(int.from_bytes(bytes(_times(byte, term) for term in generator[1:])) for byte in range(256))


def _times(a: int, b: int) -> int:
    powers, logarithms = _powers(), _logarithms()
    return powers[(logarithms[a] + logarithms[b]) % 255] if a and b else 0


@lru_cache(maxsize=1)
def _powers() -> tuple[int, ...]:
    """Of 2, up to 2²⁵⁴."""
    found = [1]
    while len(found) < 255:
        doubled = found[-1] << 1
        found.append(doubled ^ _FIELD if doubled > 255 else doubled)
    return tuple(found)


@lru_cache(maxsize=1)
def _logarithms() -> dict[int, int]:
    return {power: exponent for exponent, power in enumerate(_powers())}
