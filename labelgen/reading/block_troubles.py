"""What can be wrong with whole lines: how far they are set in, a colon too many or none, a dash too many or none."""

import re

from labelgen.reading.node_tree import Mend
from labelgen.reading.quoting import lacks_quotes
from labelgen.reading.trouble_scene import LONGEST_KEY, Scene


def second_colon(scene: Scene) -> Mend | None:
    """`name: Harbour: platform 1`, or a line that is set in further than its neighbours."""
    if "mapping values are not" not in scene.trouble.what:
        return None
    value = scene.value_on_line()
    if value is not None and value[0] < scene.at:
        at = scene.draft.place(scene.at, scene.at + 2)
        return lacks_quotes(scene.draft, *value, message="a text with a colon and a blank in it needs quotes", at=at)
    if len(scene.before) > LONGEST_KEY:
        return scene.problem("bad-yaml", "this key is too long", f"A key may have {LONGEST_KEY} characters.")
    above = scene.previous_line()
    if above is not None and ":" not in scene.draft.text[slice(*above)]:
        return _no_colon(scene, *above)
    return _set_in(scene)


def _set_in(scene: Scene) -> Mend:
    blanks = len(scene.line) - len(scene.line.lstrip())
    line = scene.draft.text[slice(*(scene.previous_line() or (0, 0)))]
    hint = (
        "Set it in by exactly as many blanks as the lines that it belongs with. "
        f"The line above is set in by {len(line) - len(line.lstrip())}."
    )
    start = scene.line_start + blanks
    message = f"this line is set in by {blanks} blank{'' if blanks == 1 else 's'}, which fits nothing above it"
    return scene.problem("bad-indentation", message, hint, (start, scene.line_end))


def line_without_colon(scene: Scene) -> Mend | None:
    if "could not find expected ':'" not in scene.trouble.what:
        return None
    start = scene.trouble.around_index
    end = scene.draft.text.find("\n", start)
    return _no_colon(scene, start, len(scene.draft.text) if end < 0 else end)


def _no_colon(scene: Scene, start: int, end: int) -> Mend:
    start += len(scene.draft.text[start:end]) - len(scene.draft.text[start:end].lstrip())
    return scene.problem("bad-yaml", "this line has no colon behind its key", "Write `key: value`.", (start, end))


def wrong_block(scene: Scene) -> Mend | None:
    """A line whose indentation, or whose dash, fits nothing above it."""
    what = scene.trouble.what
    if not scene.starts_line or not re.search("expected key|'-' indicator|entries are not|<document start>", what):
        return None
    blanks = len(scene.before)
    opened = scene.trouble.around_index
    column = opened - scene.draft.text.rfind("\n", 0, opened) - 1
    above = scene.previous_line() or (0, 0)
    closed = scene.draft.text.lstrip()[:1] in ("{", "[") or scene.draft.text[slice(*above)].strip() == "..."
    if "document start" in what and closed:
        return scene.problem("bad-yaml", "the description ends before this line", "See what closes it above.")
    if scene.sign == ":":
        return scene.problem("bad-yaml", "a key is missing before this colon", "Write `key: value`.")
    if "indicator" in what and blanks == column:
        message = "this line stands in a list, and has no dash"
        return scene.problem("bad-yaml", message, "Start it with `- `, or set it in under the item it belongs to.")
    if scene.sign == "-" and blanks == column:
        message = "a list item stands among lines of the form `key: value`"
        return scene.problem("bad-yaml", message, "Give it a key, or take the dash away.")
    return _set_in(scene)
