"""The careful method inside the search: plates already solved tell what the pencil's figures are worth elsewhere."""

import dataclasses
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from transom.checks import BY_PLATE, all_checks, backed_checks, frame
from transom.checks.board import sliding_at_pads
from transom.checks.trial import Trial
from transom.judge.evaluate import Calibration, calibrate, careful_of, decided, key_of, quick_look
from transom.result import CheckArray
from transom.sizing.field import Field
from transom.units import Array

ROWS_A_CHECK = 4
AREA = 0.25  # what a ratio of areas under backing counts beside one of thickness in telling what is alike
# A candidate is given up where the plate most like it would have it over its limit by more than this, on two grids
# and on one coarse one, and by as much again as the two candidates are apart.
FINE, ROUGH = 0.02, 0.05
CLOSE = 0.02  # nearer than this a quick look tells nothing that the plate like it did not
SURE = 0.9  # below this, by either, the pick's own judgement is asked at once


def rows_for(trial: Trial) -> list[int]:
    """The cases in which a plate of these candidates can govern: the worst few of each check it decides."""
    return rows_of(all_checks(trial))


def rows_of(pencil: Sequence[CheckArray]) -> list[int]:
    """The same, of the candidates' checks by the pencil."""
    rows: set[int] = set()
    for check in pencil:
        if by_plate(check):
            rows |= {int(i) for i in np.argsort(check.utilisation, axis=-1)[:, -ROWS_A_CHECK:].ravel()}
    return sorted(rows)


def by_plate(check: CheckArray) -> bool:
    """True for checks that decide and whose demand the plate gives."""
    return (check.part, check.what) in BY_PLATE and not check.information


@dataclass(frozen=True)
class Solved:
    """What one plate made of the pencil's utilisations in the leading cases: `times` and `plus` (c, v); how near it is."""

    like: Array
    times: Array
    plus: Array
    within: float

    def applied(self, u: Array) -> Array:
        """Worst utilisation of each candidate, (n,), from the pencil's (c, n, v)."""
        return np.asarray(np.max(u * self.times[:, None] + self.plus[:, None], axis=(0, 2)))


@dataclass
class Block:
    """Candidates `places` (n,) side by side: by the pencil in the leading cases (c, n, v); what is alike of them (3, n).

    `likely` (n,): the worst utilisation of each as the nearest plate of those `seen` has it; `within` and
    `apart` (n,): how far that may be off, and how far it is away.
    """

    places: NDArray[np.int_]
    u: Array
    like: Array
    likely: Array
    within: Array
    apart: Array
    seen: int = 0

    def learn(self, solved: Sequence[Solved]) -> None:
        """Let plates solved since the last time speak for the candidates that they are nearest to."""
        for plate in solved[self.seen :]:
            apart = np.sqrt(np.sum((self.like - plate.like[:, None]) ** 2, axis=0))
            off = plate.within + apart
            better = off < self.within
            if better.any():
                self.likely[better] = plate.applied(self.u[:, better])
                self.within[better], self.apart[better] = off[better], apart[better]
        self.seen = len(solved)


@dataclass
class Prober:
    """Plates of one search; `rows` are the leading cases, in which candidates are compared."""

    field: Field
    rows: list[int]
    solved: list[Solved] = dataclasses.field(default_factory=list)

    def block(self, places: NDArray[np.int_]) -> Block:
        """The candidates at these places that the pencil leaves in the leading cases, in their order."""
        trial, n, v = self.field.trial(places, self.field.cases.take(self.rows)), len(places), len(self.rows)
        checks = decided((*backed_checks(trial), sliding_at_pads(trial), *frame.checks(trial)))
        left = np.all([np.broadcast_to(c.worst <= self.field.band(c), n) for c in checks], axis=0)
        u = [np.broadcast_to(c.utilisation, (n, v))[left] for c in checks if by_plate(c)]
        far = np.full(int(left.sum()), np.inf)
        return Block(places[left], np.stack(u), _like(trial)[:, left], np.ones(len(far)), far, far.copy())

    def tried(self, block: Block, i: int) -> "Tried | None":
        """The i-th candidate of a block for a closer look; None where it is beyond hope."""
        block.learn(self.solved)
        if not block.likely[i] <= 1.0 + block.within[i]:
            return None
        found = Tried(self, int(block.places[i]), block.like[:, i])
        if not found.passes_screen:
            return None
        if block.apart[i] > CLOSE and not (np.isfinite(block.apart[i]) and block.likely[i] <= SURE):
            quick = found.quick_look()
            return found if quick <= 1.0 + ROUGH else None
        found.likely = float(block.likely[i])
        return found


@dataclass
class Tried:
    """One candidate under a closer look, in every case by the pencil and in those that can govern by the plate."""

    prober: Prober
    place: int
    like: Array
    likely: float = np.inf

    @cached_property
    def trial(self) -> Trial:
        """In every case."""
        return self.prober.field.trial(np.array([self.place]))

    @cached_property
    def pencil(self) -> tuple[CheckArray, ...]:
        """All checks by the pencil."""
        return all_checks(self.trial)

    @property
    def passes_screen(self) -> bool:
        """False where the pencil finds a check over its known band in any case."""
        return all(bool(c.worst[0] <= self.prober.field.band(c)) for c in decided(self.pencil))

    @cached_property
    def rows(self) -> list[int]:
        """The leading cases first, then those that can govern here."""
        leading = self.prober.rows
        return [*leading, *(i for i in rows_of(self.pencil) if i not in leading)]

    @property
    def _pencil(self) -> list[CheckArray]:
        """What the plate decides, by the pencil, in these cases."""
        return [_rows(c, self.rows) for c in self.pencil if by_plate(c)]

    def quick_look(self) -> float:
        """Worst utilisation of what the plate decides, by one coarse plate."""
        checks = [c for c in all_checks(quick_look(self.trial, self.rows)) if by_plate(c)]
        self.learn(calibrate(self._pencil, checks), ROUGH)
        self.likely = float(max(c.worst[0] for c in checks))
        return self.likely

    @cached_property
    def careful(self) -> tuple[CheckArray, ...]:
        """All checks by the plate on two grids, in the cases that can govern.

        Raises:
            JobError: bolts or pads that lie off the board.
        """
        checks = all_checks(careful_of(self.trial, self.rows))
        self.learn(calibrate(self._pencil, checks), FINE)
        return checks

    @property
    def passes(self) -> bool:
        """True where what the plate decides passes on two grids."""
        return all(bool(c.worst[0] <= 1.0) for c in self.careful if by_plate(c))

    def learn(self, found: Calibration, within: float) -> None:
        """Keep for others what a plate made of the pencil's figures, in cases of which the leading ones are the first."""
        v, checks = len(self.prober.rows), [c for c in self.pencil if by_plate(c)]
        times, plus = (np.stack([known[key_of(c)][:v] for c in checks]) for known in (found.times, found.plus))
        self.prober.solved.append(Solved(self.like, times, plus, within))


def _rows(check: CheckArray, rows: Sequence[int]) -> CheckArray:
    """A check in some of its cases."""
    v = len(check.cases)
    demand, resistance = (np.broadcast_to(x, (1, v))[:, rows] for x in (check.demand, check.resistance))
    return dataclasses.replace(check, cases=tuple(check.cases[i] for i in rows), demand=demand, resistance=resistance)


def _like(trial: Trial) -> Array:
    """What tells how alike candidates are: thickness, stiffness across over up, area under backing; logarithms, (3, n)."""
    s, n = trial.stacks, len(trial.stacks)
    areas = np.minimum(np.asarray(trial.upper_patch.area), np.asarray(trial.lower_patch.area))
    smallest = np.min(np.broadcast_to(areas, (n, len(trial.cases))), axis=1)
    return np.stack([np.log(s.t), np.log(s.E_1 / s.E_2), AREA * np.log(np.maximum(smallest, 1.0))])
