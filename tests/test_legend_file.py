"""`legend.pdf` as it is made: the cards of the board that is asked for, on the paper that is asked for."""

from io import BytesIO
from pathlib import Path

import pytest
from pypdfium2 import PdfDocument

from labelgen.data_files import layouts
from labelgen.making import Request, Result
from labelgen.pipeline import check_file, make

EXAMPLE = layouts("railways") / "marram-quay.yaml"


def legend(path: Path, board: str | None = None) -> Result:
    checked, _ = check_file(path)
    assert checked is not None
    return make(checked, Request(only=frozenset({"legend"}), board=board))


@pytest.mark.parametrize(
    ("board", "names"), [(None, {"Harbour", "Station throat", "Harbour panel"}), ("B2", {"Station throat"})]
)
def test_the_cards_of_a_board(board: str | None, names: set[str]) -> None:
    result = legend(EXAMPLE, board)
    assert list(result.files) == ["legend.pdf"]
    (made,) = result.made
    assert made.what.startswith(f"{len(names)} legend card")
    (page,) = PdfDocument(BytesIO(result.files["legend.pdf"]))
    lines = page.get_textpage().get_text_range().splitlines()
    assert {name for name in ("Harbour", "Station throat", "Harbour panel") if name in " / ".join(lines)} >= names
    assert (board is None) == any("Harbour panel" in line for line in lines)


def test_with_american_words_the_paper_is_letter(tmp_path: Path) -> None:
    path = tmp_path / "quay.yaml"
    path.write_text(EXAMPLE.read_text(encoding="utf-8") + "\nwords: american\n", encoding="utf-8")
    result = legend(path)
    assert result.problems == []
    (page,) = PdfDocument(BytesIO(result.files["legend.pdf"]))
    assert page.get_size() == pytest.approx((215.9 / 25.4 * 72, 279.4 / 25.4 * 72), abs=0.1)


def test_without_wires_there_is_none(tmp_path: Path) -> None:
    path = tmp_path / "empty.yaml"
    path.write_text("railway: Marram Quay\n", encoding="utf-8")
    assert legend(path).files == {}
