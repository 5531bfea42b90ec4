"""Rules over Description and Netlist, one function each."""
