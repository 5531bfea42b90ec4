"""Strip markers and pin markers, and the signs on them."""
