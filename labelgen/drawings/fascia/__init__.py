"""The face of a panel at 1:1, and its layers for a cutter."""
