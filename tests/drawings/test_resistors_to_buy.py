"""Resistors before lamps on the cut list: value, rating and number, and where each goes."""

from drawings.drawn_extents import texts

from labelgen.drawings.lists.cut_list_pages import cut_list_pages
from labelgen.drawings.lists.resistor_blocks import ohms_said
from labelgen.model.look import Look
from labelgen.reading.data_readers import built_in_kinds
from labelgen.reading.description_reader import read_description_text
from labelgen.standards.paper_sizes import PAPERS
from labelgen.wiring.expansion import expand

TEXT = """\
railway: Samphire Point
boards: {B1: {size: [3000, 900], at: [0, 0]}}
strips: {A1: {at: [1000, 500], measured: 110}, A2: {at: [2000, 500], measured: 110}}
panels: {BOX: {at: [900, 900], size: [300, 100], levers: {row: 5}}}
supplies: {LIGHT: {kind: dc, at: [100, 100], volts: 12}}
devices:
  H1: {kind: lamps, at: [1500, 300], lamp_volts: 2, lamp_milliamps: 20, shown: Quay lamp}
  H2: {kind: lamps, at: [1600, 300], lamp_volts: 2, lamp_milliamps: 20}
  H3: {kind: lamps, at: [1700, 300], lamp_volts: 1.8, lamp_milliamps: 5}
"""


def words(text: str) -> list[str]:
    description, problems = read_description_text(text)
    assert description is not None, problems
    netlist, _ = expand(description, built_in_kinds())
    drawings, problems = cut_list_pages(description, netlist, Look(), PAPERS["a4"])
    assert problems == []
    return [one.text for drawing in drawings for one in texts(drawing)]


def test_a_row_for_each_value() -> None:
    # 10 V at 20 mA: 510 ohms of E24, 0.196 W, so 1/2 W; 10.2 V at 5 mA: 2.2 k, 47 mW, so 1/8 W.
    said = words(TEXT)
    at = said.index("resistors")
    assert said[at : at + 4] == ["resistors", "watts", "pieces", "in the wire at"]
    assert said[at + 4 : at + 12] == ["510 Ω", "1/2", "2", "Quay lamp.L, H2.L", "2.2 kΩ", "1/8", "1", "H3.L"]


def test_a_power_beyond_all_that_is_sold() -> None:
    said = words(TEXT.replace("lamp_volts: 1.8, lamp_milliamps: 5", "lamp_volts: 2, lamp_milliamps: 900"))
    at = said.index("12 Ω")
    assert said[at : at + 3] == ["12 Ω", "–", "1"]


def test_without_such_lamps_nothing_is_said() -> None:
    assert "resistors" not in words(TEXT.replace("lamp_volts", "ohms"))


def test_how_ohms_are_said() -> None:
    assert [ohms_said(ohms) for ohms in (510, 1000, 2200)] == ["510 Ω", "1 kΩ", "2.2 kΩ"]  # type: ignore[arg-type]
