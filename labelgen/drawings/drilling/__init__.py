"""The drilling template of a panel, and the pages behind it."""
