"""The search: every stack against every backing, on arrays, in the order of the rank.

The pencil screens within its known band; what it leaves is decided by the plate, best ranked first.
"""

from collections.abc import Callable, Container, Iterator

import numpy as np
from numpy.typing import NDArray

from transom.checks import BY_PLATE, all_checks, backed_checks, stack_checks
from transom.checks.board import bending_without_holes
from transom.judge.evaluate import decided
from transom.result import Cases
from transom.sizing.field import Field
from transom.sizing.probe import Prober, Tried, rows_for
from transom.sizing.rows import leading_cases, rows_that_matter
from transom.units import Array

BLOCK = 1024
STACKS, SETS = 4, 3  # of all: looked at to tell which cases lead


def stacks_that_may(field: Field) -> NDArray[np.bool_]:
    """Stacks that pass everything no backing can mend, (s,), within the pencil's known band."""
    places = np.arange(len(field.piles)) * len(field.sets)
    trial = field.trial(places)
    allowed = (BY_PLATE["board", "bending"] if field.careful else 1.0) * float(np.max(trial.strength_share))
    good = bending_without_holes(trial).max(axis=1) <= allowed
    for check in stack_checks(trial, field.band):
        good &= check.worst <= field.band(check)
    return np.asarray(good)


def screened(
    field: Field, places: NDArray[np.int_], cases: Cases, whole: bool = True, but: Container[str] = ()
) -> Array:
    """The largest utilisation of each candidate by the pencil, each check over its known band, (n,).

    Above 1 the plate would not pass it either; up to 1 it is worth looking at. Not `whole`: what depends on
    the stack alone is left out, for stacks that have been through it. Parts in `but` are left out too.
    """
    trial = field.trial(places, cases)
    checks = [c for c in decided(all_checks(trial, field.band) if whole else backed_checks(trial)) if c.part not in but]
    return np.asarray(np.max(np.broadcast_arrays(*(c.worst / field.band(c) for c in checks)), axis=0))


def blocks(order: NDArray[np.int_], size: int = BLOCK // 2) -> Iterator[NDArray[np.int_]]:
    """Places in order, fewer first: the best are near the front, and few cost half as much as many."""
    start = 0
    while start < len(order):
        yield order[start : start + size]
        start, size = start + size, min(2 * size, BLOCK)


def best_of_kinds(field: Field, most: int, passes: Callable[[int], bool] = lambda place: True) -> list[int]:
    """By the pencil: the best ranked candidate that passes, and the best of up to `most` - 1 other kinds of stack.

    Kinds differ by their sheets, whichever way these are turned. `passes` has the last word on a place, asked in the
    order of the rank.
    """
    order, stacks = _hopeful(field)
    sieves = [field.cases.take(rows) for rows in (leading_cases(field, stacks), rows_that_matter(field, stacks))]
    wanted = _Kinds(field, most)
    for block in blocks(order):
        some = wanted.of(block)
        for cases in sieves:
            some = some[screened(field, some, cases, whole=False) <= 1.0] if len(some) else some
        for place in map(int, some):
            if wanted.open(place) and passes(place) and wanted.full(place):
                return wanted.places
    return wanted.places


def best_by_plate(field: Field, most: int, passes: Callable[[Tried], bool]) -> list[int]:
    """The same with the plate: `passes` is asked of those that the pencil and what plates tell of others leave."""
    order, stacks = _hopeful(field)
    wanted = _Kinds(field, most)
    if not len(order):
        return []
    prober = Prober(field, _rows_to_compare(field, stacks))
    for places in blocks(order):
        some = wanted.of(places)
        if not len(some):
            continue
        block = prober.block(some)
        for i, place in enumerate(map(int, block.places)):
            tried = prober.tried(block, i) if wanted.open(place) else None
            if tried and passes(tried) and wanted.full(tried.place):
                return wanted.places
    return wanted.places


def _hopeful(field: Field) -> tuple[NDArray[np.int_], NDArray[np.int_]]:
    """Places in the order of the rank of stacks that may pass, and these stacks."""
    may = stacks_that_may(field)
    return field.order[may[field.order // len(field.sets)]], np.flatnonzero(may)


class _Kinds:
    """The best of each kind of stack so far, up to `most` of them; kinds differ by their sheets, however turned."""

    def __init__(self, field: Field, most: int) -> None:
        number = {kind: i for i, kind in enumerate(dict.fromkeys(field.kinds))}
        self._kind = np.array([number[k] for k in field.kinds], dtype=int)
        self._sets, self._most, self._found = len(field.sets), most, dict[int, int]()

    @property
    def places(self) -> list[int]:
        """In the order they were found."""
        return list(self._found.values())

    def of(self, places: NDArray[np.int_]) -> NDArray[np.int_]:
        """Those whose kind has none yet."""
        return places[~np.isin(self._kind[places // self._sets], list(self._found))]

    def open(self, place: int) -> bool:
        """True where its kind has none yet."""
        return int(self._kind[place // self._sets]) not in self._found

    def full(self, place: int) -> bool:
        """Take a place as the best of its kind; True once there are enough."""
        self._found[int(self._kind[place // self._sets])] = place
        return len(self._found) == self._most


def _rows_to_compare(field: Field, stacks: NDArray[np.int_]) -> list[int]:
    """Cases that lead by the pencil, and those that come near in what the plate decides, for a few of the stacks."""
    n = len(field.sets)
    few = stacks[:: max(1, len(stacks) // STACKS)]
    places = (few[:, None] * n + np.arange(0, n, max(1, n // SETS))).ravel()
    return sorted({*leading_cases(field, stacks), *rows_for(field.trial(places))})


def nearest_miss(field: Field) -> int:
    """The candidate with the smallest worst utilisation; only asked where none passes.

    What a setback bracket fails of no board mends, so that it does not tell which board comes nearest.
    """
    cases = field.cases.take(rows_that_matter(field, np.arange(len(field.piles)), whole=True))
    best, at = np.inf, int(field.order[0])
    for places in blocks(field.order, BLOCK):
        u = screened(field, places, cases, but=("bracket",))
        i = int(np.argmin(u))
        if u[i] < best:
            best, at = float(u[i]), int(places[i])
    return at
