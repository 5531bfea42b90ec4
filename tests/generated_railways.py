"""Railways of any size, made by rule: four points a strip, about ten strips a board, boards in a row with plugs."""

from itertools import pairwise

POINTS_A_STRIP = 4
POINTS_A_BOARD = 42
BOARDS_A_PANEL = 4
PINS_A_PLUG = 50


def railway(points: int, *, plugs: bool = True) -> str:
    """The description of a railway of so many points: 500 of them take 125 strips and more on 12 boards.

    A panel serves four boards; the one pulse supply stands on the first. Without `plugs`, boards are taken as fixed
    together.
    """
    boards = _boards(points)
    lines = [f"railway: Samphire Flats {points}", "boards:"]
    for number in range(1, len(boards) + 1):
        stands = f"right_of: B{number - 1}" if number > 1 else "at: [0, 0]"
        hole = f"holes: {{H{number}: {{at: [600, 570]}}}}"
        lines.append(f"  B{number}: {{size: [1200, 600], {stands}, panel: BOX{_panel(number)}, {hole}}}")
    lines.append("supplies: {PULSE: {kind: pulse, board: B1, at: [60, 60], volts: 24, microfarads: 10000}}")
    lines.append("panels:")
    for panel in range(1, _panel(len(boards)) + 1):
        board = min(BOARDS_A_PANEL * panel - 2, len(boards))
        lines.append(f"  BOX{panel}: {{board: B{board}, at: [600, 600], size: [1200, 60], levers: {{row: 3}}}}")
    lines += ["strips:", *_strips(boards), "points:", *_points(boards)]
    if plugs and len(boards) > 1:
        lines += ["plugs:", *_plugs(boards)]
    return "\n".join(lines) + "\n"


def _panel(board: int) -> int:
    return -(-board // BOARDS_A_PANEL)


def _boards(points: int) -> list[range]:
    """The points of each board."""
    count = max(1, round(points / POINTS_A_BOARD))
    edges = [round(points * number / count) for number in range(count + 1)]
    return [range(start + 1, end + 1) for start, end in pairwise(edges)]


def _strips(boards: list[range]) -> list[str]:
    lines, number = [], 0
    for board, points in enumerate(boards, 1):
        for place in range(-(-len(points) // POINTS_A_STRIP)):
            number += 1
            lines.append(f"  S{number}: {{board: B{board}, at: [{70 + place * 95}, 330], measured: 80}}")
    return lines


def _points(boards: list[range]) -> list[str]:
    return [
        f"  P{point}: {{board: B{board}, at: [{20 + place * 27}, {120 + place % 4 * 30}], name: Road {point}}}"
        for board, points in enumerate(boards, 1)
        for place, point in enumerate(points)
    ]


def _plugs(boards: list[range]) -> list[str]:
    """Between neighbours, as many as the levers' wires of the boards beyond need, and the two chains."""
    lines = []
    for left in range(1, len(boards)):
        at_panel = BOARDS_A_PANEL * _panel(left) - 2
        beyond = boards[at_panel:][left - at_panel :] if left >= at_panel else boards[at_panel - 2 : left]
        within = [points for points in beyond if _panel(boards.index(points) + 1) == _panel(left)]
        pins = 3 * sum(map(len, within)) + 4
        for number in range(-(-pins // PINS_A_PLUG)):
            at = f"{{B{left}: [1190, {20 + number * 9}], B{left + 1}: [10, {20 + number * 9}]}}"
            lines.append(f"  J{left}-{number + 1}: {{boards: [B{left}, B{left + 1}], pins: {PINS_A_PLUG}, at: {at}}}")
    return lines
