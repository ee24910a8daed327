"""The engine bolts: pull, shear and both in the metal; pushed sideways in the wood."""

from functools import partial

import numpy as np

from transom.checks.check import check
from transom.checks.trial import Trial
from transom.result import CheckArray
from transom.standards.ec3 import bolt_shear_resistance, bolt_tension_resistance, shear_tension_interaction

TABLE = "EN 1993-1-8:2005, Table 3.4"


_check = partial(check, part="engine-bolts")


def metal(trial: Trial) -> tuple[CheckArray, ...]:
    """Bolts in tension, in shear through the thread, and in both."""
    w, gamma = trial.hardware, trial.setup.factors.gamma_M2
    F_t = np.asarray(bolt_tension_resistance(w.f_ub, w.A_s, gamma))
    F_v = np.asarray(bolt_shear_resistance(w.f_ub, w.A_s, w.alpha_v, gamma))
    both = shear_tension_interaction(trial.shear, F_v, trial.tension, F_t)
    return (
        _check(trial, "tension", "ec3", trial.tension, F_t, TABLE, method=trial.method, note="known to about 30 %"),
        _check(trial, "shear", "ec3", trial.shear, F_v, TABLE, note="thread taken in the shear plane (conservative)"),
        _check(trial, "tension-and-shear", "ec3", both, 1.0, TABLE, unit="", method=trial.method),
    )
