"""From a check back to its inputs: recorded formula calls, read as lines that a pocket calculator repeats."""
