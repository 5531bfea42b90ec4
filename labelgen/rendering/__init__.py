"""Sheet and Netlist to files: paints what was decided, decides nothing."""
