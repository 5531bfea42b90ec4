"""What may be wrong, from what each fault spoils: how likely it is, and how likely a reading is to be as it should."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from labelgen.tracing.evidence import Measure
from labelgen.tracing.faults import Fault


@dataclass(frozen=True, slots=True)
class Guesses:
    """What may be wrong: one fault or two at once, each by what it spoils."""

    by_mask: dict[int, list[Fault]]
    pairs: tuple[tuple[int, ...], ...]
    """Masks of faults that together explain what is known: one, or two."""
    together: int

    @classmethod
    def explaining(cls, masks: dict[Fault, int], wrong: int) -> "Guesses":
        by_mask: dict[int, list[Fault]] = defaultdict(list)
        for fault, mask in masks.items():
            by_mask[mask].append(fault)
        if wrong in by_mask:
            return cls({wrong: by_mask[wrong]}, ((wrong,),), 1)
        ordered = sorted(by_mask)
        pairs = tuple((a, b) for i, a in enumerate(ordered) for b in ordered[i + 1 :] if a | b == wrong)
        if pairs:
            return cls(by_mask, pairs, 2)
        most = max((mask.bit_count() for mask in ordered), default=0)
        return cls(by_mask, tuple((mask,) for mask in ordered if mask.bit_count() == most), 0)

    def likelihoods(self) -> dict[Fault, float]:
        weight = {mask: sum(fault.weight for fault in faults) for mask, faults in self.by_mask.items()}
        share: dict[int, float] = defaultdict(float)
        total = 0.0
        for pair in self.pairs:
            product = _product(weight[mask] for mask in pair)
            total += product
            for mask in pair:
                share[mask] += product
        return {
            fault: share[mask] / total * fault.weight / weight[mask] for mask in share for fault in self.by_mask[mask]
        }

    def chance_of_right(self, measure: Measure) -> float:
        """How likely a measurement reads as it should."""
        weight: dict[int, float] = {}
        right: dict[int, float] = {}
        for mask in {mask for pair in self.pairs for mask in pair}:
            weight[mask] = sum(fault.weight for fault in self.by_mask[mask])
            right[mask] = sum(fault.weight for fault in self.by_mask[mask] if not measure.spoiled_by(fault))
        total = sum(_product(weight[mask] for mask in pair) for pair in self.pairs)
        return sum(_product(right[mask] for mask in pair) for pair in self.pairs) / total if total else 1.0


def _product(numbers: Iterable[float]) -> float:
    result = 1.0
    for number in numbers:
        result *= number
    return result
