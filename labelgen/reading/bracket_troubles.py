"""What can be wrong inside brackets: a colon in a text, a comma that is missing, a bracket without its partner."""

import re
from dataclasses import replace

from labelgen.reading.node_tree import Mend
from labelgen.reading.quoting import lacks_colon
from labelgen.reading.trouble_scene import Scene, quoted_value


def in_brackets(scene: Scene) -> Mend | None:
    """In brackets: a text with a colon in it, a bracket that is never closed, a comma that is missing."""
    if not re.search("flow (mapping|sequence)", scene.trouble.around):
        return None
    if scene.sign == ":":
        mend = _colon_in_brackets(scene)
        if mend is not None:
            return mend
    last = scene.trouble.last
    if last is not None and last.quoted and last.end == scene.at and scene.sign not in "]}":
        message = "the text goes on behind the closing quotation mark"
        hint = """If it has one kind of quotation mark in it, put the other around it: "it's"."""
        return scene.problem("needs-quotes", message, hint)
    opened = scene.trouble.around_index
    if scene.sign in "{[" and "flow mapping" in scene.trouble.around:
        key = re.compile(r"[\w-]+[ \t]*$").search(scene.before)
        if key is not None:
            start = scene.line_start + key.start()
            return lacks_colon(scene.draft, start, start + len(key[0].rstrip()), scene.at)
    if opened >= scene.line_start and scene.trouble.index < scene.line_end and scene.sign not in "]}":
        return scene.problem("bad-yaml", "a comma is missing before this", "Put a comma between the two.")
    return _unclosed(scene, opened)


def _colon_in_brackets(scene: Scene) -> Mend | None:
    """`{name: Harbour: east}`, which may also be two keys without their comma: `{ways: 12 amps: 5}`."""
    start = max(scene.draft.text.rfind(sign, scene.line_start, scene.at) for sign in ",[{") + 1
    first = re.compile(r"[^:\n]*:[ \t]+").match(scene.draft.text, start, scene.at)
    if first is None or not start:
        return None
    at = scene.draft.place(scene.at, scene.at + 2)
    mend = quoted_value(scene, "a text with a colon and a blank in it needs quotes", first.end(), at)
    words = scene.draft.text[first.end() : scene.at].split()
    if len(words) < 2:
        return mend
    hint = f"{mend.problem.hint} Or, if `{words[-1]}` is a key, put a comma before it."
    return Mend(problem=replace(mend.problem, hint=hint), inserted=mend.inserted)


def _unclosed(scene: Scene, opened: int) -> Mend:
    sign = scene.draft.text[opened]
    pair = "]" if sign == "[" else "}"
    message, hint = f"the bracket {sign} that is opened here is not closed", f"Put a {pair} where it ends."
    if opened < scene.line_start and scene.before.strip():
        line = scene.draft.source.line_of(scene.draft.original(scene.at)) + 1
        message, hint = (
            f"{message} before line {line}",
            f"{hint} Or, if it goes on there, put a comma before that line.",
        )
    return scene.problem("bad-yaml", message, hint, (opened, opened + 1))


def bracket_without_partner(scene: Scene) -> Mend | None:
    if "expected node content" not in scene.trouble.what:
        return None
    if scene.sign == ":":
        return scene.problem("bad-yaml", "a key is missing before this colon", "Write `key: value`.")
    if scene.sign not in "]},":
        return scene.problem("bad-yaml", "a bracket above is not closed before this", "Close it where it ends.")
    if scene.sign == ",":
        return scene.problem("bad-yaml", "a comma stands here without anything before it", "Take it away.")
    return scene.problem("bad-yaml", f"nothing is opened that {scene.sign} could close", "Take it away.")
