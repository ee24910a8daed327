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
    """The few that come nearest by the pencil, nearest first."""
    cases = field.cases.take(rows_that_matter(field, np.arange(len(field.piles)), whole=True))
    beyond, u = np.concatenate([_pencil(field, places, cases) for places in blocks(field.order, BLOCK)], axis=1)
    return np.asarray(field.order[np.lexsort((u, beyond))[:SHORT]])


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
