"""Finds the spreadsheet that a description names, and reads its rows, whatever its form."""

from dataclasses import dataclass
from pathlib import Path, PurePosixPath

from labelgen.places import Place
from labelgen.problems import Problem
from labelgen.reading.file_text import LARGEST_BYTES
from labelgen.reading.near_names import nearest
from labelgen.reading.spreadsheet_csv import Found, bad, read_csv
from labelgen.reading.spreadsheet_xlsx import read_xlsx

_PACKED, _COMPOUND = b"PK\x03\x04", b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
_LOCKED = "EncryptedPackage".encode("utf-16-le")
_OTHER_FORMS = ((b"%PDF", "a PDF"), (b"{\\rtf", "a text document"), (b"<", "a web page or an XML file"))
_AS_LIST = "Open it in the spreadsheet and save it as .xlsx or as CSV (UTF-8)."


@dataclass(frozen=True, slots=True, kw_only=True)
class Named:
    """A spreadsheet as the description names it, and where it does."""

    file: str
    called: str
    """The file as places name it."""
    at: Place
    sheet: str | None
    sheet_at: Place


def load(folder: Path | None, named: Named) -> tuple[bytes | None, list[Problem]]:
    """The bytes of a file in the description's folder or below it.

    Reports file-missing, file-is-folder, file-unreadable, file-too-large, and bad-spreadsheet for a file elsewhere.
    """
    if folder is None:
        hint = "Keep both as files in one folder."
        return None, [bad("a description that is no file has nothing beside it to read", hint, named.at)]
    if (problem := _outside(folder, named)) is not None:
        return None, [problem]
    path = folder / named.file
    try:
        if (problem := _no_file(path, folder, named)) is not None:
            return None, [problem]
        with path.open("rb") as file:
            data = file.read(LARGEST_BYTES + 1)
    except (OSError, ValueError) as error:
        reason = error.strerror if isinstance(error, OSError) and error.strerror else "its name cannot be a file's"
        hint = f"The computer says: {reason}. See whether you may open it, and whether another program holds it."
        return None, [_problem("file-unreadable", f"`{named.file}` cannot be read", hint, named.at)]
    if len(data) > LARGEST_BYTES:
        message = f"`{named.file}` is larger than {LARGEST_BYTES // 1_000_000} MB"
        return None, [_problem("file-too-large", message, "See whether it is the right file.", named.at)]
    return data, []


def read_rows(data: bytes, named: Named) -> Found:
    """The rows of a loaded file, by what it holds and not by how it is called."""
    if data.startswith(_PACKED):
        if b"opendocument" in data[:200]:
            return None, [bad(f"`{named.file}` is an OpenDocument file", _AS_LIST, named.at)]
        return read_xlsx(data, named.called, named.sheet, named.at, named.sheet_at)
    if (problem := _other_form(data, named)) is not None:
        return None, [problem]
    if named.sheet is not None:
        message = f"`{named.file}` is a CSV file, and has no sheets"
        return None, [bad(message, "Take `sheet:` out.", named.sheet_at)]
    return read_csv(data, named.called, named.at)


def _other_form(data: bytes, named: Named) -> Problem | None:
    if not data.strip():
        return bad(f"there is nothing in `{named.file}`", "Save the list into it, or take its name out.", named.at)
    if data.startswith(_COMPOUND):
        locked = _LOCKED in data
        what = "is locked with a password" if locked else "is a workbook of the old form .xls"
        hint = "Save it without a password." if locked else _AS_LIST
        return bad(f"`{named.file}` {what}", hint, named.at)
    bare = data[:200].removeprefix(b"\xef\xbb\xbf").lstrip()
    form = next((name for start, name in _OTHER_FORMS if bare.startswith(start)), None)
    return bad(f"`{named.file}` is {form}, not a spreadsheet", _AS_LIST, named.at) if form is not None else None


def _outside(folder: Path, named: Named) -> Problem | None:
    """A description that came from somebody else must not open other files of this computer."""
    pure = PurePosixPath(named.file.replace("\\", "/"))
    inside = named.file.strip() and not pure.is_absolute() and ".." not in pure.parts and ":" not in named.file
    try:
        if inside and (folder / named.file).resolve().is_relative_to(folder.resolve()):
            return None
    except (OSError, ValueError, RuntimeError):
        pass  # a name that no file can have
    message = f"`{named.file}` does not lie beside the description"
    hint = "Put the spreadsheet into the description's folder, or one below it, and write its name alone."
    return bad(message, hint, named.at)


def _no_file(path: Path, folder: Path, named: Named) -> Problem | None:
    if path.is_dir():
        hint = "Name the spreadsheet in it."
        return _problem("file-is-folder", f"`{named.file}` is a folder", hint, named.at)
    if not path.exists():
        near = nearest(path.name, [one.name for one in folder.iterdir() if one.is_file()])
        hint = f"Did you mean `{near}`?" if near else "It is looked for in the description's own folder."
        return _problem("file-missing", f"there is no file `{named.file}`", hint, named.at)
    if not path.is_file():
        hint = "Name a .csv or .xlsx file."
        return _problem("file-unreadable", f"`{named.file}` is not an ordinary file", hint, named.at)
    return None


def _problem(code: str, message: str, hint: str, place: Place) -> Problem:
    return Problem(code=code, message=message, hint=hint, place=place)
