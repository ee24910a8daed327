"""One module per command: parse, call, print, exit code."""
