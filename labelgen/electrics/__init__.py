"""Formulas on numbers: what current does in wires, coils and lamps. No noun of a railway is known here."""
