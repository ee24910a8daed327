"""One maker for every check: what a part carries beside what it may carry, case by case."""

import numpy as np

from transom.checks.trial import Trial
from transom.result import CheckArray, rows_of
from transom.units import Array, Value


def check(
    trial: Trial, what: str, rule: str, demand: Value, limit: Value, source: str, unit: str = "N", *, part: str,
    method: str = "hand", evidence: str = "published", known_by: str = "transcribed",
    cases: tuple[str, ...] | None = None, note: str = "", information: bool = False,
) -> CheckArray:  # fmt: skip
    """A check in the trial's cases, or in those named; demand and limit in one unit, broadcasting to (n, v)."""
    return CheckArray(
        part=part,
        what=what,
        rule=rule,
        method=method,
        unit=unit,
        source=source,
        evidence=evidence,
        known_by=known_by,
        cases=trial.cases.names if cases is None else cases,
        demand=rows_of(demand),
        resistance=rows_of(limit),
        note=note,
        information=information,
    )


def load_duration_factor(trial: Trial, document: str) -> Array:
    """C_D of each case, (v,), in a document of allowable values: `nds` or `d510`."""
    short, brief = (trial.factor(f"{document}.C_D_{how}") for how in ("short", "instantaneous"))
    return np.array([short if d == "short" else brief for d in trial.cases.duration])
