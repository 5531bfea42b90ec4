"""Turns what the YAML library cannot read into a problem in plain words, and mends it where the meaning is clear.

The library's own words are matched here and never shown. An unknown one still gives a bad-yaml at its place.
"""

import re
from collections.abc import Callable

from labelgen.reading.block_troubles import line_without_colon, second_colon, wrong_block
from labelgen.reading.bracket_troubles import bracket_without_partner, in_brackets
from labelgen.reading.node_tree import Mend, Trouble
from labelgen.reading.quoting import lacks_blank, lacks_quotes
from labelgen.reading.silent_changes import KEY_COLON
from labelgen.reading.source_text import Draft
from labelgen.reading.trouble_scene import Scene, quoted_value, too_deep


def explain(draft: Draft, trouble: Trouble) -> Mend:
    """What is wrong, in the builder's words."""
    scene = Scene(draft, trouble)
    for explainer in EXPLAINERS:
        mend = explainer(scene)
        if mend is not None:
            return mend
    return scene.problem(
        "bad-yaml", "the file cannot be understood from here on", "Compare this line and the one above with others."
    )


def _too_deep(scene: Scene) -> Mend | None:
    if "nesting depth" not in scene.trouble.what:
        return None
    return too_deep(scene.draft, scene.at)


def _missing_space(scene: Scene) -> Mend | None:
    """A line `lever:1`, here or just above, that was taken for a text."""
    if not re.search("find expected ':'|mapping values|expected key", scene.trouble.what):
        return None
    starts = [scene.line_start, (scene.previous_line() or (scene.line_start, 0))[0]]
    if "simple key" in scene.trouble.around:
        starts.insert(0, scene.draft.text.rfind("\n", 0, scene.trouble.around_index) + 1)
    for start in starts:
        key = re.compile(r"[ \t]*(?:- +)*").match(scene.draft.text, start)
        found = KEY_COLON.match(scene.draft.text, key.end()) if key else None
        if found is not None:
            return lacks_blank(scene.draft, found.start(), found.end("key"))
    return None


def _tag_or_anchor(scene: Scene) -> Mend | None:
    words = f"{scene.trouble.around} {scene.trouble.what}"
    if re.search(r"\ban? (alias|anchor)\b", words):
        message = f"a value cannot begin with {scene.draft.text[scene.trouble.around_index]} without quotes"
        return quoted_value(scene, message, scene.trouble.around_index)
    if re.search(r"\btag\b", words):
        message = "a value cannot begin with ! without quotes"
        return scene.problem("yaml-tag", message, 'Leave the ! out, or put quotes around the text: "!…".')
    return None


def _cannot_start(scene: Scene) -> Mend | None:
    if "cannot start any token" in scene.trouble.what and scene.sign != "\t":
        return quoted_value(scene, f"a value cannot begin with {scene.sign} without quotes", scene.at)
    if "expected comment or line break" in scene.trouble.what:
        sign = scene.draft.text[scene.trouble.around_index]
        return quoted_value(scene, f"a value cannot begin with {sign} without quotes", scene.trouble.around_index)
    if re.search("sequence entries are not|mapping keys are not", scene.trouble.what) and not scene.starts_line:
        return quoted_value(scene, f"a value cannot begin with {scene.sign} without quotes", scene.at)
    return None


def _order_line(scene: Scene) -> Mend | None:
    if "directive" not in f"{scene.trouble.around} {scene.trouble.what}" and "incompatible" not in scene.trouble.what:
        return None
    return scene.problem("bad-yaml", "a line cannot begin with %", "Take this line away.")


def _tab(scene: Scene) -> Mend | None:
    if scene.sign != "\t" and "tab" not in scene.trouble.what:
        return None
    return scene.problem("tab", "a tab stands where only blanks can", "Use the space bar.")


def _quotation(scene: Scene) -> Mend | None:
    if "quoted scalar" not in scene.trouble.around:
        return None
    opened = scene.trouble.around_index
    if "unexpected" in scene.trouble.what:
        return _never_closed(scene, opened)
    message = "in double quotes, \\ has a meaning of its own, and not with what follows here"
    hint = "Write \\\\ for a single \\, or put the text in single quotes."
    return scene.problem("bad-yaml", message, hint, (scene.at, scene.at + 2))


def _never_closed(scene: Scene, opened: int) -> Mend:
    quote = scene.draft.text[opened]
    hint = f"Put a {quote} where the text ends."
    end = scene.draft.text.find("\n", opened)
    message = f"the {quote} that is opened here is not closed on its line"
    return scene.problem("bad-yaml", message, hint, (opened, end if end > 0 else opened + 1))


def _behind_brackets(scene: Scene) -> Mend | None:
    """`[north] end`: a text that begins with a bracket."""
    value = scene.value_on_line()
    if value is None or not value[0] < scene.at < value[1] or scene.draft.text[value[0]] not in "[{":
        return None
    message = "the text goes on behind the closing bracket"
    return lacks_quotes(scene.draft, *value, message=message, at=scene.draft.place(scene.at, value[1]))


def _behind_quotes(scene: Scene) -> Mend | None:
    """Text behind a closing quotation mark, or a mark that was closed by the opening one of another text."""
    last = scene.trouble.last
    if last is None or not last.quoted or last.end > scene.at or last.end < scene.line_start or scene.starts_line:
        return None
    if last.start < scene.line_start:
        return _never_closed(scene, last.start)
    value = scene.value_on_line()
    if value is None or value[0] != last.start:
        return None
    shown = scene.draft.text[slice(*value)]
    whole = shown[:1] == shown[-1:] and len(shown) > 1
    inner = shown[1:-1] if whole else shown
    quoted = f'"{inner}"' if '"' not in inner and "\\" not in inner else "'" + inner.replace("'", "''") + "'"
    message = "the text goes on behind the closing quotation mark"
    hint = f"Put all of it in quotes: {scene.draft.text[scene.line_start : value[0]].strip()} {quoted}"
    return scene.problem("needs-quotes", message, hint, (scene.at, value[1]))


EXPLAINERS: tuple[Callable[[Scene], Mend | None], ...] = (
    _too_deep,
    _missing_space,
    _tag_or_anchor,
    _cannot_start,
    _order_line,
    _tab,
    _quotation,
    second_colon,
    in_brackets,
    bracket_without_partner,
    _behind_quotes,
    _behind_brackets,
    line_without_colon,
    wrong_block,
)
"""In the order in which they are asked; the first that knows the trouble explains it."""
