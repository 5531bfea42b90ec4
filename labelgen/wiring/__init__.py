"""Description to Netlist: which way each circuit takes, and every wire with its two ends."""
