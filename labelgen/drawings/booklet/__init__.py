"""The booklet: everything about one railway's wiring, bound."""
