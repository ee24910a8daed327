"""Thickness of wood against the engine's power: what is worked out, then as a drawing, a table and lines."""
