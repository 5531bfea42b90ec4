"""What YAML accepts without a word although it changes what the builder wrote: `Siding #2`, `lever:1`."""

import re
from bisect import bisect_left

from labelgen.reading.node_tree import Composed, Mend, Scalar
from labelgen.reading.quoting import lacks_blank, lacks_colon, lacks_quotes
from labelgen.reading.source_text import Draft

HASH = re.compile(r"(?<=[ \t])#(?=[^\W_])")
"""After a blank, and with a letter or digit right behind it."""
KEY_COLON = re.compile(r"(?P<key>[A-Za-z_][\w-]*):(?=[^\s:/])")
"""A key whose colon has no blank behind it; not `http://` or `::`."""
KEY_BRACKET = re.compile(r"(?P<key>[\w-]+):(?=[{\[\"'])")
"""The same, and behind it the start of what cannot be part of a key."""
KEY_OPENED = re.compile(r"(?P<key>[\w-]+)[ \t]*(?P<bracket>[{\[])[^\]}]*")
"""A key with its bracket right behind it, which is not closed within the key."""
REPORTED_AT_MOST = 50


def swallowed(draft: Draft, composed: Composed) -> list[Mend]:
    """Each `#` that makes a remark of the rest of a name (hash-swallows), as far as the file could be read."""
    limit = len(draft.text) if composed.trouble is None else composed.trouble.index
    ends = [scalar.end for scalar in composed.scalars]
    mends: list[Mend] = []
    for found in HASH.finditer(draft.text, 0, limit):
        at = bisect_left(ends, found.start())
        before = composed.scalars[at - 1] if at else None
        inside = at < len(ends) and composed.scalars[at].start < found.start()
        mend = None if inside else _swallows(draft, found.start(), before, composed.closed)
        if mend is not None:
            mends.append(mend)
        if len(mends) == REPORTED_AT_MOST:
            break
    return mends


def _swallows(draft: Draft, at: int, before: Scalar | None, closed: set[int]) -> Mend | None:
    """None for a remark that has a line to itself, or that follows quotes or a bracket."""
    line_start = draft.text.rfind("\n", 0, at) + 1
    left = draft.text[line_start:at].rstrip()
    after = line_start + len(left)
    joined = before is not None and before.end == after
    if not left.strip() or left == "---" or after in closed or (before is not None and joined and before.quoted):
        return None
    start = before.start if before is not None and joined else at
    end = _end_of_value(draft.text, at, in_brackets=before is not None and before.in_brackets)
    lost = draft.text[at:end]
    lost = lost if len(lost) <= 40 else f"{lost[:40]}…"
    return lacks_quotes(
        draft,
        start,
        end,
        code="hash-swallows",
        message=f"`{lost}` would be left out: a # after a blank starts a remark",
        at=draft.place(at, end),
    )


def _end_of_value(text: str, at: int, *, in_brackets: bool) -> int:
    line_end = text.find("\n", at)
    rest = text[at : len(text) if line_end < 0 else line_end]
    if in_brackets:
        rest = re.split(r"[,\]}]", rest, maxsplit=1)[0]
    return at + len(rest.rstrip())


def key_without_blank(draft: Draft, scalar: Scalar, *, is_key: bool = False) -> Mend | None:
    """`lever:1` on a line of its own, or as a key in brackets, which YAML takes for one text (missing-space).

    A text that is a key already is one of the builder's own, unless brackets or quotes follow: `P5:{name: x}`.
    """
    found = (KEY_BRACKET if is_key else KEY_COLON).match(draft.text, scalar.start, scalar.end)
    if found is None:
        return None
    line_start = draft.text.rfind("\n", 0, scalar.start) + 1
    if not scalar.in_brackets and draft.text[line_start : scalar.start].strip(" -"):
        return None
    return lacks_blank(draft, scalar.start, found.end("key"))


def key_without_colon(draft: Draft, start: int, end: int) -> Mend | None:
    """`P4 {name: x}` on a line of its own, of which YAML takes all before the first colon for the key."""
    found = KEY_OPENED.fullmatch(draft.text, start, end)
    return lacks_colon(draft, start, found.end("key"), found.start("bracket")) if found is not None else None


def folded_line(draft: Draft, scalar: Scalar) -> tuple[str, int, int] | None:
    """A later line of a text that looks like a key or a list item: (code, start, end), in the draft."""
    for line in re.finditer(r"\n[ \t]*(\S[^\n]*)", draft.text[scalar.start : scalar.end]):
        start, end = scalar.start + line.start(1), scalar.start + line.end(1)
        if line[1].startswith("- "):
            return "bad-indentation", start, end
        key = KEY_COLON.match(draft.text, start, end)
        if key is not None:
            return "missing-space", start, key.end() + 1
    return None
