"""When to look at a setback bracket's welds first: information, on conventions and a detail class from memory; no pass."""

import numpy as np

from transom.checks.setback import bracket_check, lines
from transom.checks.trial import Trial
from transom.formula import formula
from transom.result import ONCE, CheckArray
from transom.setup.setback_records import PlateBracket
from transom.standards import iiw
from transom.statics.welds import throat
from transom.units import N_MM, Array, N

NEEDED = ("ahead", "astern", "wave")
MOST = 1.0e6  # hours; what lies beyond is no figure


@formula(symbol="d_F", source="from full ahead to full astern", evidence="convention", known_by="derived")
def force_range(F_1: N, F_2: N) -> N:
    """Range of a force between two situations."""
    return F_1 - F_2


@formula(symbol="d_M", source="from full ahead to full astern", evidence="convention", known_by="derived")
def moment_range(M_1: N_MM, M_2: N_MM) -> N_MM:
    """Range of a moment between two situations."""
    return M_1 - M_2


def checks(trial: Trial) -> tuple[CheckArray, ...]:
    """Hours to the first look against the shop's season; nothing without a bracket of plates or its three situations."""
    hold = trial.setup.bracket
    if hold is None or hold.plates is None or any(name not in trial.cases.names for name in NEEDED):
        return ()
    h = first_look(trial, hold.plates)
    return (
        bracket_check(trial, "weld-fatigue", "iiw", trial.factor("fatigue.season_h"), h[:, None], iiw.DETAIL, "h", cases=(ONCE,),
              note="hours to the first look at the worst weld; cycles an hour are a convention, provisional",
              information=True),
    )  # fmt: skip


def first_look(trial: Trial, b: PlateBracket) -> Array:
    """Hours of running to the first look at the worst weld, (n,)."""
    w = trial.cases.wrench
    ahead, astern, wave = (w[..., [trial.cases.names.index(name)], :] for name in NEEDED)
    turned = np.concatenate(
        [
            np.asarray(force_range(ahead[..., :3], astern[..., :3])),
            np.asarray(moment_range(ahead[..., 3:], astern[..., 3:])),
        ],
        axis=-1,
    )
    worst = []
    for weld, share in ((b.base_weld, 0.0), (b.engine_weld, 1.0)):
        found = np.concatenate(
            np.broadcast_arrays(*(np.atleast_2d(lines(b, weld, share, r).fillet) for r in (turned, wave))), axis=-1
        )
        worst.append(_hours(trial, np.asarray(iiw.throat_range(found, throat(weld.leg)))))
    return np.asarray(np.min(np.broadcast_arrays(*worst), axis=0))


def _hours(trial: Trial, ranges: Array) -> Array:
    """Hours under the ranges (n, 2) of turning round and of waves; a range that is no number gives none."""
    an_hour = np.array([trial.factor("fatigue.turns"), trial.factor("fatigue.waves")])
    good = np.isfinite(ranges) & (ranges > 0)
    N = iiw.cycles(trial.factor("fatigue.FAT_MPa"), np.where(good, ranges, 1.0), trial.factor("fatigue.gamma_Mf"))
    h = np.asarray(iiw.hours(iiw.damage(an_hour, np.asarray(N))))
    return np.where(good.all(axis=-1), np.minimum(h, MOST), np.nan)
