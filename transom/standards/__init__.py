"""Resistances, one module per document."""
