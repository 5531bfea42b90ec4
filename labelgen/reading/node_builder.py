"""Makes values and their places of the pieces that the YAML library finds, and refuses what a description may not use.

Keeps its own stack, so that no depth of nesting can exhaust Python's.
"""

from typing import Any

from labelgen.problems import Problem
from labelgen.reading.file_text import ODD
from labelgen.reading.node_tree import Composed, Mend, NodeTree, Scalar
from labelgen.reading.silent_changes import HASH, folded_line, key_without_blank, key_without_colon
from labelgen.reading.source_text import Draft
from labelgen.reading.trouble_scene import too_deep

DEEPEST = 100
REPORTED_AT_MOST = 100

_LEFT_OUT = object()
"""Stands for a key that cannot be one."""


class Frame:
    """A collection that is being read."""

    __slots__ = ("in_brackets", "key", "key_node", "node", "places", "value")

    def __init__(self, node: int, value: Any, places: Any, *, in_brackets: bool) -> None:
        self.node = node
        self.value = value
        self.places = places
        self.in_brackets = in_brackets
        self.key: Any = None
        self.key_node = 0


class NodeBuilder:
    """One pass over a draft. All indices are the draft's.

    Reports alias, yaml-tag, merge-key, repeated-key, nested-too-deep, odd-character, missing-space, bad-indentation,
    bad-yaml and file-too-large.
    """

    def __init__(self, draft: Draft) -> None:
        self.draft = draft
        self.tree = NodeTree(draft)
        self.found = Composed(tree=self.tree)
        self.last: Scalar | None = None
        self.stopped = False
        self._frames: list[Frame] = []
        self._documents = 0
        self._watching = HASH.search(draft.text) is not None

    def scalar(self, text: str, start: int, end: int, style: str) -> None:
        """A single text; `style` is its quotation mark or block sign, empty for a plain one."""
        node = self.tree.add(start, end)
        if style or self._watching:
            self._remember(start, end, quoted=bool(style))
        value: str | None = text
        if not style and (not text or ":" in text or len(text) != end - start):
            value = self._plain(text, start, end)
        elif style == '"' and ODD.search(text):
            message = "this text holds a character that cannot be seen"
            self._problem("odd-character", message, "Take out the \\ and what follows it.", node)
        self._attach(value, node)

    def open(self, value: Any, start: int, end: int, *, in_brackets: bool) -> None:
        """A list or a set of keys begins; `value` is the empty one."""
        node = self.tree.add(start, end)
        if len(self._frames) >= DEEPEST:
            self._report(too_deep(self.draft, start).problem)
            self._give_up()
        places: Any = type(value)()
        (self.tree.keys if isinstance(value, dict) else self.tree.items)[node] = places
        self._frames.append(Frame(node, value, places, in_brackets=in_brackets))

    def close(self, end: int) -> None:
        frame = self._frames.pop()
        self.tree.ends[frame.node] = end
        if self._watching and frame.in_brackets:
            self.found.closed.add(end)
        self._attach(frame.value, frame.node)

    def alias(self, name: str, start: int, end: int) -> None:
        self._refuse_sign(f"*{name}", start, end)
        self.found.whole = False
        self._attach("", self.tree.add(start, end))

    def document(self, start: int) -> None:
        self._documents += 1
        if self._documents > 1:
            message = "a second description starts here"
            hint = "Keep one description in a file: take the `---` away, or move the rest to a file of its own."
            place = self.draft.place(start, start + 3)
            self._report(Problem(code="bad-yaml", message=message, hint=hint, place=place))
            self._give_up()

    def too_much(self) -> None:
        message = "the file holds more than 600 000 values and brackets"
        self._problem("file-too-large", message, "See whether it is the right file.", len(self.tree.starts) - 1)
        self._give_up()

    def _remember(self, start: int, end: int, *, quoted: bool) -> None:
        in_brackets = bool(self._frames) and self._frames[-1].in_brackets
        self.last = Scalar(start, end, quoted, in_brackets)
        if self._watching and start < end:
            self.found.scalars.append(self.last)

    def _plain(self, text: str, start: int, end: int) -> str | None:
        """A plain text that may not be what it seems: empty, with a colon in it, or over many lines."""
        if not text:
            return None
        frame = self._frames[-1] if self._frames else None
        scalar = Scalar(start, end, quoted=False, in_brackets=frame is not None and frame.in_brackets)
        is_key = frame is not None and isinstance(frame.value, dict) and frame.key is None
        if not scalar.in_brackets and self._mend(key_without_blank(self.draft, scalar, is_key=is_key)):
            return text
        folded = folded_line(self.draft, scalar)
        if folded is not None:
            self._folded(*folded)
        return text

    def _folded(self, code: str, start: int, end: int) -> None:
        message = "this line is taken as part of the text above it"
        hint = "Set it in like the lines it belongs with, and put a blank behind its colon; or put the text in quotes."
        self._report(Problem(code=code, message=message, hint=hint, place=self.draft.place(start, end)))

    def _attach(self, value: Any, node: int) -> None:
        if not self._frames:
            self.found.value = value
            return
        frame = self._frames[-1]
        if isinstance(frame.value, list):
            frame.value.append(value)
            frame.places.append(node)
        elif frame.key is None:
            frame.key, frame.key_node = self._key(frame, value, node), node
        else:
            self._member(frame, value, node)

    def _member(self, frame: Frame, value: Any, node: int) -> None:
        key, frame.key = frame.key, None
        if key is _LEFT_OUT:
            return
        if value is None and frame.in_brackets and ":" in key:
            # `{lever:1}` is one long key without a value.
            start, end = self.tree.starts[frame.key_node], self.tree.ends[frame.key_node]
            self._mend(key_without_blank(self.draft, Scalar(start, end, quoted=False, in_brackets=True)))
        frame.value[key] = value
        frame.places[key] = (frame.key_node, node)

    def _key(self, frame: Frame, value: Any, node: int) -> Any:
        """The key, or a sign that it is none."""
        if not isinstance(value, str):
            self._problem("bad-yaml", "a key is missing here, or is not a single text", "Write `key: value`.", node)
        elif value == "<<" and self.draft.text[self.tree.starts[node]] == "<":
            hint = "Write the keys out, or give the board or a kind of your own what its devices share."
            self._problem("merge-key", "`<<` cannot be used to copy keys", hint, node)
            self.found.whole = False
        elif value in frame.value:
            first = self.tree.place(frame.places[value][0]).line
            hint = f"It is on line {first} already: join the two, or give one another name."
            self._problem("repeated-key", f"`{value}` is given twice", hint, node)
        else:
            if "{" in value or "[" in value:
                self._mend(key_without_colon(self.draft, self.tree.starts[node], self.tree.ends[node]))
            return value
        return _LEFT_OUT

    def refuse_properties(self, anchor: str | None, tag: str | None, start: int, end: int) -> None:
        """A name or a type that stands before a value."""
        if anchor is not None:
            self._refuse_sign(f"&{anchor}", start, end)
        if tag is not None:
            message = "a value cannot begin with ! without quotes"
            hint = 'If it belongs to the text, put quotes around all of it: "!…". If not, take it away.'
            self._report(Problem(code="yaml-tag", message=message, hint=hint, place=self.draft.place(start, end)))

    def _refuse_sign(self, sign: str, start: int, end: int) -> None:
        message = f"`{sign}` cannot be used to repeat a part of the file"
        hint = f'Write it out where it is needed. If it belongs to the text, put quotes around: "{sign}".'
        self._report(Problem(code="alias", message=message, hint=hint, place=self.draft.place(start, end)))

    def _mend(self, mend: Mend | None) -> bool:
        if mend is None:
            return False
        self.found.mends.append(mend)
        if len(self.found.mends) >= REPORTED_AT_MOST:
            self._give_up()
        return True

    def _problem(self, code: str, message: str, hint: str, node: int) -> None:
        self._report(Problem(code=code, message=message, hint=hint, place=self.tree.place(node)))

    def _report(self, problem: Problem) -> None:
        self.found.problems.append(problem)
        if len(self.found.problems) >= REPORTED_AT_MOST:
            self._give_up()

    def _give_up(self) -> None:
        self.stopped = True
        self.found.whole = False
