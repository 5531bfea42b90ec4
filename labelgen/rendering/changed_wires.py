"""What came, went and moved since the as-built record was last written, for programs."""

import json

from labelgen.model.built.built_record import BuiltWire
from labelgen.model.built.record_changes import Changes


def changes_json(changes: Changes) -> str:
    """`{"came": [wire], "went": [wire], "moved": [{"what", "was", "now"}]}`, ends without side."""
    table = {
        "came": [_record(wire) for wire in changes.came],
        "went": [_record(wire) for wire in changes.went],
        "moved": [{"what": move.what, "was": move.was, "now": move.now} for move in changes.moved],
    }
    return json.dumps(table, ensure_ascii=False, indent=2) + "\n"


def _record(wire: BuiltWire) -> dict[str, object]:
    return {
        "number": wire.number,
        "circuit": wire.circuit,
        "function": wire.function,
        "head": wire.head,
        "from": wire.start,
        "to": wire.finish,
    }
