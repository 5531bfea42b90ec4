"""Flags on wire ends, in their three forms, and blank ones."""
