"""The track diagram of a panel as a graph, and what stands on it."""
