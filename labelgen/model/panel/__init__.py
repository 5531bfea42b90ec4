"""A control panel: its form, parts, holes and routes."""
