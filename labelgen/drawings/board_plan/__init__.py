"""The plan of a board, from below and from above."""
