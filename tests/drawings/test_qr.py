import numpy as np
import pytest
import zxingcpp
from hypothesis import given
from hypothesis import strategies as st
from qrcode.util import QRData, create_data

from labelgen.drawings.tags.qr import (
    LEVELS,
    Level,
    matrix,
    module_sizes,
    modules_for,
    segmented,
    symbol,
    version_for,
)
from labelgen.drawings.tags.qr_grid import Matrix

# ISO/IEC 18004, annex I: the worked example, its code words, and its symbol with mask 010 as rows of 21 bits.
ANNEX_I_DATA = "10 20 0C 56 61 80 EC 11 EC 11 EC 11 EC 11 EC 11"
ANNEX_I_CORRECTION = "A5 24 D4 C1 ED 36 C7 87 2C 55"
ANNEX_I_ROWS = (
    "1FCB7F 104F41 17505D 17585D 17575D 105141 1FD57F 001300 17C97C 02B52C 046A9F 01083C 03F290 0017CC 1FCD60 1057C5"
    " 17512C 175920 175694 104036 1FDE94"
)
# ISO/IEC 18004, table 7: numeric/alphanumeric/byte capacity.
CAPACITY = {
    (1, "L"): (41, 25, 17), (1, "M"): (34, 20, 14), (1, "Q"): (27, 16, 11), (1, "H"): (17, 10, 7),
    (2, "M"): (63, 38, 26), (5, "Q"): (144, 87, 60), (9, "M"): (432, 262, 180), (10, "M"): (513, 311, 213),
    (10, "L"): (652, 395, 271), (15, "M"): (991, 600, 412), (15, "H"): (530, 321, 220), (40, "L"): (7089, 4296, 2953),
}  # fmt: skip


def hexadecimal(rows: Matrix) -> str:
    return " ".join(f"{int(''.join('01'[module] for module in row), 2):06X}" for row in rows)


def read(rows: Matrix) -> zxingcpp.Barcode:
    """What a reader of other makers sees in the symbol, drawn with its quiet zone."""
    image = np.where(np.pad(np.array(rows), 4), 0, 255).astype("uint8").repeat(4, 0).repeat(4, 1)
    (found,) = zxingcpp.read_barcodes(np.ascontiguousarray(image), try_invert=False)
    return found


def test_the_standards_worked_example() -> None:
    assert segmented(b"01234567", 1) == (("numeric", b"01234567"),)
    assert hexadecimal(matrix(segmented(b"01234567", 1), version=1, level="M", mask=2)) == ANNEX_I_ROWS


def test_its_code_words() -> None:
    words = create_data(1, 0, [QRData(data, mode=1) for _, data in segmented(b"01234567", 1)])
    assert bytes(words) == bytes.fromhex(ANNEX_I_DATA + ANNEX_I_CORRECTION)


@pytest.mark.parametrize(("size", "holds"), CAPACITY.items())
def test_a_symbol_holds_what_the_standards_table_says(size: tuple[int, Level], holds: tuple[int, int, int]) -> None:
    version, level = size
    for character, count in zip("7A~", holds, strict=True):
        assert version_for(character * count, level=level) == version
        larger = version_for(character * (count + 1), level=level)
        assert larger == (version + 1 if version < 40 else None)


@pytest.mark.parametrize("level", LEVELS)
@pytest.mark.parametrize("mask", range(8))
@pytest.mark.parametrize("text", ["01234567", "MARRAM QUAY 12", "marram quay"])
def test_modules_are_those_of_another_writer(text: str, level: Level, mask: int) -> None:
    mine = matrix(segmented(text.encode(), 3), version=3, level=level, mask=mask)
    theirs = zxingcpp.create_barcode(text, zxingcpp.BarcodeFormat.QRCode, ec_level=level, version=3, data_mask=mask)
    image = np.asarray(zxingcpp.write_barcode_to_image(theirs, scale=1, add_quiet_zones=False))
    assert (np.array(mine) == (image < 128)).all()


@given(st.text(st.characters(codec="utf-8", exclude_categories=["Cs", "Cc", "Zl", "Zp"]), min_size=1, max_size=90))
def test_another_reader_reads_what_was_written(text: str) -> None:
    rows = symbol(text)
    assert rows is not None
    assert len(rows) == modules_for(version_for(text) or 0)
    # Latin-1 text and Asian encodings cannot always be told from UTF-8 by a reader: compare what was written.
    assert read(rows).bytes == text.encode()


MIXED = st.text(st.sampled_from("0123456789ABC./:-abc\n"), min_size=1, max_size=60)
BITS = {"numeric": (10, 20), "alphanumeric": (9, 33), "byte": (8, 48)}  # ISO/IEC 18004, table 3: versions 1 to 9


def bits(segments: tuple[tuple[str, bytes], ...]) -> int:
    return sum(4 + BITS[mode][0] + -(-len(data) * BITS[mode][1] // 6) for mode, data in segments)


@given(MIXED)
def test_runs_lose_nothing_and_are_never_longer_than_one_run_of_bytes(text: str) -> None:
    segments = segmented(text.encode(), 9)
    assert b"".join(data for _, data in segments) == text.encode()
    assert bits(segments) <= bits((("byte", text.encode()),))
    for mode, data in segments:
        assert mode != "numeric" or data.isdigit()
        assert mode != "alphanumeric" or not any(byte in b"abc\n" for byte in data)


@given(st.text(st.sampled_from("01A/a"), min_size=1, max_size=7))
def test_no_other_way_to_cut_takes_fewer_bits(text: str) -> None:
    data = text.encode()
    able = {"numeric": b"01", "alphanumeric": b"01A/", "byte": b"01A/a"}

    def fewest(start: int) -> int:
        if start == len(data):
            return 0
        return min(
            bits(((mode, data[start:stop]),)) + fewest(stop)
            for stop in range(start + 1, len(data) + 1)
            for mode, allowed in able.items()
            if set(data[start:stop]) <= set(allowed)
        )

    assert bits(segmented(data, 9)) == fewest(0)


def test_capitals_take_fewer_modules() -> None:
    small, capital = "https://quay.example/A1/", "HTTPS://QUAY.EXAMPLE/A1/"
    assert (version_for(small, level="Q"), version_for(capital, level="Q")) == (3, 2)
    assert [mode for mode, _ in segmented(b"HTTPS://QUAY.EXAMPLE/wiring/A1/", 3)] == ["alphanumeric", "byte"]


@pytest.mark.parametrize(("text", "level"), [("7" * 17, "H"), ("7" * 18, "Q"), ("7" * 27, "Q"), ("7" * 28, "M")])
def test_correction_is_as_strong_as_the_same_version_allows(text: str, level: Level) -> None:
    rows = symbol(text)
    assert rows is not None
    found = read(rows)
    assert (len(rows), found.ec_level, found.text) == (21, level, text)


def test_a_text_that_needs_too_large_a_symbol_gets_none() -> None:
    assert symbol("~" * 413, largest_version=15) is None
    assert symbol("~" * 412, largest_version=15) is not None
    assert symbol("~" * 2954, level="L") is None
    assert version_for("~" * 15, largest_version=1) is None


def test_modules_are_whole_printer_dots() -> None:
    # The symbology originator's guidance: 4 dots or more; 0.3387, 0.4233, 0.508 mm at 300 dpi.
    assert module_sizes(1, 29 * 0.509) == pytest.approx([0.508, 0.42333, 0.33867], abs=1e-4)
    assert module_sizes(1, 29 * 0.338) == []
    assert module_sizes(1, 29 * 0.3387) == pytest.approx([0.33867], abs=1e-4)
    assert max(module_sizes(1, 500)) == pytest.approx(0.8467, abs=1e-4)
    for dpi in (300, 600):
        assert all(size * dpi / 25.4 == pytest.approx(round(size * dpi / 25.4)) for size in module_sizes(4, 90))
