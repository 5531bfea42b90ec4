"""Netlist and what works or does not, to where the fault is and what to measure next."""
