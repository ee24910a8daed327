"""Setup, cases and candidates to utilisations: the one path that review, size and every 'what if' take."""

from collections.abc import Sequence

import numpy as np

from transom.checks import all_checks
from transom.checks.hardware import Hardware, clamp_pads, hardware
from transom.checks.mounts import stacks_of
from transom.checks.trial import Trial
from transom.errors import JobError
from transom.job.records import EngineBolts, Mount
from transom.result import Cases, CheckArray
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
        return clamp_pads(len(mounts), setup.tables)
    return hardware([_bolts(m) for m in mounts], setup.tables)


def _bolts(mount: Mount) -> EngineBolts:
    if mount.engine_bolts is None:
        raise JobError("[mount.engine_bolts]: missing; state thread, grade, length and what lies forward and aft")
    return mount.engine_bolts


def decided(checks: Sequence[CheckArray]) -> tuple[CheckArray, ...]:
    """The checks that decide."""
    return tuple(c for c in checks if not c.information)


def worst(trial: Trial) -> Array:
    """The largest utilisation over all deciding checks and cases, (n,)."""
    each = np.broadcast_arrays(*(c.worst for c in decided(all_checks(trial))))
    return np.asarray(np.max(each, axis=0))
