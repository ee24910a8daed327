"""Sampling on arrays: a million samples of the pencil method's checks in one run, and the same loop on scalars.

    python tests/bench/chance_speed.py [JOB.toml] [SAMPLES] [SCALARS]

Prints the time a sample takes either way, their ratio, and the peak memory of the run.
"""

import os
import sys

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import resource
import time
from pathlib import Path

import numpy as np

from transom.catalogue import SHIPPED
from transom.chance.sampling import SEED, draws, plan, uncertainty, utilisations
from transom.job.read import load
from transom.judge.judging import judge


def main(path: str = "examples/runabout-60hp.toml", samples: int = 1_000_000, scalars: int = 200) -> None:
    """Arrays, then one sample at a time: same samples, same cases, same checks."""
    job = load(Path(path))
    if job.mount is None:
        raise SystemExit(f"{path}: no [mount]; transom size --write fills it")
    j = judge(job, SHIPPED, job.mount, careful=False)
    p = plan(j)
    z = np.vstack(list(draws(scalars, len(p.scene.scatters), SEED)))
    start = time.process_time()
    one = np.hstack([utilisations(p, row[None]) for row in z])
    scalar = (time.process_time() - start) / scalars
    start, clock = time.process_time(), time.perf_counter()
    u = uncertainty(j, samples)
    array, wall = (time.process_time() - start) / samples, time.perf_counter() - clock
    np.testing.assert_allclose(one, utilisations(p, z), rtol=1e-12)
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(f"{path}: {samples:,} samples of {len(u.chances)} checks in {u.cases} cases: {wall:.0f} s by the clock")
    print(
        f"a sample on arrays {array * 1e3:.3f} ms of processor, alone {scalar * 1e3:.2f} ms: {scalar / array:.0f} times; peak {peak:.0f} MB"
    )


if __name__ == "__main__":
    main(*sys.argv[1:2], *(int(n) for n in sys.argv[2:4]))
