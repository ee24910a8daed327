"""What the board's checks would read on a flange that only pushes and bolts that only hold, beside the lines that decide.

    PYTHONPATH=. python tests/bench/one_way_frame.py [JOBS]

`review` and `size` hold the board on rigid lines, both ways, and raise its bending, bolts and pads by what they come to
so in the cases that ask most of it (`transom/checks/lifting.py`).
Here every case of examples and random jobs, not far over their limits, is on flanges that push and bolts that hold;
prints how many times the judged figure each check comes to so, the worst frame bolt's pull, and k_l.
"""

import sys
from pathlib import Path

sys.path.append(str(Path(__file__).parents[2]))

import numpy as np

from tests.bench.judgements import jobs, mount_of
from transom.catalogue import SHIPPED
from transom.checks import backed_checks, frame_pull, lifting
from transom.checks.board import sliding_at_pads
from transom.checks.trial import Trial
from transom.judge.judging import judge

MOST = 1.3  # utilisation over which a random mount tells nothing
PARTS = ("board", "engine-bolts", "backing")


def one(x: object) -> float:
    """A number out of whatever it is in."""
    return float(np.ravel(np.asarray(x))[0])


def worst(c: Trial) -> dict[str, float]:
    """The board's and the engine bolts' checks that the plate decides."""
    checks = (*backed_checks(c), sliding_at_pads(c))
    return {f"{k.part}.{k.what}": one(k.worst) for k in checks if k.method == "plate" and k.part in PARTS}


def main() -> None:
    """One line for each job, then the spread of every check."""
    spread: dict[str, list[float]] = {}
    for name, job, spare in jobs(int(sys.argv[1]) if sys.argv[1:] else 60):
        mount = mount_of(job, spare, {})
        c = None if mount is None else judge(job, SHIPPED, mount, add=job.mount is None).careful
        if c is None or c.clamped:
            continue
        free, judged = lifting.on_flanges(c, range(len(c.cases))), worst(c)
        if max(judged.values()) > MOST:
            continue
        alone, found = worst(free), free.answer
        times = {k: alone[k] / judged[k] for k in judged if judged[k] > 0.4}
        bolts = np.array([n[3] for n in found.seated[-1].nodes]) < 0
        times["frame-bolt pull"] = float(found.borne.rests[bolts].max()) / float(np.max(frame_pull.forces(c).pull))
        times["k_l"] = float(c.kept["k_l"].max())
        for k, v in times.items():
            spread.setdefault(k, []).append(v)
        print(f"{name:24} " + ", ".join(f"{k} {v:.2f}" for k, v in times.items()))
    for k, values in spread.items():
        cells = np.percentile(values, [0, 50, 95, 100])
        print(f"{k:44}" + "".join(f"{v:7.2f}" for v in cells))


if __name__ == "__main__":
    main()
