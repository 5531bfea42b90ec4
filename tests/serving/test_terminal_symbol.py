"""The QR symbol of a terminal, painted as a picture and decoded by an independent reader."""

import numpy as np
import zxingcpp

from labelgen.drawings.tags.qr import symbol
from labelgen.serving.terminal_symbol import terminal_symbol

HALVES = {" ": (0, 0), "▄": (0, 255), "▀": (255, 0), "█": (255, 255)}


def test_it_decodes_as_a_dark_terminal_shows_it() -> None:
    address = "http://192.168.1.20:8470/"
    matrix = symbol(address)
    assert matrix is not None
    lines = terminal_symbol(matrix).splitlines()
    rows = [[HALVES[block][half] for block in line] for line in lines for half in (0, 1)]
    picture = np.kron(np.array(rows, dtype=np.uint8), np.ones((8, 8), dtype=np.uint8))
    assert [found.text for found in zxingcpp.read_barcodes(picture)] == [address]
