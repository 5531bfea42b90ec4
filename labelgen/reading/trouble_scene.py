"""A place where the YAML library could not go on, with the lines around it."""

import re

from labelgen.places import Place
from labelgen.problems import Problem
from labelgen.reading.node_tree import Mend, Trouble
from labelgen.reading.quoting import lacks_quotes
from labelgen.reading.source_text import Draft

REMARK = re.compile(r"[ \t]+#.*")
_FIRST_VALUE = re.compile(r"[ \t]*(?:- +)*(?P<key>[^\s:][^:\n]*:|\"[^\"\n]*\":|-)[ \t]+(?=\S)")
"""The key or the dash at the start of a line that has a value behind it."""


LONGEST_KEY = 1024
"""YAML 1.2.2, 7.4.2: the limit for a key on one line."""


class Scene:
    """A trouble, with the lines around it."""

    def __init__(self, draft: Draft, trouble: Trouble) -> None:
        self.draft = draft
        self.trouble = trouble
        text = draft.text
        self.at = min(trouble.index, max(0, len(text) - 1))
        self.line_start = text.rfind("\n", 0, self.at) + 1
        end = text.find("\n", self.at)
        self.line_end = len(text) if end < 0 else end
        self.line = text[self.line_start : self.line_end]
        self.before = text[self.line_start : self.at]
        self.sign = text[self.at : self.at + 1]

    @property
    def starts_line(self) -> bool:
        return not self.before.strip()

    def previous_line(self) -> tuple[int, int] | None:
        """The nearest line above that says something."""
        end = self.line_start - 1
        while end >= 0:
            start = self.draft.text.rfind("\n", 0, end) + 1
            said = self.draft.text[start:end].strip()
            if said and not said.startswith("#"):
                return start, end
            end = start - 1
        return None

    def value_on_line(self, start: int | None = None) -> tuple[int, int] | None:
        """The value of the line's first key, without a remark behind it."""
        begin = self.line_start if start is None else start
        found = _FIRST_VALUE.match(self.draft.text, begin, self.line_end)
        if found is None:
            return None
        value = REMARK.sub("", self.draft.text[found.end() : self.line_end]).rstrip()
        return found.end(), found.end() + len(value)

    def problem(self, code: str, message: str, hint: str, at: tuple[int, int] | None = None) -> Mend:
        start, end = at or (self.at, self.at + 1)
        return Mend(problem=Problem(code=code, message=message, hint=hint, place=self.draft.place(start, end)))


def quoted_value(scene: Scene, message: str, start: int, at: Place | None = None) -> Mend:
    """Quotes from `start` to the end of the line, or to where the brackets around it go on."""
    text = REMARK.sub("", scene.draft.text[start : scene.line_end])
    if re.search(r"[{\[]", scene.draft.text[scene.line_start : start]):
        text = re.split(r"[,\]}]", text, maxsplit=1)[0]
    end = start + max(1, len(text.rstrip()))
    return lacks_quotes(scene.draft, start, end, message=message, at=at or scene.draft.place(start, end))


def too_deep(draft: Draft, at: int) -> Mend:
    message = "this stands inside more than 100 other things"
    hint = "See whether a bracket or a dash was repeated by mistake."
    return Mend(problem=Problem(code="nested-too-deep", message=message, hint=hint, place=draft.place(at, at + 1)))
