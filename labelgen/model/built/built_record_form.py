"""The form of the as-built record's text: what its writer and its reader must agree on.

It is plain YAML, one thing a line, in a form so strict that a line is JSON once its bare words stand in quotes. So a
record of 20 000 devices is read in a moment, and a checksum tells whether it is still as it was written.
"""

import json
import re
from hashlib import sha256
from typing import Any

FORMAT = 3
HEADER = """\
# The as-built record of this railway: which way, number and plug pin everything has, so that
# nothing that is stuck on or screwed down moves when something is added. labelgen writes it.
# Keep it beside the description, under version control with it, and never edit it by hand.
"""
SECTIONS = {
    1: ("groups", "spare", "wires", "pins", "retired", "made", "printed"),
    2: ("groups", "spare", "wires", "pins", "spare_pins", "matrices", "routes", "retired", "made", "printed"),
    3: (
        "groups", "spare", "wires", "pins", "spare_pins", "matrices", "routes", "retired",
        "made", "made_labels", "made_sheets", "sheets", "printed",
    ),
}  # fmt: skip
"""Of each format that can be read. What a record of the first does not tell is found as it was then: by order; labels
of the second have no fingerprint, and count as unchanged.
"""

_BARE = re.compile(r"[A-Za-z_][A-Za-z0-9_./-]*", re.ASCII)
_MEANS_SOMETHING = frozenset({"y", "n", "yes", "no", "on", "off", "true", "false", "null"})
"""Words that YAML readers do not take for texts."""
_TOKEN = re.compile(rf'"(?:[^"\\]|\\.)*"|({_BARE.pattern})', re.ASCII)


def written(value: Any) -> str:
    """A value in one line of YAML: whole numbers, texts, lists and sets of keys."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{written(key)}: {written(one)}" for key, one in value.items()) + "}"
    if isinstance(value, (list, tuple)):
        return "[" + ", ".join(written(one) for one in value) + "]"
    return str(value) if isinstance(value, int) else _text(value)


def _text(text: str) -> str:
    if _BARE.fullmatch(text) and text.lower() not in _MEANS_SOMETHING:
        return text
    # JSON's quotes and escapes are YAML's as well, but for the pairs by which JSON writes what is beyond U+FFFF.
    quoted = json.dumps(text, ensure_ascii=False)
    return "".join(c if c.isprintable() or c > "\uffff" else json.dumps(c)[1:-1] for c in quoted)


def read_back(text: str) -> Any:
    """The value that `written` wrote. ValueError when it did not."""
    try:
        return json.loads(_TOKEN.sub(lambda found: f'"{found[1]}"' if found[1] else found[0], text))
    except RecursionError as error:
        raise ValueError("brackets within brackets without end") from error


def checksum(body: str) -> str:
    """Of all that stands behind the checksum's own line."""
    return sha256(body.encode("utf-8", "surrogatepass")).hexdigest()
