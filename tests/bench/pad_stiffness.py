"""How far halving and doubling the wood's stiffness under pads and bolts moves the examples' utilisations.

    PYTHONPATH=. python tests/bench/pad_stiffness.py
    PYTHONPATH=. python tests/bench/pad_stiffness.py --random JOBS

What is reported stands beside what wood half and twice as stiff would give. Prints, for each example, the checks over
0.5 of their limit that rise and fall most, and how far the weakest link moves. A fall is what the report is too careful by.
"""

import os
import sys
from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
sys.path.append(str(Path(__file__).parents[2]))

import numpy as np

from tests.bench.judgements import random_job
from transom.catalogue import SHIPPED, Catalogue
from transom.checks import all_checks
from transom.cli.jobs import read
from transom.judge.evaluate import careful_of, trial_of
from transom.judge.fasteners import with_most
from transom.judge.judging import judge
from transom.judge.records import Judgement
from transom.loads.cases import build_cases
from transom.setup.build import build, values_of
from transom.setup.facts import collect
from transom.sizing.sizing import picked

EXAMPLES = Path(__file__).parents[2] / "examples"
KEY, RANGE = "board.pad_stiffness_MPa", "board.pad_stiffness_times"
LEAST = 0.5
TIMES = (0.5, 2.0)


def with_stiffness(times: float) -> Catalogue:
    """The tables with the stiffness changed and taken as known."""
    new = {KEY: times * SHIPPED.factor(KEY).value, RANGE: 1.0}
    return Catalogue({"factors": tuple(replace(r, value=new.get(r.name, r.value)) for r in SHIPPED.rows("factors"))})


def worst(j: Judgement) -> dict[str, float]:
    """The largest utilisation of each check that decides."""
    out: dict[str, float] = {}
    for c in j.checks:
        if not c.information:
            key = f"{c.part}.{c.what}.{c.rule}"
            out[key] = max(out.get(key, 0.0), c.utilisation)
    return out


def utilisations(seed: int, kind: str, tables: Catalogue) -> dict[str, float]:
    """Worst case of every check of a random mount that nothing is cut out of, the most added to its frame's bolts."""
    job, mount = random_job(3 * seed)
    job = with_most(replace(job, frame=replace(job.frame, kind=kind)), tables)
    setup = build(job, tables, values_of(collect(job, tables)))
    plate = careful_of(trial_of(setup, build_cases(setup.loads), [mount]))
    return {c.name: float(np.max(c.utilisation)) for c in all_checks(plate) if not c.information}


def at_random(count: int) -> None:
    """Least, median, 95 % and most of what half and twice the stiffness add to each check, by kind of support."""
    for kind in ("pod", "uprights", "cap rail"):
        moves: dict[str, list[tuple[float, ...]]] = {}
        for seed in range(count):
            base, *others = (utilisations(seed, kind, t) for t in (SHIPPED, *map(with_stiffness, TIMES)))
            for name, u in base.items():
                if LEAST < u < np.inf:
                    moves.setdefault(name, []).append(tuple(o[name] / u - 1 for o in others))
        print(f"{kind}, {count} mounts")
        for name, found in sorted(moves.items()):
            cells = (
                "".join(f"{v:+7.1%}" for v in np.percentile(m, [0, 50, 95, 100])) for m in zip(*found, strict=True)
            )
            print(f"  {name:50}{len(found):4}  half{next(cells)}  twice{next(cells)}")


def main() -> None:
    """One line for each example, or one for each check of mounts at random."""
    if sys.argv[1:2] == ["--random"]:
        at_random(int(sys.argv[2]))
        return
    for path in sorted(EXAMPLES.glob("*.toml")):
        job = read(path)
        found = None if job.mount else picked(job, SHIPPED)
        mount = job.mount or (found.mount if found else None)
        if mount is None:
            continue
        base, *others = (
            worst(judge(job, t, mount, add=job.mount is None)) for t in (SHIPPED, *map(with_stiffness, TIMES))
        )
        keys = [k for k in base if base[k] > LEAST]
        up, down = (max((extreme(o[k] / base[k] - 1 for o in others), k) for k in keys) for extreme in (max, _fall))
        link = [max(o.values()) / max(base.values()) - 1 for o in others]
        print(
            f"{path.stem:24} rises {up[0]:+.1%} {up[1]} ({base[up[1]]:.2f}); falls {-down[0]:+.1%} {down[1]}"
            f" ({base[down[1]]:.2f}); weakest link {link[0]:+.1%}, {link[1]:+.1%}"
        )


def _fall(ratios: Iterable[float]) -> float:
    return max(-r for r in ratios)


if __name__ == "__main__":
    main()
