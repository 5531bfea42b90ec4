"""Numbers that become another number when the label is read upside down: 6 and 9, 16 and 91, 66 and 99.

They are underlined: the line is under the digits, so whoever sees it above them turns the label round.
"""

HALF_TURN = {"0": "0", "1": "1", "6": "9", "8": "8", "9": "6"}


def needs_underline(text: str) -> bool:
    """True when a half-turn makes another number of a number, one that people would write so.

    Nobody writes a way 10 as 01; only where the text itself begins with 0 (lever 08) does 80 count as its rival.
    """
    if not text or any(digit not in HALF_TURN for digit in text):
        return False
    turned = "".join(HALF_TURN[digit] for digit in reversed(text))
    return turned != text and (text[0] == "0" or turned[0] != "0")
