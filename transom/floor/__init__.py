"""On the shop floor: the build step by step, the trial on the water, the record of what was built."""
