"""Setup, cases and candidates to utilisations: the one path that review, size and every 'what if' take."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

import numpy as np

from transom.checks import all_checks
from transom.checks.careful import Careful
from transom.checks.hardware import Hardware, clamp_pads, hardware
from transom.checks.stack_arrays import stacks_of
from transom.checks.trial import Trial
from transom.errors import JobError
from transom.frozen import dataclass
from transom.job.records import EngineBolts, Mount
from transom.result import Cases, Check, CheckArray
from transom.setup.records import Setup
from transom.units import Array


def trial_of(setup: Setup, cases: Cases, mounts: Sequence[Mount]) -> Trial:
    """The trial of mounts, one candidate each.

    Raises:
        JobError: a name the tables do not hold, or a bolted engine's mount without bolts.
    """
    measured = dict(setup.job.stock.measured)
    stacks = stacks_of([m.layers for m in mounts], setup.tables, measured)
    return Trial(setup, cases, stacks, _hardware(setup, mounts))


def _hardware(setup: Setup, mounts: Sequence[Mount]) -> Hardware:
    if setup.holding.by == "clamps":
        return clamp_pads(len(mounts), setup.holding.screw_pad, setup.tables)
    return hardware([_bolts(m) for m in mounts], setup.tables)


def _bolts(mount: Mount) -> EngineBolts:
    if mount.engine_bolts is None:
        raise JobError("[mount.engine_bolts]: missing; state thread, grade, length and what lies forward and aft")
    return mount.engine_bolts


def decided(checks: Sequence[CheckArray]) -> tuple[CheckArray, ...]:
    """The checks that decide."""
    return tuple(c for c in checks if not c.information)


Key = tuple[str, str, str]


def key_of(check: CheckArray | Check) -> Key:
    """A check whichever method it is by."""
    return (check.part, check.what, check.rule)


@dataclass(frozen=True)
class Calibration:
    """The careful method's utilisations against the pencil's for one mount, by check: `times` and `plus`, (v,).

    What the careful method finds where the pencil finds little or nothing is carried as an addition, so
    that no ratio explodes and none is lost.
    """

    times: Mapping[Key, Array]
    plus: Mapping[Key, Array]

    def applied(self, check: CheckArray) -> Array:
        """The pencil's utilisations (n, v) as the careful method would have them."""
        key = key_of(check)
        if key not in self.times:
            return check.utilisation
        return check.utilisation * self.times[key] + self.plus[key]


PENCIL = Calibration({}, {})
STEADY = (0.02, 4.0)  # larger ratios are carried as an addition, smaller ones not believed


def calibrate(pencil: Sequence[CheckArray], careful: Sequence[CheckArray]) -> Calibration:
    """Careful over pencil for the one mount both were run on."""
    other = {key_of(c): c for c in careful if c.method == "plate"}
    times, plus = {}, {}
    for check in pencil:
        key = key_of(check)
        if key in other:
            u, v = check.utilisation[0], other[key].utilisation[0]
            some = np.isfinite(u) & np.isfinite(v) & (u > 0)
            ratio = np.clip(np.where(some, v / np.where(some, u, 1.0), 1.0), *STEADY)
            times[key] = ratio
            plus[key] = np.where(some, np.maximum(v - ratio * u, 0.0), np.where(np.isfinite(v), v, np.inf))
    return Calibration(times, plus)


def worst(
    trial: Trial, calibration: Calibration = PENCIL, checks: Callable[[Trial], Sequence[CheckArray]] = all_checks
) -> Array:
    """The largest utilisation over all deciding checks and cases, (n,); NaN nowhere, missing is infinite."""
    return weakest(checks(trial), calibration)


def weakest(checks: Sequence[CheckArray], calibration: Calibration = PENCIL) -> Array:
    """The same of checks already made; minus infinity where none decides."""
    each = [np.max(calibration.applied(c), axis=1) for c in decided(checks)]
    return np.asarray(np.max(np.broadcast_arrays(-np.inf, *each), axis=0))


def careful_of(trial: Trial, rows: Sequence[int] | None = None, kin: Careful | None = None) -> Careful:
    """The careful method on the one candidate of a trial, in all its cases or in some; `kin` may have the same board."""
    if rows is None:
        return Careful(trial.setup, trial.cases, trial.stacks, trial.hardware, kin=kin)
    cases = trial.cases.take(rows)
    return Careful(trial.setup, cases, trial.stacks, trial.hardware, whole=trial, rows=tuple(rows), kin=kin)


def quick_look(trial: Trial, rows: Sequence[int] | None = None) -> Careful:
    """The careful method on one coarse grid: within a few percent, for looking over many candidates."""
    return replace(careful_of(trial, rows), target=QUICK_GRID, two_grids=False)


QUICK_GRID = 60.0  # mm
