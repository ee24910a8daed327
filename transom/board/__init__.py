"""Lamination and the plate method."""
