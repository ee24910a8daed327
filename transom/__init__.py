"""Sizes the structural mount that carries an outboard engine."""

__version__ = "0.1.0"
