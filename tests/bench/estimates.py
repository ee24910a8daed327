"""How far what other plates make of a candidate may be above its own: what `FINE` and `ROUGH` in sizing/estimates.py rest on.

    PYTHONPATH=. python tests/bench/estimates.py [FIRST SEED] [LAST SEED] [WIDTH]

Sizes examples and the varied jobs of `sizes.py`. For estimates that rest on two grids and on a coarse one, by how far
the two candidates were apart: how many there were, and the middle, the 95th in a hundred and the highest of how much they
were above the candidate's own plate; then the least that the margins had to spare (below zero one would have been lost), and
how many that pass would have been turned down. Margins are opened by WIDTH (0.06) to see beyond them. A quick look counts as
two grids would have it. Not collected by pytest.
"""

import os
import sys
from dataclasses import dataclass
from pathlib import Path

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
sys.path += [str(Path(__file__).parents[2]), str(Path(__file__).parent)]

import numpy as np
from sizes import jobs

from transom.catalogue import SHIPPED
from transom.errors import JobError
from transom.running import quick
from transom.sizing import estimates, probe
from transom.sizing.sizing import size

STEPS = (0.01, 0.02, 0.05, 0.1, 0.2, 1.0)
NEAR = (0.8, 1.6)  # shares of the limit that tell something


@dataclass(frozen=True)
class Estimate:
    """What a plate of either kind, so far apart, made of a candidate, and how much that is above its own."""

    margin: tuple[float, float]
    apart: float
    above: float
    own: float

    @property
    def spare(self) -> float:
        """What the margin leaves."""
        return self.margin[0] + self.margin[1] * self.apart - self.above


def watch(seen: list[Estimate], width: float) -> None:
    """Have every candidate that gets a plate of its own leave what others made of it behind."""
    tried, learnt = probe.Prober.tried, probe.Tried._learnt
    told: dict[int, tuple[float, float, float]] = {}

    def looked(self: probe.Prober, block: estimates.Block, i: int) -> object:
        block.learn(self.solved)
        for place, *known in zip(block.places, block.likely, block.within, block.apart, strict=True):
            if int(place) not in self.looks.taken:  # its own look is no estimate
                told[int(place)] = tuple(map(float, known))
        return tried(self, block, i)

    def solved(self: probe.Tried, checks: object, found: np.ndarray, within: tuple[float, float]) -> None:
        known = told.pop(self.place, None)
        own = float(np.max(found))
        if known and known[2] <= estimates.FAR and NEAR[0] < own < NEAR[1] and within != estimates.JUDGED:
            kinds = (estimates.FINE, estimates.ROUGH, estimates.RAW, estimates.JUDGED)
            margin = min(kinds, key=lambda m: abs(m[0] + m[1] * known[2] - known[1]))
            if margin != estimates.JUDGED:  # on fewer bolts of the frame than its own plate in the search
                seen.append(Estimate(margin, known[2], known[0] / own - 1, own))
        learnt(self, checks, found, within)  # type: ignore[arg-type]

    probe.Prober.tried = looked  # type: ignore[method-assign, assignment]
    probe.Tried._learnt = solved  # type: ignore[method-assign]
    estimates.Block.out = property(  # type: ignore[method-assign, assignment]
        lambda self: ~(self.likely <= 1.0 + self.within + width) & (self.apart <= estimates.FAR)
    )


def main() -> None:
    """One table for each kind of plate."""
    first, last = (int(a) for a in (sys.argv[1:3] if len(sys.argv) > 2 else ("0", "40")))
    seen: list[Estimate] = []
    quick()
    watch(seen, float(sys.argv[3]) if len(sys.argv) > 3 else 0.06)
    for name, job in jobs(first, last):
        try:
            size(job, SHIPPED)
        except JobError as no:
            print(name, "cannot be judged:", no)
    for margin, says in (
        (estimates.FINE, "two grids"),
        (estimates.ROUGH, "a look, raised"),
        (estimates.RAW, "a look as it is"),
    ):
        own, low = [e for e in seen if e.margin == margin], 0.0
        for high in STEPS:
            above = [e.above for e in own if low < e.apart <= high or (low == 0.0 and e.apart == 0.0)]
            if above:
                cells = " ".join(f"{v:7.3f}" for v in np.percentile(above, [50, 95, 100]))
                print(f"{says:16} {low:.2f} to {high:.2f} apart {len(above):5} {cells}")
            low = high
        print(f"{says:16} least to spare {min((e.spare for e in own), default=float('nan')):.3f}")
        # What fails may lack how much more it bends where its edge lifts, which the search leaves out there.
        passing = [1.0 + e.margin[0] + e.margin[1] * e.apart - (1.0 + e.above) * e.own for e in own if e.own <= 1.0]
        lost = sum(left < 0.0 for left in passing)
        print(f"{says:16} {len(passing)} pass, {lost} of them would have been turned down", end=", ")
        print(f"least to spare of these {min(passing, default=float('nan')):.3f}")


if __name__ == "__main__":
    main()
