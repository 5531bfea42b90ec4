"""Text to Description: the only stage that reads what a builder wrote."""
