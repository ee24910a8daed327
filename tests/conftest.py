"""Settings that must hold before any test imports numpy."""

import os

# Small solves wait for threads beside busy workers: measured 12 s on one thread, 62 s on two.
for name in ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS"):
    os.environ.setdefault(name, "1")
