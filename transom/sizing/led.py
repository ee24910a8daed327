"""Which cases a plate beside the pick is asked in: those that the pick's own plate says can govern."""

import math
from collections.abc import Callable, Sequence
from dataclasses import replace

import numpy as np

from transom.checks.careful import Careful
from transom.checks.trial import Trial
from transom.judge.evaluate import careful_of
from transom.units import Array

NEAR = 0.9  # of the worst case: what is expected to come to less is asked only where the plate finds more than expected


def worst_of_led(expected: Array, asked: Callable[[list[int]], Array]) -> float:
    """The largest utilisation of all cases by a plate that is asked in few of them.

    Those left out come to less than the worst even where they are more than `expected` by what any case asked is, and
    by as much again as those asked lie apart in that. Infinite, or not a number, where one asked is.

    Args:
        expected: utilisation of every case, (v,), by the pencil at the level of a plate like this one.
        asked: utilisation of the cases at some places by the plate, in their order.
    """
    rows = np.flatnonzero(expected >= NEAR * np.max(expected))
    while True:
        found = asked(rows.tolist())
        worst = float(np.max(found))
        if not math.isfinite(worst):
            return worst
        more = found / np.maximum(expected[rows], 1e-300)
        most = np.max(more) ** 2 / max(np.min(more), 1e-300)
        left = np.setdiff1d(np.flatnonzero(expected * most > worst), rows)
        if not left.size:
            return worst
        rows = np.union1d(rows, left)


def begun_from(trial: Trial, rows: Sequence[int], solved: Sequence[Careful]) -> Careful:
    """The plate of a candidate in some cases; contacts and unit loads of the last one solved are what it tries first."""
    plate = careful_of(trial, rows)
    if not solved:
        return plate
    last = solved[-1]
    return replace(plate, kin=last, lifted=next(iter(last.let_go), None))
