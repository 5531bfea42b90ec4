"""Shows a builder's line with the quotes or the blank that it lacks."""

from labelgen.places import Place
from labelgen.problems import Problem
from labelgen.reading.node_tree import Mend
from labelgen.reading.source_text import Draft

LONGEST_SHOWN = 120
Insertions = tuple[tuple[int, str], ...]


def quotes_around(draft: Draft, start: int, end: int) -> Insertions:
    """The characters that put a stretch of the draft in quotes, at places of the source text."""
    text = draft.text[start:end]
    quote = "'" if '"' in text or "\\" in text else '"'
    doubled = [index for index, character in enumerate(text, start) if quote == "'" and character == "'"]
    places = [(start, quote), *((index, quote) for index in doubled), (end, quote)]
    return tuple((draft.original(index), character) for index, character in places)


def shown_with(draft: Draft, inserted: Insertions) -> str:
    """The source line of the first insertion, with the insertions made; of a long line, what stands around them."""
    source = draft.source
    inserted = tuple(sorted(inserted, key=lambda one: one[0]))
    start, end = source.bounds(source.line_of(inserted[0][0]))
    first, last = start, end
    if end - start > LONGEST_SHOWN * 2:
        first = max(start, inserted[0][0] - LONGEST_SHOWN // 2)
        last = min(end, max(inserted[-1][0], first + LONGEST_SHOWN), first + LONGEST_SHOWN * 2)
    parts, done = [], first
    for at, character in inserted:
        if at <= last:
            parts += [source.text[done:at], character]
            done = at
    shown = "".join((*parts, source.text[done:last])).strip()
    return shown if inserted[-1][0] <= last else f"{shown} …"


def lacks_quotes(draft: Draft, start: int, end: int, *, message: str, at: Place, code: str = "needs-quotes") -> Mend:
    """A mistake that goes away when the stretch of the draft is put in quotes."""
    inserted = quotes_around(draft, start, end)
    hint = f"Put quotes around it: {shown_with(draft, inserted)}"
    return Mend(problem=Problem(code=code, message=message, hint=hint, place=at), inserted=inserted)


def lacks_colon(draft: Draft, start: int, end: int, bracket: int) -> Mend:
    """`P4 {name: x}`: the key's stretch, and where the bracket opens behind it, in the draft."""
    missing = ":" if bracket > end else ": "
    inserted = tuple((draft.original(end), character) for character in missing)
    problem = Problem(
        code="bad-yaml",
        message=f"a colon is missing after {draft.text[start:end]}",
        hint=f"Write: {shown_with(draft, inserted)}",
        place=draft.place(start, bracket + 1),
    )
    return Mend(problem=problem, inserted=inserted)


def lacks_blank(draft: Draft, start: int, colon: int) -> Mend:
    """`lever:1`: `start` is where the key starts, `colon` the place of its colon, both in the draft."""
    inserted = ((draft.original(colon + 1), " "),)
    key = draft.text[start:colon]
    problem = Problem(
        code="missing-space",
        message=f"a blank is missing behind the colon of `{key}:`",
        hint=f"Write: {shown_with(draft, inserted)}",
        place=draft.place(start, colon + 2),
    )
    return Mend(problem=problem, inserted=inserted)
