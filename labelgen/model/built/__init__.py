"""What is built: the as-built record, its labels, and what changed since."""
