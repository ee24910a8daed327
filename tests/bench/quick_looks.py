"""How far a candidate's coarse plate may be over its plate on two grids: what `COARSE` in sizing/probe.py rests on.

    PYTHONPATH=. python tests/bench/quick_looks.py [FIRST SEED] [LAST SEED]

Sizes the random jobs of `judgements.py` with the margin opened to 12 %, and prints for each candidate that had both the
worst share of its limit by either, then how many there were and the least ratio. Not collected by pytest.
"""

import os
import sys
from pathlib import Path

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
sys.path += [str(Path(__file__).parents[2]), str(Path(__file__).parent)]

from judgements import random_job

from transom.catalogue import SHIPPED
from transom.errors import JobError
from transom.sizing import probe
from transom.sizing.sizing import size

OPEN = 0.12


def watch(seen: list[tuple[float, float]]) -> None:
    """Have every candidate that is looked at twice leave both figures behind."""
    look, careful = probe.Tried.quick_look, probe.Tried.decisive.func

    def looked(self: probe.Tried) -> float:
        self.found = look(self)
        return self.found

    def solved(self: probe.Tried) -> object:
        checks = careful(self)
        if hasattr(self, "found"):
            seen.append((self.found, max(float(c.worst[0]) for c in checks if probe.by_plate(c))))
        return checks

    probe.Tried.quick_look = looked  # type: ignore[method-assign]
    probe.Tried.decisive.func = solved  # type: ignore[assignment]
    probe.COARSE = OPEN


def main() -> None:
    first, last = (int(a) for a in (sys.argv[1:3] if len(sys.argv) > 2 else ("0", "40")))
    seen: list[tuple[float, float]] = []
    watch(seen)
    for seed in range(first, last):
        before = len(seen)
        try:
            size(random_job(seed)[0], SHIPPED)
        except JobError as no:
            print(seed, "cannot be judged:", no)
        for coarse, fine in seen[before:]:
            print(f"{seed}: {coarse:.4f} on one coarse grid, {fine:.4f} on two, ratio {fine / coarse:.4f}")
    print(len(seen), "candidates, least ratio", min((fine / coarse for coarse, fine in seen), default=float("nan")))


if __name__ == "__main__":
    main()
