"""Tabs that set a line in: nobody can tell how far."""

import re

from labelgen.problems import Problem
from labelgen.reading.source_text import SourceText

_TABS = re.compile(r"^ *\t[ \t]*(?=[^\s#])", re.MULTILINE)
_UNSEEN = re.compile(r"^ *\t[ \t]*(?=#|$)", re.MULTILINE)
"""Before a remark, or on an empty line: no harm, although the YAML library does not like them."""
TABS_AT_MOST = 50


def without_tabs(source: SourceText) -> tuple[SourceText, list[Problem]]:
    """The text with a blank for each such tab, so that columns stay; and a problem `tab` for each line that says
    something. Of more than a few dozen, only the first are told.
    """
    if "\t" not in source.text:
        return source, []
    problems: list[Problem] = []
    for found in _TABS.finditer(source.text):
        start = source.text.index("\t", found.start())
        problems.append(
            Problem(
                code="tab",
                message="this line is set in with a tab",
                hint="Put blanks in its place (the space bar), two for each step.",
                place=source.place(start, found.end()),
            )
        )
        if len(problems) == TABS_AT_MOST:
            break
    text = _UNSEEN.sub(lambda found: " " * len(found[0]), source.text)
    return source.replaced(_TABS.sub(lambda found: " " * len(found[0]), text)), problems
