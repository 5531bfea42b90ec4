"""How long the electrical figures take, by the railway's size: `python tests/benchmarks/figuring.py`.

Two throws a point, the advice for the weakest of them, and every check that reads figures. Each railway is figured
several times, and the quickest counts. Not a test.
"""

import gc
import sys
from pathlib import Path
from time import process_time

sys.path.insert(0, str(Path(__file__).parents[1]))

from generated_railways import railway

from labelgen.checks.check_list import check_figures
from labelgen.figuring.figures import figures_of
from labelgen.reading.data_readers import built_in_kinds
from labelgen.reading.description_reader import read_description_text
from labelgen.wiring.expansion import expand

SIZES = (50, 500, 5000)
ROUNDS = 3


def main() -> None:
    gc.set_threshold(100_000)  # as the command line does
    kinds = built_in_kinds()
    print("points   wires  throws  figures  checks")
    for points in SIZES:
        description, _ = read_description_text(railway(points))
        assert description is not None
        netlist, _ = expand(description, kinds)
        figured = checked = float("inf")
        for _ in range(ROUNDS):
            begun = process_time()
            figures = figures_of(description, netlist)
            figured = min(figured, process_time() - begun)
            begun = process_time()
            check_figures(description, netlist, figures)
            checked = min(checked, process_time() - begun)
        print(f"{points:6} {len(netlist.wires):7} {len(figures.throws):7} {figured:8.2f} {checked:7.2f}")


if __name__ == "__main__":
    main()
