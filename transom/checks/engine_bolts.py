"""The engine bolts: pull, shear and both in the metal; pushed sideways in the wood."""

import numpy as np

from transom.checks.trial import Trial
from transom.result import CheckArray
from transom.standards.ec3 import bolt_shear_resistance, bolt_tension_resistance, shear_tension_interaction
from transom.units import Value

TABLE = "EN 1993-1-8:2005, Table 3.4"


def _check(
    trial: Trial, what: str, demand: Value, resistance: Value, unit: str, note: str = "", method: str = ""
) -> CheckArray:
    return CheckArray(
        part="engine-bolts",
        what=what,
        rule="ec3",
        method=method or trial.method,
        unit=unit,
        source=TABLE,
        evidence="published",
        known_by="transcribed",
        cases=trial.cases.names,
        demand=np.atleast_2d(np.asarray(demand)),
        resistance=np.atleast_2d(np.asarray(resistance)),
        note=note,
    )


def metal(trial: Trial) -> tuple[CheckArray, ...]:
    """Bolts in tension, in shear through the thread, and in both."""
    w, gamma = trial.hardware, trial.setup.factors.gamma_M2
    F_t = np.asarray(bolt_tension_resistance(w.f_ub, w.A_s, gamma))
    F_v = np.asarray(bolt_shear_resistance(w.f_ub, w.A_s, w.alpha_v, gamma))
    both = shear_tension_interaction(trial.shear, F_v, trial.tension, F_t)
    return (
        _check(trial, "tension", trial.tension, F_t, "N", "known to about 30 %"),
        _check(trial, "shear", trial.shear, F_v, "N", "thread taken in the shear plane (conservative)", "hand"),
        _check(trial, "tension-and-shear", both, np.ones((1, 1)), ""),
    )
