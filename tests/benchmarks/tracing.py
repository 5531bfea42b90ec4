"""How well the fault finder finds: `python tests/benchmarks/tracing.py [EVERY [PAIRS]]`.

Every class of single faults, and pairs, on the example and on a generated railway of 60 points. What works and what a
meter reads is judged by networkx. `bound`: the binary logarithm of the places that the symptoms left. EVERY: of so many
faults one is tried (1: all). PAIRS: how many pairs are tried on each railway.
"""

import math
import random
import sys
import tempfile
from collections import defaultdict
from pathlib import Path
from statistics import mean

sys.path.insert(0, str(Path(__file__).parents[1]))
sys.path.insert(0, str(Path(__file__).parents[1] / "tracing"))

import generated_railways
from broken_railway import Wrong
from test_finder import EXAMPLE, checked, every_fault_of, first_is, hunts, is_named, pair_hunts

from labelgen.making import Checked

PAIRS = 200
POINTS, POINTS_A_BOARD = 60, 30


def singles(railway_: Checked, faults: list[Wrong]) -> None:
    rows: dict[str, list[tuple[bool, int, float]]] = defaultdict(list)
    for wrong, first, last, count in hunts(railway_, faults):
        named = is_named(wrong, first) and is_named(wrong, last)
        rows[wrong.kind].append((named, count, math.log2(len(first.places))))
        if not named:
            print(f"not named: {wrong}", flush=True)
    print("fault           faults   named  measurements  bound  over it: mean   most")
    every = [one for row in rows.values() for one in row]
    for kind, row in [*sorted(rows.items()), ("all", every)]:
        named, counts, bounds = zip(*row, strict=True)
        over = [count - bound for count, bound in zip(counts, bounds, strict=True)]
        means = f"{mean(counts):12.2f}  {mean(bounds):5.2f}  {mean(over):13.2f}  {max(over):5.2f}"
        print(f"{kind:15} {len(row):6}  {mean(named):6.1%}  {means}", flush=True)


def pairs(railway_: Checked, faults: list[Wrong], number: int) -> None:
    draw = random.Random(7)
    tried = (tuple(draw.sample(faults, 2)) for _ in range(number))
    right = []
    for pair, last in pair_hunts(railway_, tried):
        right.append(any(first_is(wrong, last) for wrong in pair))
        if not right[-1]:
            print(f"first named is neither: {pair}", flush=True)
    print(f"of {len(right)} pairs of faults, the first named is one of them in {mean(right):.1%}\n", flush=True)


def main() -> None:
    every, number = (int(given) for given in (*sys.argv[1:], "1", str(PAIRS))[:2])
    generated_railways.POINTS_A_BOARD = POINTS_A_BOARD
    with tempfile.TemporaryDirectory() as folder:
        generated = Path(folder) / "generated.yaml"
        generated.write_text(generated_railways.railway(POINTS))
        for path in (EXAMPLE, generated):
            found = checked(path)
            faults = every_fault_of(found)
            print(f"{found.netlist.railway}: {len(found.netlist.wires)} wires, {len(faults)} faults", flush=True)
            singles(found, faults[::every])
            pairs(found, faults, number)


if __name__ == "__main__":
    main()
