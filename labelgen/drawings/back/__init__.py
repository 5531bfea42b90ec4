"""The back of a panel, as it is seen with the lid open."""
