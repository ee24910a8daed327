"""A mount judged: checks, stops, cautions, what was assumed and where the answer flips, which paper."""
