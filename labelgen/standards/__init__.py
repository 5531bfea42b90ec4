"""Tables from published standards and trade practice, each with its source."""
