"""The careful method to first order against full solves of the same samples: how far apart, check by check.

    python tests/bench/chance.py [JOB.toml] [SOLVES]

Prints, for every check that the careful method gives, the ratio of what sampling takes to what a full solve finds (5 %,
half, 95 % of the samples), the correlation of the two, and how often either is over the limit with loads as they are and
half as large again.
"""

import os
import sys

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

from pathlib import Path

import numpy as np

from transom.catalogue import SHIPPED
from transom.chance.sampling import draws, plan
from transom.chance.scene import loaded
from transom.job.read import load
from transom.judge.evaluate import careful_of, key_of
from transom.judge.judging import judge

SEED = 7


def main(path: str = "examples/runabout-60hp.toml", solves: int = 200) -> None:
    """Both ways for every sample."""
    job = load(Path(path))
    if job.mount is None:
        raise SystemExit(f"{path}: no [mount]; transom size --write fills it")
    p = plan(judge(job, SHIPPED, job.mount))
    k = len(p.scene.scatters)
    first: dict[tuple[str, str, str], list[float]] = {}
    full: dict[tuple[str, str, str], list[float]] = {}
    for z in (row[None] for chunk in draws(solves, k, SEED) for row in chunk):
        trial = p.scene.at(z)
        exact = {key_of(c): c for c in loaded(careful_of(trial)) if c.method == "plate"}
        for check in loaded(trial):
            key = key_of(check)
            if key in exact:
                first.setdefault(key, []).append(float(np.max(p.ratios.applied(check, z))))
                full.setdefault(key, []).append(float(np.max(exact[key].utilisation)))
    print(f"{path}: {solves} full solves against {p.ratios.solves}, {k} numbers, {len(p.scene.rows or ())} cases")
    print(f"{'check':<48}{'5 %':>7}{'half':>7}{'95 %':>7}{'corr':>7}{'over: first, full':>20}{'at 1.5':>10}")
    a, b = np.array(list(first.values())), np.array(list(full.values()))
    for key, x, y in sorted(
        [*zip(full, a, b, strict=True), (("any",), a.max(axis=0), b.max(axis=0))], key=lambda r: -np.median(r[2])
    ):
        low, half, high = np.quantile(x / y, [0.05, 0.5, 0.95])
        over = f"{np.sum(x > 1)}, {np.sum(y > 1)}"
        more = f"{np.sum(1.5 * x > 1)}, {np.sum(1.5 * y > 1)}"
        name = ".".join(w for w in key if w)
        print(f"{name:<48}{low:7.3f}{half:7.3f}{high:7.3f}{np.corrcoef(x, y)[0, 1]:7.3f}{over:>20}{more:>10}")


if __name__ == "__main__":
    main(*sys.argv[1:2], *(int(n) for n in sys.argv[2:3]))
