"""One module per part of the load path."""
