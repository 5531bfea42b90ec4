"""A file's bytes as text: what can be wrong with a file before anyone looks at what it says."""

import re
from pathlib import Path

from labelgen.places import Place
from labelgen.problems import Problem
from labelgen.reading.near_names import nearest
from labelgen.reading.source_text import SourceText

LARGEST_BYTES = 10_000_000
REPORTED_AT_MOST = 20
"""Of one kind of wrong character: enough to see what is wrong."""

Read = tuple[SourceText | None, list[Problem]]

_OTHER_MARKS = (
    (b"\xff\xfe\x00\x00", "UTF-32"),
    (b"\x00\x00\xfe\xff", "UTF-32"),
    (b"\xff\xfe", "UTF-16"),
    (b"\xfe\xff", "UTF-16"),
)
_NOT_UTF8 = re.compile("[\udc80-\udcff]+")
"""How bytes that are no UTF-8 arrive through `surrogateescape`."""
ODD = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069\ufeff\ufffe\uffff]")
"""Control characters, line breaks that editors do not count, and marks that turn the order of letters round."""
_HARD_BLANK = re.compile("^[ \t]*(?:- ?)*(\xa0+)|(?<=:)(\xa0+)", re.MULTILINE)
"""No-break spaces where a blank has a meaning: they come along when text is copied from a web page."""

_SAVE_AS_UTF8 = "Save the file as UTF-8: most editors offer this under “Save as”, as the encoding."


def read_file(path: Path) -> Read:
    """The text of a file, as far as it can be read.

    Reports file-missing, file-is-folder, file-unreadable, file-too-large, not-utf8, odd-character.
    """
    trouble = _file_problem(path)
    if trouble is not None:
        return None, [trouble]
    try:
        with path.open("rb") as file:
            data = file.read(LARGEST_BYTES + 1)
    except OSError as error:
        return None, [_unreadable(path, error)]
    return read_bytes(data, str(path))


def read_bytes(data: bytes, file: str) -> Read:
    """The text of a file that has been loaded. Reports file-too-large, not-utf8, odd-character."""
    if len(data) > LARGEST_BYTES:
        return None, [_too_large(file, len(data))]
    other = _other_encoding(data)
    if other is not None:
        hint = _SAVE_AS_UTF8
        return None, [_problem("not-utf8", f"the file is saved as {other}, not as UTF-8", hint, Place(file=file))]
    text = data.decode("utf-8", errors="surrogateescape")
    return read_text(text, file)


def read_text(text: str, file: str) -> Read:
    """A text with one kind of line end; wrong characters are replaced, length for length, so that reading can go on."""
    text = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    shown = text if text.isascii() else _NOT_UTF8.sub(lambda found: "\ufffd" * len(found[0]), text)
    typed = SourceText(shown, file)
    problems = [] if shown is text else _not_utf8(text, typed)
    problems += _odd_characters(typed)
    if not problems:
        return typed, []
    if len(problems) >= REPORTED_AT_MOST:
        return None, problems
    clean = _HARD_BLANK.sub(lambda found: found[0].replace("\xa0", " "), ODD.sub("\ufffd", shown))
    return SourceText(clean, file, shown=shown), problems


def _file_problem(path: Path) -> Problem | None:
    place = Place(file=str(path))
    try:
        if path.is_dir():
            return _problem("file-is-folder", f"`{path}` is a folder", "Name the description file in it.", place)
        if not path.exists():
            return _problem("file-missing", f"there is no file `{path}`", _who_else(path), place)
        if not path.is_file():
            hint = "Name a file that holds a wiring description."
            return _problem("file-unreadable", f"`{path}` is not an ordinary file", hint, place)
        size = path.stat().st_size
    except (OSError, ValueError) as error:
        return _unreadable(path, error)
    return _too_large(str(path), size) if size > LARGEST_BYTES else None


def _who_else(path: Path) -> str:
    """Names the file that was probably meant."""
    folder = path.parent
    if not folder.is_dir():
        return f"There is no folder `{folder}` either: look at how the whole name is spelled."
    files = {one.name: one for one in folder.iterdir() if one.is_file()}
    endings = [path.name + ending for ending in (".yaml", ".yml") if path.name + ending in files]
    near = endings[0] if endings else nearest(path.name, files)
    return f"Did you mean `{folder / near}`?" if near else "Look at how its name and its folder are spelled."


def _unreadable(path: Path, error: Exception) -> Problem:
    reason = error.strerror if isinstance(error, OSError) and error.strerror else "its name cannot be a file's"
    hint = f"The computer says: {reason}. See whether you may open it, and whether another program holds it."
    return _problem("file-unreadable", f"`{path}` cannot be read", hint, Place(file=str(path)))


def _too_large(file: str, size: int) -> Problem:
    message = f"the file has {size / 1e6:.1f} MB; a description may have {LARGEST_BYTES // 1_000_000} MB"
    return _problem("file-too-large", message, "See whether it is the right file.", Place(file=file))


def _other_encoding(data: bytes) -> str | None:
    for mark, name in _OTHER_MARKS:
        if data.startswith(mark):
            return name
    # Latin letters in UTF-16 have a zero byte each; nothing else that a person saves does.
    sample = data[:4096]
    return "UTF-16" if len(sample) > 3 and sample.count(0) * 5 > len(sample) * 2 else None


def _not_utf8(text: str, typed: SourceText) -> list[Problem]:
    problems: list[Problem] = []
    for found in _NOT_UTF8.finditer(text):
        if len(problems) == REPORTED_AT_MOST:
            break
        byte = bytes([ord(found[0][0]) - 0xDC00])
        old = byte.decode("cp1252", errors="ignore")
        perhaps = f" (perhaps {old})" if old.isprintable() and old.strip() else ""
        message = f"the character here{perhaps} is not saved as UTF-8"
        problems.append(_problem("not-utf8", message, _SAVE_AS_UTF8, typed.place(found.start(), found.end())))
    return problems


def _odd_characters(typed: SourceText) -> list[Problem]:
    problems: list[Problem] = []
    for found in ODD.finditer(typed.text):
        if len(problems) == REPORTED_AT_MOST:
            return problems
        message = f"a character that cannot be seen stands here (U+{ord(found[0]):04X})"
        hint = "Delete it, and type what should stand here."
        problems.append(_problem("odd-character", message, hint, typed.place(found.start(), found.end())))
    for found in _HARD_BLANK.finditer(typed.text) if "\xa0" in typed.text else ():
        if len(problems) == REPORTED_AT_MOST:
            return problems
        start, end = found.span(1) if found[1] else found.span(2)
        message = "a no-break space (U+00A0) stands here instead of a blank"
        hint = "Delete it and press the space bar; it comes along when text is copied from a web page."
        problems.append(_problem("odd-character", message, hint, typed.place(start, end)))
    return problems


def _problem(code: str, message: str, hint: str, place: Place) -> Problem:
    return Problem(code=code, message=message, hint=hint, place=place)
