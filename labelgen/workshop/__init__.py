"""Pure formulas on numbers for the work bench: bundles of wires, cuts from reels. Any stage may use them."""
