"""Bolt-up: what a torque does to the bolt and to the dry face, and the one torque that is printed."""

import numpy as np

from transom.checks.check import check
from transom.checks.trial import Trial
from transom.formula import formula
from transom.maths import minimum
from transom.result import CheckArray
from transom.standards.iso898 import clamp_load, proof_load
from transom.standards.shigley import clamp_load_at_torque, torque
from transom.units import MM2, MPA, Array, N

BOLT_UP = ("bolt-up",)
STRETCH = "Shigley 9e, eq 8-27 and 8-31: 0.75 of proof"
CRUSH = "EN 1995-1-1:2004, 8.5.2(2), dry face, without k_mod (convention)"


@formula(symbol="F_c", source=CRUSH, evidence="convention", known_by="derived")
def dry_crush_load(f_k: MPA, A: MM2) -> N:
    """Clamp load at which the dry face under washer or plate begins to crush."""
    return f_k * A


def nut_factors(trial: Trial) -> tuple[Array, Array]:
    """Lowest and usual nut factor for the threads' condition and each bolt's metal, (n, 1)."""
    factor, threads = trial.setup.tables.factor, trial.setup.job.engine.threads
    usual = factor(f"nut_factor.{threads}")
    stainless = factor("nut_factor.dry_stainless") if threads == "dry" else usual
    pairs = [(float(r.value if r.low is None else r.low), float(r.value)) for r in (stainless, usual)]
    picked = [np.where(trial.hardware.stainless > 0, a, b) for a, b in zip(*pairs, strict=True)]
    return picked[0], picked[1]


def most_clamp(trial: Trial) -> tuple[Array, Array]:
    """Clamp load the bolt takes, and the dry face takes at the smaller patch, each (n, 1)."""
    w = trial.hardware
    bolt = np.asarray(clamp_load(proof_load(w.proof, w.A_s)))
    return bolt, np.asarray(dry_crush_load(trial.dry_crush, trial.dry_area))


def proposed(trial: Trial) -> Array:
    """The most torque that passes neither the bolt nor the dry face, N*mm, (n, 1).

    The bolt's 0.75 of proof is what is aimed at with the usual nut factor and leaves room for its scatter;
    crushed wood does not come back, so the face is kept at the lowest nut factor.
    """
    low, usual = nut_factors(trial)
    bolt, face = most_clamp(trial)
    return np.asarray(minimum(torque(usual, trial.hardware.d, bolt), torque(low, trial.hardware.d, face)))


def checks(trial: Trial) -> tuple[CheckArray, ...]:
    """Bolt and dry face at the stated torque; none where no torque was stated."""
    T = trial.setup.job.engine.torque
    if T is None:
        return ()
    low, usual = nut_factors(trial)
    bolt, face = most_clamp(trial)
    return tuple(
        check(trial, what, "", clamp_load_at_torque(T, K, trial.hardware.d), limit, source, part=part, evidence=evidence,
              known_by="transcribed" if evidence == "published" else "derived", cases=BOLT_UP,
              note=f"clamp load of the stated torque at nut factor {np.min(K):g}")
        for part, what, source, evidence, limit, K in (
            ("engine-bolts", "stretch-at-bolt-up", STRETCH, "published", bolt, usual),
            ("backing", "wood-crushing-at-bolt-up", CRUSH, "convention", face, low),
        )
    )  # fmt: skip
