"""Where nothing works: the mount that comes nearest, as the plate has it."""

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from transom.catalogue import Catalogue
from transom.checks import BY_PLATE, all_checks
from transom.errors import JobError
from transom.job.records import Job, Mount
from transom.judge.evaluate import decided, quick_look
from transom.judge.judging import decide, judge
from transom.judge.records import Option
from transom.result import Assumption, Cases, CheckArray
from transom.sizing.field import Field
from transom.sizing.options import option, option_of
from transom.sizing.probe import rows_for
from transom.sizing.rows import rows_that_matter
from transom.sizing.search import BLOCK, blocks, nearest_miss
from transom.units import Array

HOPELESS = 100.0  # times its limit: nothing to do with how thick the board is
SAMPLE = 256  # candidates that tell which cases lead
ASKED = 128  # candidates asked in all cases at once
NOISE = 1e-9  # of a utilisation
SHORT = 24  # candidates that the plate looks at


def miss_of(job: Job, tables: Catalogue, field: Field) -> Option:
    """The candidate that comes nearest, and what it fails; only asked where none passes."""
    place = nearest(field)
    found = option(field, place)
    if not found.passes:
        return found
    # With the most bolts to the frame it would pass; with the least that carry the frame its board does not.
    known = decide(job, tables, found.mount, field.careful, add=True)
    return option_of(field, place, all_checks(known.trial), known.checks)


def what_would_do(job: Job, tables: Catalogue, mount: Mount, careful: bool) -> tuple[Assumption, ...]:
    """What was assumed and could be measured, of which another value makes the nearest miss pass, the nearest first."""
    try:
        return judge(job, tables, mount, careful, add=True, beside=False).to_measure
    except JobError:  # pads and bolts cannot carry it in some case, whatever is measured
        return ()


def nearest(field: Field) -> int:
    """The candidate whose weakest link is nearest to its limit; only asked where none passes.

    By the pencil alone where it decides. Else the pencil's own figures name a short list, and the plate decides: what
    the pencil finds is not shrunk to the best that a plate ever made of it, which would favour what fails everywhere.
    """
    if not field.careful:
        return nearest_miss(field)
    places = shortlist(field)
    return min((int(p) for p in places), key=lambda place: (_by_plate(field, place), place))


def shortlist(field: Field) -> NDArray[np.int_]:
    """The few that come nearest by the pencil, nearest first.

    All are asked in the cases that lead, where none is worse than in all its cases; those nearest so are asked in all,
    until none that is left can come nearer than the few.
    """
    cases = field.cases.take(rows_that_matter(field, np.arange(len(field.piles)), whole=True))
    leading = cases.take(_leading(field, cases))
    least = np.concatenate([_pencil(field, places, leading) for places in blocks(field.order, BLOCK)], axis=1)
    turn = np.lexsort(least[::-1])
    off = np.full_like(least, np.inf)
    for start in range(0, len(turn), ASKED):
        asked, left = turn[start : start + ASKED], turn[start + ASKED :]
        off[:, asked] = _pencil(field, field.order[asked], cases)
        few = np.lexsort(off[::-1])[:SHORT]
        if len(left) and len(few) == SHORT and tuple(off[:, few[-1]]) < tuple(least[:, left[0]] - [0.0, NOISE]):
            break
    return np.asarray(field.order[few])


def _leading(field: Field, cases: Cases) -> list[int]:
    """Cases that are some check's worst for a few candidates from all over the field."""
    some = field.order[:: max(1, len(field.order) // SAMPLE)]
    checks = _of_board(all_checks(field.trial(some, cases)))
    worst = (np.argmax(c.utilisation, axis=1) for c in checks if np.shape(c.utilisation)[1] == len(cases))
    return sorted({0}.union(*(each.tolist() for each in worst)))


def _pencil(field: Field, places: NDArray[np.int_], cases: Cases) -> Array:
    """How far off each candidate is, (2, n); bolts of the frame, which hardly differ, at the least a plate may make of them."""
    checks = _of_board(all_checks(field.trial(places, cases)))
    return _off([c.worst / (BY_PLATE.get((c.part, c.what), 1.0) if c.part == "frame" else 1.0) for c in checks])


def _off(each: Sequence[Array]) -> Array:
    """How many checks are hopeless, and the worst of the rest, (2, n).

    Pads that no wood bears up, or bolts without wood about them, fail so for every candidate: the rest tells them apart.
    """
    u = np.stack(np.broadcast_arrays(*each))
    told = u < HOPELESS
    return np.stack([np.sum(~told, axis=0), np.max(np.where(told, u, 0.0), axis=0)])


def _of_board(checks: Sequence[CheckArray]) -> list[CheckArray]:
    """What decides, but for the setback bracket's own: no board mends that."""
    return [c for c in decided(checks) if c.part != "bracket"]


def _by_plate(field: Field, place: int) -> tuple[float, float]:
    """The same of one candidate, on a coarse plate."""
    trial = field.trial(np.array([place]))
    try:
        careful = all_checks(quick_look(trial, rows_for(trial)))
    except JobError:  # pads and bolts cannot carry it in some case
        return math.inf, math.inf
    beyond, worst = _off([c.worst for c in _of_board(careful)])[:, 0]
    return float(beyond), round(float(worst), 9)
