"""The answer on the screen and as JSON."""
