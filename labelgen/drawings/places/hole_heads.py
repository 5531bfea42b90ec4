"""What goes through a hole, as briefly as its label needs: head by head, lever by lever, or in runs of levers."""

from collections import Counter
from collections.abc import Iterator, Sequence

from labelgen.model.netlist import Wire
from labelgen.natural_order import natural


def forms(wires: Sequence[Wire]) -> Iterator[list[str]]:
    """The same wires in ever fewer words: `5N 5F 5R 6N 6F 6R`, `5NFR 6NFR`, `5–6NFR`, `6 wires, see the cut list`."""
    yield heads(wires)
    grouped = _by_stem(wires)
    yield [f"{stem}{codes}" for stem, codes in grouped]
    yield _runs(grouped)
    yield [f"{len(wires)} wires,", "see the cut list"]


def heads(wires: Sequence[Wire]) -> list[str]:
    """In the order of the wires; one that several wires have is said once, with how many."""
    counts = Counter(f"{wire.stem}{wire.code}{wire.mark}" for wire in wires)
    return [head if count == 1 else f"{head}×{count}" for head, count in counts.items()]


def _by_stem(wires: Sequence[Wire]) -> list[tuple[str, str]]:
    """In natural order: what a circuit is called, and the ends of its heads, each once."""
    ends: dict[str, dict[str, None]] = {}
    for wire in wires:
        ends.setdefault(wire.stem, {})[f"{wire.code}{wire.mark}"] = None
    return [(stem, "".join(ends[stem])) for stem in sorted(ends, key=natural)]


def _runs(grouped: Sequence[tuple[str, str]]) -> list[str]:
    """Numbers one after the other with the same ends are one run."""
    runs: list[tuple[str, str, str]] = []
    for stem, codes in grouped:
        first, last, same = runs[-1] if runs else ("", "", "")
        if runs and codes == same and stem.isdecimal() and last.isdecimal() and int(stem) == int(last) + 1:
            runs[-1] = (first, stem, codes)
        else:
            runs.append((stem, stem, codes))
    return [f"{first}{codes}" if first == last else f"{first}–{last}{codes}" for first, last, codes in runs]
