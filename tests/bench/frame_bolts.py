"""What judgements print of the frame bolts' pull, beside a board on flanges that only push and bolts that only hold.

    PYTHONPATH=. python tests/bench/frame_bolts.py [JOBS] [KIND]

Random jobs, on every kind of frame or one, on flanges and bolts of many sizes, judged as they are; the wood of the other
model (`tests/checks/flanges.py`) half, once and twice as stiff. Prints other over judged: minimum, median, 95 % and most
of each line that carries half of the largest pull, and of the worst bolt. Mounts with a bolt in a notch are left out: they fail, and those beside it carry more.
"""

import random
import sys
from collections import defaultdict
from dataclasses import replace
from math import inf
from pathlib import Path

sys.path.append(str(Path(__file__).parents[2]))

import numpy as np

from tests.bench.judgements import random_job
from tests.checks import flanges
from transom.catalogue import SHIPPED
from transom.checks import frame_pull
from transom.checks.careful import Careful
from transom.errors import JobError
from transom.job.records import Frame, FrameBolts, Job, Mount
from transom.judge.judging import judge

SIZES = {"5/16 in": 7.9375, "3/8 in": 9.525, "1/2 in": 12.7}
WOOD = (1.0, 0.5, 2.0)


def job_on(kind: str, seed: int) -> tuple[Job, Mount]:
    """A random job on a random flange; half of them on stated bolts."""
    (job, mount), r = random_job(seed), random.Random(5000 + seed)
    width = r.choice([38.1, 50.8, 63.5, 76.2, 101.6]) if r.random() < 0.7 else None
    thick = r.choice([3.175, 4.76, 6.35, 9.525]) if r.random() < 0.7 else None
    bolts = None
    if r.random() < 0.5:
        size = r.choice(list(SIZES))
        washer = r.choice([38.1, 50.8, 63.5, 76.2])
        bolts = FrameBolts(size, r.choice([8, 10, 12, 16, 20, 24]), True, SIZES[size], washer, 6.35)
    at = (-225.0, 225.0) if kind == "uprights" else ()
    return replace(job, frame=Frame(kind, width, thick, bolts=bolts, at=at, flange_weld=inf)), mount


def ratios(c: Careful) -> dict[str, float]:
    """Other over judged, with usual wood and by the most of the three, of each line and of the worst bolt."""
    each, found = [flanges.pulls(c, times) for times in WOOD], frame_pull.forces(c)
    printed = {line: float(getattr(found, line).max()) for line in each[0]}
    out, most = {}, max(printed.values())
    for line in [line for line, pull in printed.items() if pull > most / 2]:
        pulls = [float(forces[line].max()) / printed[line] for forces in each]
        out |= {f"{line}, usual wood": pulls[0], f"{line}, most of three": max(pulls)}
    worst = [max(float(v.max()) for v in forces.values()) / most for forces in each]
    return out | {"worst bolt, usual wood": worst[0], "worst bolt, most of three": max(worst)}


def main() -> None:
    """A table for each kind of frame."""
    count, only = int(sys.argv[1]) if sys.argv[1:] else 40, sys.argv[2:]
    for kind in only or ("pod", "uprights", "cap rail"):
        found, done = defaultdict(list), 0
        for seed in range(count):
            try:
                job, mount = job_on(kind, seed)
                c = judge(job, SHIPPED, mount, add=True, beside=False).careful
                if c is None or c.clamped or not flanges.all_hold(c):
                    continue
                for name, ratio in ratios(c).items():
                    found[name].append(ratio)
                done += 1
            except JobError:
                continue
        print(f"{kind}: {done} of {count} jobs")
        for name, values in sorted(found.items()):
            cells = "".join(f"{v:7.2f}" for v in np.percentile(values, [0, 50, 95, 100]))
            print(f"  {name:30}{cells}{len(values):6}", flush=True)


if __name__ == "__main__":
    main()
