"""How far quick looks may be over two grids: what `COARSE`, `OWN_BOLTS` and `OTHER_BOLTS` in sizing/looks.py rest on.

    PYTHONPATH=. python tests/bench/quick_looks.py [FIRST SEED] [LAST SEED] [WIDTH]

Sizes examples and the varied jobs of `sizes.py` with the margin opened by WIDTH (0.06), so that candidates which would have
been turned down by their look get their plate too. Of those whose plate comes to 0.85 to 1.2 of the limit: how far the look
was over it as it is, how far raised by what two grids had made of others, and the least that the margins had to spare; and
how many that pass would have been turned down. Not collected by pytest.
"""

import os
import sys
from dataclasses import dataclass, replace
from pathlib import Path

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
sys.path += [str(Path(__file__).parents[2]), str(Path(__file__).parent)]

import numpy as np
from sizes import jobs

from transom.catalogue import SHIPPED
from transom.checks.board import bending
from transom.errors import JobError
from transom.running import quick
from transom.sizing import looks, probe
from transom.sizing.sizing import size

NEAR = (0.85, 1.2)  # shares of the limit that tell something


@dataclass(frozen=True)
class Seen:
    """A candidate's look as it is and raised, the margin it had, and what two grids made of it."""

    look: float
    raised: float
    margin: float
    fine: float

    @property
    def spare(self) -> float:
        """What the margin leaves, of two grids' figure."""
        return (1.0 + self.margin) - self.raised / self.fine


def watch(seen: list[Seen], width: float) -> None:
    """Have every candidate that has a look and a plate leave both behind."""
    expected, careful = looks.Looks.expected, probe.Tried.decisive.func

    def opened(self: looks.Looks, place: int, like: np.ndarray, bolts: int) -> tuple[float, float]:
        likely, off = expected(self, place, like, bolts)
        self.told = {**getattr(self, "told", {}), place: (likely, off)}
        return likely, off + width

    def solved(self: probe.Tried) -> object:
        checks = careful(self)
        told = getattr(self.prober.looks, "told", {}).get(self.place)
        # The search does not ask how much more a board bends where its edge lifts once it is over its limit.
        whole = bending(replace(self.plate, passing_only=False, solved=self.plate.answer))
        fine = max(float(c.worst[0]) for c in (*checks, whole))
        if told and NEAR[0] < fine < NEAR[1]:
            seen.append(Seen(float(np.max(self.prober.looks.taken[self.place])), *told, fine))
        return checks

    looks.Looks.expected = opened  # type: ignore[method-assign]
    probe.Tried.decisive.func = solved  # type: ignore[assignment]


def main() -> None:
    """Both figures, job by job, then all together."""
    first, last = (int(a) for a in (sys.argv[1:3] if len(sys.argv) > 2 else ("0", "40")))
    seen: list[Seen] = []
    quick()
    watch(seen, float(sys.argv[3]) if len(sys.argv) > 3 else 0.06)
    for name, job in jobs(first, last):
        before = len(seen)
        try:
            size(job, SHIPPED)
        except JobError as no:
            print(name, "cannot be judged:", no)
        own = seen[before:]
        if own:
            print(f"{name}: {len(own)}, least to spare {min(s.spare for s in own):.4f}", flush=True)
    for says, margin in (("with nothing known of others", True), ("raised", False)):
        own = [s for s in seen if (s.margin == looks.COARSE) is margin]
        if own:
            over = np.percentile([s.raised / s.fine - 1 for s in own], [5, 50, 95, 100])
            print(f"{says}: {len(own)}, over by " + " ".join(f"{v:.4f}" for v in over), end=", ")
            print(f"as it is at most {max(s.look / s.fine - 1 for s in own):.4f}", end=", ")
            print(f"least to spare {min(s.spare for s in own):.4f}")
    passing = [s for s in seen if s.fine <= 1.0]
    lost = sum(s.raised > 1.0 + s.margin for s in passing)
    print(f"{len(passing)} pass, {lost} of them would have been turned down")


if __name__ == "__main__":
    main()
