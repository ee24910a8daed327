"""The careful method inside the search: one plate for a stack tells what the pencil's figures are worth there."""

import dataclasses
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from transom.checks import BY_PLATE, all_checks, backed_checks, frame
from transom.checks.board import bending as board_bending
from transom.checks.board import sliding_at_pads
from transom.checks.trial import Trial
from transom.judge.evaluate import PENCIL, Calibration, calibrate, careful_of, quick_look, worst
from transom.result import Cases, CheckArray
from transom.units import Array

if TYPE_CHECKING:
    from transom.sizing.search import Field

ROWS_A_CHECK = 4
# A stack is given up where the pencil, times the ratio of the plate solved for the stack most like it, less this, fails.
SLACK = 0.9
NEAR, CLEAR = 1.05, 0.95  # up to here a quick look is asked again on two grids; up to there it is enough


def rows_for(trial: Trial) -> list[int]:
    """The cases in which a plate of this candidate can govern: the worst few of each check it decides."""
    return rows_of(all_checks(trial))


def rows_of(pencil: Sequence[CheckArray], but: str = "") -> list[int]:
    """The same, of the candidate's checks by the pencil; those of a part may be left out."""
    rows: set[int] = set()
    for check in pencil:
        if (check.part, check.what) in BY_PLATE and check.part != but:
            rows |= {int(i) for i in np.argsort(check.utilisation[0])[-ROWS_A_CHECK:]}
    return sorted(rows)


@dataclass
class Prober:
    """Plates of one search, and careful over pencil for the board's bending, by stack, where one was solved."""

    field: "Field"
    ratios: dict[int, float] = dataclasses.field(default_factory=dict)
    verdicts: dict[int, NDArray[np.bool_]] = dataclasses.field(default_factory=dict)
    solved: int = 0

    def worth_a_plate(self, place: int) -> bool:
        """True where a candidate's calibrated figures leave it a chance."""
        s, b = divmod(place, len(self.field.sets))
        if s not in self.verdicts:
            self.verdicts[s] = self._stack(s)
        return bool(self.verdicts[s][b])

    def passes(self, place: int) -> bool:
        """True where the careful method passes a candidate in the cases that can govern; the pick is judged in all."""
        if not self.worth_a_plate(place):
            return False
        trial = self.field.trial(np.array([place]))
        rows = rows_for(trial)
        self.solved += 1
        u = _by_plate(quick_look(trial, rows))
        if u <= CLEAR or not u <= NEAR:
            return u <= CLEAR
        return _by_plate(careful_of(trial, rows)) <= 1.0

    def _stack(self, s: int) -> NDArray[np.bool_]:
        """Which of a stack's sets may pass: none where the board's bending is beyond hope."""
        n = len(self.field.sets)
        places = s * n + np.arange(n)
        widest = int(np.argmax(_working_area(self.field.trial(places, self._one_a_duration))))
        one = self.field.trial(places[[widest]])
        bending = float(board_bending(one).worst[0])
        if bending * self._likely(s) * SLACK > 1.0:
            return np.zeros(n, dtype=bool)
        # Bolts of the frame are the same under every set: what they carry says nothing of one set against another.
        rows = rows_of(all_checks(one), but="frame")
        some = self.field.trial(places[[widest]], self.field.cases.take(rows))
        self.solved += 1
        careful = all_checks(quick_look(some))
        calibration = calibrate(all_checks(some), careful)
        self.ratios[s] = float(careful[0].worst[0]) / bending if bending > 0 else 1.0
        return self._calibrated(places, rows, calibration) <= NEAR

    @cached_property
    def _one_a_duration(self) -> Cases:
        """One case of each duration class: all that the wood's strength, and so a plate's reach, depends on."""
        first = {duration: i for i, duration in reversed(list(enumerate(self.field.cases.duration)))}
        return self.field.cases.take(sorted(first.values()))

    def _likely(self, s: int) -> float:
        """Careful over pencil of the solved stack most like this one in thickness and in stiffness up and across."""
        if not self.ratios:
            return 0.0
        stacks = self.field.stacks
        like = np.log(np.stack([stacks.t, stacks.E_1 / stacks.E_2]))
        solved = list(self.ratios)
        nearest = int(np.argmin(np.sum((like[:, solved] - like[:, [s]]) ** 2, axis=0)))
        return self.ratios[solved[nearest]]

    def _calibrated(self, places: NDArray[np.int_], rows: list[int], calibration: Calibration = PENCIL) -> Array:
        return worst(self.field.trial(places, self.field.cases.take(rows)), calibration)


def _by_plate(careful: Trial) -> float:
    """Worst utilisation of the checks the plate decides; the others passed the screen, which no plate changes."""
    return max(
        float(c.worst[0])
        for c in (*backed_checks(careful), sliding_at_pads(careful), *frame.checks(careful))
        if (c.part, c.what) in BY_PLATE
    )


def _working_area(trial: Trial) -> Array:
    """The smaller patch's area in the case that allows the wood most, (n,)."""
    areas = np.minimum(np.asarray(trial.upper_patch.area), np.asarray(trial.lower_patch.area))
    return np.asarray(np.min(np.broadcast_to(areas, (len(trial.stacks), len(trial.cases))), axis=1))
