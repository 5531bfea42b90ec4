"""What every chapter of a booklet is written from."""

from collections.abc import Mapping
from dataclasses import dataclass

from labelgen.drawings.booklet.index import Contents, Index
from labelgen.drawings.booklet.pages import Book
from labelgen.drawings.lists.writing import Writer
from labelgen.model.description import Description
from labelgen.model.netlist import Netlist

Issues = Mapping[tuple[str, str], str]
"""Kind of label, and the thing that it is stuck on: the letter of the issue in force."""


@dataclass(frozen=True, kw_only=True)
class Work:
    description: Description
    netlist: Netlist
    contents: Contents
    index: Index
    book: Book
    writer: Writer
    issues: Issues
