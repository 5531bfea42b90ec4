"""How long the wiring takes, by the railway's size: `python tests/benchmarks/expansion.py`.

Says seconds of this run and, what can be compared between machines, ratios: seconds a wire against those of the
smallest railway. Each railway is expanded several times, and the quickest counts. Not a test.
"""

import sys
from pathlib import Path
from time import process_time

sys.path.insert(0, str(Path(__file__).parents[1]))

from generated_railways import railway

from labelgen.checks.check_list import check
from labelgen.reading.data_readers import built_in_kinds
from labelgen.reading.description_reader import read_description_text
from labelgen.wiring.expansion import expand

SIZES = (50, 500, 5000)
ROUNDS = 3


def main() -> None:
    kinds = built_in_kinds()
    print("points strips boards   wires    read  expand   check   µs a wire   against 50 points")
    for plugs in (False, True):
        first = 0.0
        for points in SIZES:
            text = railway(points, plugs=plugs)
            begun = process_time()
            description, _ = read_description_text(text)
            assert description is not None
            read = process_time() - begun
            expanded = checked = float("inf")
            for _ in range(ROUNDS):
                begun = process_time()
                netlist, problems = expand(description, kinds)
                expanded = min(expanded, process_time() - begun)
                begun = process_time()
                problems += check(description, netlist)
                checked = min(checked, process_time() - begun)
            assert not [problem for problem in problems if problem.severity == "error"], problems[:3]
            wires = len(netlist.wires)
            first = first or expanded / wires
            print(
                f"{points:6} {len(netlist.strips):6} {len(description.boards):6} {wires:7} {read:7.2f} {expanded:7.2f}"
                f" {checked:7.2f} {expanded / wires * 1e6:11.1f} {expanded / wires / first:19.2f}"
                f"{'   through plugs' if plugs else ''}"
            )


if __name__ == "__main__":
    main()
