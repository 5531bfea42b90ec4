"""A QR symbol for a terminal, two rows of modules to a line."""

QUIET = 2
BLOCKS = {(True, True): " ", (True, False): "▄", (False, True): "▀", (False, False): "█"}
"""Dark is where a dark terminal shows nothing; the light quiet zone is drawn."""


def terminal_symbol(matrix: tuple[tuple[bool, ...], ...]) -> str:
    """`matrix`: rows of modules, dark where true."""
    width = len(matrix[0]) + 2 * QUIET
    clear = (False,) * width
    rows = [clear] * QUIET + [(False,) * QUIET + row + (False,) * QUIET for row in matrix] + [clear] * QUIET
    rows += [clear] * (len(rows) % 2)
    lines = zip(rows[::2], rows[1::2], strict=True)
    return "\n".join("".join(BLOCKS[pair] for pair in zip(*line, strict=True)) for line in lines)
