"""Netlist to Drawing: device-free shapes in millimetres, sized and placed for good."""
