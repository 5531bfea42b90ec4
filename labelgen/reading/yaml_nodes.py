"""Reads YAML into plain values that know where they stand. The only module that knows PyYAML.

The values are composed here from what the C loader finds, event by event, instead of by `yaml.compose`: that one
calls itself for every level of nesting, guesses at every scalar, and takes several times as long. So nothing is
guessed from its looks, no depth can exhaust the stack, and a `*` is refused before anything could multiply.
"""

import gc
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import yaml

from labelgen.places import Place
from labelgen.problems import Problem, in_file_order
from labelgen.reading.file_text import Read, read_bytes, read_file, read_text
from labelgen.reading.indentation_tabs import TABS_AT_MOST, without_tabs
from labelgen.reading.node_builder import NodeBuilder
from labelgen.reading.node_tree import Composed, Document, Mend, Trouble
from labelgen.reading.silent_changes import swallowed
from labelgen.reading.source_text import Draft, SourceText
from labelgen.reading.yaml_troubles import explain

MOST_EVENTS = 600_000
"""Texts and brackets of one file: enough for 20 000 devices with a dozen keys each."""
READ_AT_MOST = 3_000_000
"""Characters, over all the drafts of one file: a small file is mended and read again many times, a huge one hardly."""
MENDED_AT_MOST = 40
MENDS_TOLD_AT_MOST = 200

Result = tuple[Document | None, list[Problem]]


def read_yaml(path: Path) -> Result:
    """What a file says. None when it could not be read to its end as it was meant."""
    return _document(read_file(path))


def read_yaml_bytes(data: bytes, file: str) -> Result:
    """The same of a file that has been loaded."""
    return _document(read_bytes(data, file))


def read_yaml_text(text: str, file: str) -> Result:
    """The same of a text; `file` is what its problems call it."""
    return _document(read_text(text, file))


def _document(read: Read) -> Result:
    source, problems = read
    if source is None:
        return None, problems
    source, tabs = without_tabs(source)
    if len(tabs) >= TABS_AT_MOST:
        return None, in_file_order([*problems, *tabs])
    composed, found = _composed(source)
    if tabs and composed.trouble is not None:
        # How far a tab sets a line in, nobody knows: what follows from it is not the builder's mistake.
        return None, in_file_order([*problems, *tabs])
    found += _top_problems(composed) if composed.whole else []
    problems = in_file_order([*problems, *tabs, *found])
    if not composed.whole or not isinstance(composed.value, dict):
        return None, problems
    return Document(value=composed.value, places=composed.tree), problems


def _composed(source: SourceText) -> tuple[Composed, list[Problem]]:
    """Reads, mends what is clear, and reads again, so that one mistake does not hide the next."""
    draft = Draft(source)
    told: list[Problem] = []
    for _ in range(1 + min(MENDED_AT_MOST, READ_AT_MOST // (len(source.text) + 1))):
        composed = compose(draft)
        mends = [*composed.mends, *swallowed(draft, composed)]
        if not mends and composed.trouble is not None:
            mends = _explained(draft, composed, composed.trouble)
        told += [mend.problem for mend in mends]
        inserted = [one for mend in mends for one in mend.inserted]
        if not inserted or len(told) >= MENDS_TOLD_AT_MOST:
            composed.whole = composed.whole and not inserted
            break
        draft = draft.mended(inserted)
    else:
        composed.whole = False
    composed.whole = composed.whole and composed.trouble is None
    return composed, [*told, *composed.problems]


def _explained(draft: Draft, composed: Composed, trouble: Trouble) -> list[Mend]:
    """Nothing more where a `*` or `&` was refused on the same line: `*quay side` is one mistake, not two."""
    mend = explain(draft, trouble)
    refused = {problem.place.line for problem in composed.problems if problem.code == "alias"}
    return [] if mend.problem.place.line in refused else [mend]


def compose(draft: Draft) -> Composed:
    """One pass over a draft, as far as the library can read it."""
    builder = NodeBuilder(draft)
    loader = yaml.CBaseLoader(draft.text)
    with _keeping_everything():
        try:
            for _ in range(MOST_EVENTS):
                if builder.stopped or _take(builder, loader.get_event()):
                    break
            else:
                builder.too_much()
        except yaml.YAMLError as error:
            builder.found.trouble = _trouble(error, builder)
        finally:
            loader.dispose()
    return builder.found


@contextmanager
def _keeping_everything() -> Iterator[None]:
    """All that is made here is kept: looking for garbage among it again and again doubles the time."""
    enabled = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if enabled:
            gc.enable()


def _take(builder: NodeBuilder, event: Any) -> bool:
    """Hands one event to the builder; true at the end. Most are scalars, so that they are asked for first."""
    start, end = event.start_mark.index, event.end_mark.index
    match event:
        case yaml.ScalarEvent():
            if event.anchor is not None or event.tag is not None:
                builder.refuse_properties(event.anchor, event.tag, start, end)
            builder.scalar(event.value, start, end, event.style or "")
        case yaml.MappingStartEvent() | yaml.SequenceStartEvent():
            if event.anchor is not None or event.tag is not None:
                builder.refuse_properties(event.anchor, event.tag, start, end)
            value: Any = {} if isinstance(event, yaml.MappingStartEvent) else []
            builder.open(value, start, end, in_brackets=bool(event.flow_style))
        case yaml.MappingEndEvent() | yaml.SequenceEndEvent():
            builder.close(end)
        case yaml.AliasEvent():
            builder.alias(str(event.anchor), start, end)
        case yaml.DocumentStartEvent():
            builder.document(start)
    return isinstance(event, yaml.StreamEndEvent)


def _trouble(error: yaml.YAMLError, builder: NodeBuilder) -> Trouble:
    at, around = getattr(error, "problem_mark", None), getattr(error, "context_mark", None)
    return Trouble(
        what=getattr(error, "problem", None) or "",
        index=at.index if at is not None else 0,
        around=getattr(error, "context", None) or "",
        around_index=around.index if around is not None else 0,
        last=builder.last,
    )


def _top_problems(composed: Composed) -> list[Problem]:
    top = composed.value
    if isinstance(top, dict):
        return []
    file = composed.tree.draft.source.file
    if top is None:
        hint = "Start with a line such as `railway: Marram Quay`; `labelgen new` writes a whole description to fill in."
        message = "there is nothing in the file, or nothing but remarks"
        return [Problem(code="file-empty", message=message, hint=hint, place=Place(file=file))]
    what = "a list" if isinstance(top, list) else "one text"
    hint = "Start with a line such as `railway: Marram Quay`."
    message = f"the file holds {what}, and a description is lines of the form `key: value`"
    return [Problem(code="wrong-type", message=message, hint=hint, place=composed.tree.of_value(()))]
