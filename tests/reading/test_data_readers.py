"""Our own data files."""

from pathlib import Path

import pytest

from labelgen.model.kinds import LEVER_CONTACTS
from labelgen.reading.data_readers import built_in_kinds, read_kind, read_stock, stocks
from labelgen.reading.description_reader import read_description_text


def test_the_built_in_kinds() -> None:
    kinds = built_in_kinds()
    assert {"twin-coil", "section", "lamps"} <= kinds.keys()
    for kind in kinds.values():
        assert kind.about
        assert kind.notes
    assert kinds["lamps"].lever_type is None
    assert kinds["section"].lever_type == "on-off"


def test_a_point_motor_is_wired_as_the_trade_does_it() -> None:
    """Section 4 of the format, which is the core pattern of common practice: no source."""
    motor = built_in_kinds()["twin-coil"]
    assert [(row.function, row.contact, row.terminal, row.chain) for row in motor.group] == [
        ("normal", "N", "N", None),
        ("feed", "F", None, "feed"),
        ("reverse", "R", "R", None),
    ]
    assert [(row.function, row.terminal, row.supply) for row in motor.chain] == [("return", "C", "return")]
    assert (motor.supply, motor.lever_type, motor.ohms) == ({"": "pulse"}, "sprung", 4.5)
    assert [row.contact for row in motor.group] == list(LEVER_CONTACTS["sprung"] or ())


def test_a_built_in_kind_can_be_copied_into_a_description() -> None:
    """The form is the same."""
    from labelgen.data_files import layouts

    text = (layouts("devices") / "section.yaml").read_text(encoding="utf-8")
    lines = "".join(f"    {line}\n" if line else "\n" for line in text.splitlines())
    description, problems = read_description_text(f"railway: x\nkinds:\n  mine:\n{lines}")
    assert problems == []
    assert description is not None
    assert description.kinds["mine"] == built_in_kinds()["section"]


def test_the_label_sheets() -> None:
    found = stocks()
    assert len([one for one in found.values() if one.paper == "a4"]) >= 10
    assert len([one for one in found.values() if one.paper == "letter"]) >= 4
    for id_, stock in found.items():
        assert stock.id == id_
        assert id_.startswith(("a4-", "us-", "roll-"))
        assert id_.split("-")[1] == str(stock.count)
    assert (found["a4-65-38x21"].paper_width, found["a4-65-38x21"].paper_height) == (210, 297)


GOOD_KIND = "terminals: {A: }\nsupply: dc\ngroup: [{function: lamp, terminal: A}]\n"


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "nothing in the file"),
        (GOOD_KIND + "group: []\n", "twice"),
        (GOOD_KIND + "supplies: x\n", "supplies"),
        (GOOD_KIND.replace("terminal: A", "terminal: B"), "no terminal `B`, line 3"),
        (GOOD_KIND.replace("lamp", "lampp"), "no function lampp"),
    ],
)
def test_a_broken_kind_of_ours_is_a_bug(tmp_path: Path, text: str, words: str) -> None:
    path = tmp_path / "mine.yaml"
    path.write_text(GOOD_KIND)
    assert read_kind(path).supply == {"": "dc"}
    path.write_text(text)
    with pytest.raises(ValueError, match=words):
        read_kind(path)


def test_a_broken_sheet_of_ours_is_a_bug(tmp_path: Path) -> None:
    path = tmp_path / "a4-2-100x100.yaml"
    good = "paper: a4\ncolumns: 2\nrows: 1\nsize: [100, 100]\npitch: [105, 100]\nleft: 2.5\ntop: 10\n"
    path.write_text(good)
    stock = read_stock(path)
    assert (stock.id, stock.count, stock.pitch_x, stock.corner, stock.seen) == ("a4-2-100x100", 2, 105, 2, "")
    path.write_text(good.replace("a4", "b7"))
    with pytest.raises(ValueError, match="paper"):
        read_stock(path)
