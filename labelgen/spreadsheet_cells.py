"""How a text survives a spreadsheet, and what a cell is called.

A text that a spreadsheet would turn into something else has an apostrophe before it, the mark by which spreadsheets
themselves know a cell for text; `read_cell` takes it away again. It may be seen in the cell, but the text behind it
stays as it was written, whichever spreadsheet opens the file and in whatever language.
"""

import re

GUARD = "'"
COLUMNS = (
    "number",
    "head",
    "circuit",
    "function",
    "code",
    "colour",
    "size",
    "from",
    "from side",
    "to",
    "to side",
    "link",
    "board",
    "holes",
    "length",
    "note",
)
"""The headings of our own wire list."""

_WHOLE_NUMBER = re.compile(r"0|[1-9][0-9]{0,8}")
"""Shown as it is written: no leading zero, and short of the length at which spreadsheets turn to powers of ten."""
_STRANDS = re.compile(r"[1-9][0-9]*/0\.[0-9]+")
"""`16/0.2`: no date and no fraction, for nothing is the 0th of a month or divided by 0."""
_HEAD = re.compile(r"[0-9]+(?!(?:[aApP][mM]?)$)[A-Za-z]{1,2}")
"""`5N`, `7Lg`: digits and one or two letters; but `5A`, `5pm` are times of day."""
_WORD = re.compile(r"[^\W\d_]+")
_PLAIN_DASH = "–"
_MONTH_NAMES = """
jan feb mar apr may jun jul aug sep sept oct nov dec
january february march april june july august september october november december
jän jänner januar februar märz mär mrz mai juni juli okt oktober dez dezember
janv janvier févr février mars avr avril juin juil juillet août septembre octobre novembre déc décembre
ene enero febrero marzo abr abril mayo junio julio ago agosto septiembre octubre noviembre dic diciembre
gen gennaio febbraio aprile mag maggio giu giugno lug luglio set settembre ott ottobre dicembre
januari februari maart mrt mei augustus maj augusti
"""
_TRUTH_NAMES = "true false wahr falsch vrai faux verdadero falso vero waar onwaar sant falskt sand falsk"
_MONTHS, _TRUTHS = frozenset(_MONTH_NAMES.split()), frozenset(_TRUTH_NAMES.split())
_WORDS_OF_DATES = "mon tue wed thu fri sat sun mo di mi do fr sa so of de den le the st nd rd th"
_AROUND_DATES = frozenset(_WORDS_OF_DATES.split())
_CURRENCY = r"(?:eur|usd|gbp|chf|sek|nok|dkk|aud|cad|nzd|kr)\.?"
_NUMBER_LIKE = tuple(
    re.compile(form, re.IGNORECASE)
    for form in (
        r"\W*\d[\d.,' ]*[ed][+-]?\d+\W*",  # a power of ten
        r"(?:[\d./-]+\s+)?\d{1,2}(?::\d{1,2}){0,2}\s*[ap]\.?\s?(?:m\.?)?",  # a time of day
        r"\d{4}-\d{2}-\d{2}T[\d:.,+-]+Z?",  # date and time together (ISO 8601)
        rf"{_CURRENCY}\s*\W?[\d.,' ]+|\W?[\d.,' ]+{_CURRENCY}",  # an amount of money
    )
)
_FAULT = re.compile(r"#[A-Z/0]+[!?]?", re.IGNORECASE)
"""`#N/A`: by which a spreadsheet says that a formula failed."""
_STARTS = frozenset("=+-@\"'")
"""Signs with which a formula begins, and those that a spreadsheet may take for a mark of its own."""


def write_cell(value: str | int | None) -> str | int:
    """What stands in the CSV for a value: a text that would be changed with a guard before it, nothing for None."""
    if value is None:
        return ""
    if isinstance(value, str) and would_change(value):
        return f"{GUARD}{value}"
    return value


def read_cell(text: str) -> str:
    """The text that was written: undoes `write_cell`."""
    return text.removeprefix(GUARD)


def would_change(text: str) -> bool:
    """True for what a spreadsheet, in whatever language, would take for something else than the text that it is.

    That are formulas (`=1+1`, `-5`, `@x`), numbers (`08`, `1e3`, `1,5`, `5 %`), dates and times (`1-2`, `3/4`,
    `MAR1`, `5 pm`), truths, amounts of money, and what begins or ends with a blank. Other words beside a number keep
    it a text: `0.5 mm²`, `37N bis`.
    """
    if not text or _is_plain(text):
        return False
    if text[0] in _STARTS or text != text.strip() or not text.isprintable() or _FAULT.fullmatch(text):
        return True
    if not any(character.isnumeric() for character in text):
        return text.lower() in _TRUTHS
    if not any(character.isalpha() for character in text):
        return True
    return _is_dated(text) or any(form.fullmatch(text) for form in _NUMBER_LIKE)


def _is_dated(text: str) -> bool:
    """Whether it names a month, and beside figures nothing else."""
    words = {word.lower() for word in _WORD.findall(text)}
    return not words.isdisjoint(_MONTHS) and words <= _MONTHS | _AROUND_DATES


def _is_plain(text: str) -> bool:
    return text == _PLAIN_DASH or any(form.fullmatch(text) for form in (_WHOLE_NUMBER, _STRANDS, _HEAD))


def column_letters(column: int) -> str:
    """What spreadsheets call a column, counted from 1: `A` … `Z`, `AA` …"""
    letters = ""
    while column > 0:
        column, left = divmod(column - 1, 26)
        letters = chr(ord("A") + left) + letters
    return letters


def column_number(letters: str) -> int:
    """The column, from 1, that is called so in capitals; 0 when that is no such name."""
    if not letters or not all("A" <= letter <= "Z" for letter in letters):
        return 0
    number = 0
    for letter in letters:
        number = number * 26 + ord(letter) - ord("A") + 1
    return number
