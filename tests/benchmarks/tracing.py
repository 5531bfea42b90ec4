"""How well the fault finder finds: `python tests/benchmarks/tracing.py [EVERY]`.

Every class of single faults, and pairs, on the example and on a generated railway. What works and what a meter reads is
judged by networkx. `over the bound`: measurements that were needed, less the binary logarithm of the places that the
symptoms left. EVERY: of so many faults one is tried (1: all).
"""

import math
import random
import sys
import tempfile
from collections import defaultdict
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))
sys.path.insert(0, str(Path(__file__).parents[1] / "tracing"))

from broken_railway import Broken, Wrong, every_fault
from generated_railways import railway
from test_finder import EXAMPLE, checked, hunt, hunts, is_named, supplies, symptoms

from labelgen.making import Checked
from labelgen.pipeline import tracing_of

PAIRS = 100


def singles(railway_: Checked, faults: list[Wrong]) -> None:
    rows: dict[str, list[tuple[bool, float]]] = defaultdict(list)
    for wrong, first, last, count in hunts(railway_, faults):
        named = is_named(wrong, first) and is_named(wrong, last)
        rows[wrong.kind].append((named, count - math.log2(len(first.places))))
    print("fault            tried  named  over the bound: mean   most")
    every = [one for row in rows.values() for one in row]
    for kind, row in [*sorted(rows.items()), ("all", every)]:
        extra = [more for _, more in row]
        named = sum(found for found, _ in row) / len(row)
        print(f"{kind:15}  {len(row):5}  {named:5.0%}  {sum(extra) / len(extra):20.2f}  {max(extra):5.2f}")


def pairs(railway_: Checked, faults: list[Wrong], number: int) -> None:
    draw = random.Random(7)
    sound = Broken(railway_.netlist, supplies(railway_)).asked()
    right = total = 0
    for _ in range(number):
        pair = tuple(draw.sample(faults, 2))
        broken = Broken(railway_.netlist, supplies(railway_), pair)
        dead, good = symptoms(broken, railway_, sound)
        if dead:
            tracing = tracing_of(railway_)
            tracing.told(dead, good)
            last = hunt(tracing, broken)[1]
            named = last.places[0][1] if last.places else []
            total += 1
            right += any(f.kind == w.kind and set(f.ends) == set(w.ends) for f in named for w in pair)
    print(f"of {total} pairs of faults, the first named is one of them in {right / total:.0%}\n")


def main() -> None:
    every = int(sys.argv[1]) if len(sys.argv) > 1 else 1
    with tempfile.TemporaryDirectory() as folder:
        generated = Path(folder) / "generated.yaml"
        generated.write_text(railway(64))
        for path, step in ((EXAMPLE, every), (generated, every * 10)):
            found = checked(path)
            faults = list(every_fault(found.netlist, supplies(found)))
            print(f"{found.netlist.railway}: {len(found.netlist.wires)} wires, {len(faults)} faults")
            singles(found, faults[::step])
            pairs(found, faults, max(10, PAIRS // step))


if __name__ == "__main__":
    main()
