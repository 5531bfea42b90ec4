"""Lever plates."""
