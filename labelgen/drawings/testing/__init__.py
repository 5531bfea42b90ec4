"""Test sheets and evening cards."""
