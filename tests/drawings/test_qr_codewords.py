"""Codewords and penalties against the library `qrcode`, which works them out byte by byte and module by module."""

import re
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from qrcode.base import rs_blocks
from qrcode.main import QRCode
from qrcode.util import QRData, create_data, lost_point, mode_sizes_for_version

from labelgen.drawings.tags.qr_codewords import Segments, codewords
from labelgen.drawings.tags.qr_grid import LevelBits, grid

MODES: dict[str, Any] = {"numeric": 1, "alphanumeric": 2, "byte": 4}
SEGMENT = st.one_of(
    st.tuples(st.just("numeric"), st.from_regex(rb"[0-9]{1,12}", fullmatch=True)),
    st.tuples(st.just("alphanumeric"), st.from_regex(rb"[A-Z0-9 $%*+./:-]{1,11}", fullmatch=True)),
    st.tuples(st.just("byte"), st.binary(min_size=1, max_size=12)),
)
VERSIONS = st.sampled_from([2, 5, 7, 10, 15, 27, 40])
LEVELS: st.SearchStrategy[LevelBits] = st.sampled_from([0, 1, 2, 3])
CORNER_RUN = re.compile("(?=(?<!1)1011101(?!1))")


def ours(segments: Segments, version: int, level: LevelBits) -> bytes:
    bits = mode_sizes_for_version(version)
    blocks = [(block.data_count, block.total_count - block.data_count) for block in rs_blocks(version, level)]
    return codewords(segments, {mode: bits[number] for mode, number in MODES.items()}, blocks)


def theirs(segments: Segments, version: int, level: LevelBits) -> bytes:
    data = [QRData(content, mode=MODES[mode], check_data=False) for mode, content in segments]
    return bytes(create_data(version, level, data))


def test_the_standards_worked_example() -> None:
    """ISO/IEC 18004, annex I: 01234567 in version 1-M."""
    example = "10 20 0C 56 61 80 EC 11 EC 11 EC 11 EC 11 EC 11 A5 24 D4 C1 ED 36 C7 87 2C 55"
    assert ours((("numeric", b"01234567"),), 1, 0) == bytes.fromhex(example)


@given(st.lists(SEGMENT, min_size=1, max_size=3), VERSIONS, LEVELS)
def test_codewords_are_those_of_another_writer(
    segments: list[tuple[str, bytes]], version: int, level: LevelBits
) -> None:
    if sum(len(data) for _, data in segments) * 8 + 60 > 8 * sum(b.data_count for b in rs_blocks(version, level)):
        version = 40
    assert ours(tuple(segments), version, level) == theirs(tuple(segments), version, level)


def test_a_symbol_that_is_full_has_no_room_for_an_end() -> None:
    """Version 1-L holds 152 bits: 17 bytes with mode and count take all but the four that end them."""
    full = (("byte", b"7" * 17),)
    assert ours(full, 1, 1) == theirs(full, 1, 1)
    assert ours((("numeric", b"7" * 41),), 1, 1) == theirs((("numeric", b"7" * 41),), 1, 1)


@pytest.mark.parametrize("mask", range(8))
@given(st.binary(min_size=12, max_size=12), VERSIONS, LEVELS)
def test_modules_and_penalty_are_those_of_another_writer(
    mask: int, seed: bytes, version: int, level: LevelBits
) -> None:
    version = min(version, 10)
    blocks = rs_blocks(version, level)
    words = (seed * 40)[: sum(block.total_count for block in blocks)]
    code: Any = QRCode(version=version, error_correction=level, border=0)
    code.data_cache = list(words)
    code.makeImpl(test=False, mask_pattern=mask)
    rows: list[list[Any]] = [[bool(module) for module in row] for row in code.modules]
    on = grid(version)
    (modules,) = on.under_masks(words, level, (mask,))
    assert on.matrix(modules) == tuple(map(tuple, rows))
    lines = ["".join("01"[module] for module in line) for line in (*rows, *zip(*rows, strict=True))]
    assert on.trouble(modules) == (sum(len(CORNER_RUN.findall(line)) for line in lines), lost_point(rows))
