"""What is painted on the terminals of one thing: each text must mean one terminal, for lists may name it."""

from collections.abc import Iterable, Iterator, Mapping

from labelgen.model.kinds import SUPPLY_TERMINALS
from labelgen.problems import Problem
from labelgen.reading.data_readers import built_in_kinds
from labelgen.reading.known_things import Known


def painted_terminals(known: Known) -> list[Problem]:
    """Reports repeated-id where two terminals of a device or supply read alike."""
    return [
        Problem(
            code="repeated-id",
            message=f"terminal {terminal} of {id_} is painted `{text}`, and so is {other}",
            hint="Write under `terminals:` what is painted on each of them: one text must mean one terminal.",
            place=known.description.place_of(table, id_, "terminals", terminal),
        )
        for table, id_, terminals, painted in _things(known)
        for terminal, text, other in _alike(terminals, painted)
    ]


def _things(known: Known) -> Iterator[tuple[str, str, Iterable[str], Mapping[str, str]]]:
    """Table, id, terminals, and what is painted on them."""
    description = known.description
    kinds = {**built_in_kinds(), **description.kinds}
    for id_, supply in description.supplies.items():
        yield "supplies", id_, SUPPLY_TERMINALS[supply.kind], supply.terminals
    for table in ("points", "devices"):
        for id_, device in getattr(description, table).items():
            if (kind := kinds.get(known.kind_of(device, table) or "")) is not None:
                yield table, id_, kind.terminals, device.terminals


def _alike(terminals: Iterable[str], painted: Mapping[str, str]) -> Iterator[tuple[str, str, str]]:
    """A painted terminal, what is painted on it, and another that reads the same."""
    seen = {terminal: terminal for terminal in terminals if terminal not in painted}
    for terminal, text in painted.items():
        if text in seen:
            yield terminal, text, seen[text]
        seen.setdefault(text, terminal)
