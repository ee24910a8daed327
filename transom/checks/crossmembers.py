"""Pod to crossmembers: a level group of bolts that hangs the pod, under the wrench carried down from the board.

Bolts pull and the pod presses, both in proportion to the distance from the group's own middle: of the
handbooks' pivots (edge, neutral axis, middle) the one with the largest pull. Moments about both level axes
and the pull down are added at the worst corner.
"""

from dataclasses import dataclass

import numpy as np

from transom.checks.frame import column_of, own_mass, worst_component
from transom.checks.joints import PUNCH, pull_over, punching, wall_bearing
from transom.checks.trial import Trial
from transom.formula import formula
from transom.maths import absolute, positive
from transom.result import CheckArray
from transom.setup.records import PodHold
from transom.standards.ec3 import (
    bolt_shear_resistance,
    bolt_tension_resistance,
    practice_edge,
    practice_pitch,
    shear_tension_interaction,
)
from transom.statics.bolt_group import couple_force, direct_force, resultant
from transom.statics.wrench import about, turned
from transom.units import KG, MM, MM2, N_MM, ONE, RAD, Array, N, Value

GROUP = "elastic group about its middle, the highest of the pivots of the AISC Manual, part 7"
BOLT = "EN 1993-1-8:2005, Table 3.4"


@formula(symbol="-theta", source="geometry", known_by="derived")
def back_to_level(theta: RAD) -> RAD:
    """The turn from board axes to level axes."""
    return -theta


@formula(symbol="F_z", source="own weight in the ratio of masses, in every case", evidence="convention",
         known_by="derived", typical={"m_board": 10.0, "m_pod": 40.0, "m_e": 120.0})  # fmt: skip
def with_pod(F_z: N, m_board: KG, m_pod: KG, m_e: KG) -> N:
    """Pull down with board and pod hanging too, as if all of it came from weight."""
    return F_z * (1.0 + (m_board + m_pod) / m_e)


@formula(symbol="T", source=GROUP, evidence="convention", known_by="memory")
def corner_pull(F_z: N, n: ONE, M_y: N_MM, far_x: MM, I_x: MM2, M_x: N_MM, far_y: MM, I_y: MM2) -> N:
    """Pull of the worst corner bolt: equal share of the pull down and both moments in proportion to distance."""
    return positive(positive(-F_z) / n + absolute(M_y) * far_x / I_x + absolute(M_x) * far_y / I_y)


@formula(symbol="J", source=GROUP, known_by="derived")
def polar(I_x: MM2, I_y: MM2) -> MM2:
    """Sum of squared distances from the group's middle."""
    return I_x + I_y


@dataclass(frozen=True)
class PodForces:
    """What the worst bolt up into a crossmember carries, N, (n, v)."""

    pull: Array
    shear: Array


def level(trial: Trial, wrench: Array, pod: PodHold) -> Array:
    """Wrenches (..., v, 6) about the middle of the group, level axes."""
    theta = np.asarray(back_to_level(trial.setup.place.lean))
    return about(turned(wrench, theta), pod.x, 0.0, pod.z)


def forces(trial: Trial, pod: PodHold) -> PodForces:
    """Pull and shear of the worst corner bolt, factored."""
    F_x, F_y, F_z, M_x, M_y, M_z = np.moveaxis(level(trial, trial.cases.design, pod), -1, 0)
    F_z = np.asarray(with_pod(F_z, own_mass(trial), pod.mass, column_of(trial.setup.loads.mass_light_kg)))
    J = polar(pod.I_x, pod.I_y)
    along = worst_component(direct_force(F_x, pod.n), couple_force(M_z, pod.far_y, J))
    across = worst_component(direct_force(F_y, pod.n), couple_force(M_z, pod.far_x, J))
    return PodForces(
        pull=np.asarray(_pull(F_z, M_x, M_y, pod)),
        shear=np.asarray(resultant(along, across)),
    )


def _pull(F_z: Array, M_x: Array, M_y: Array, pod: PodHold) -> Value:
    """Infinite where the group resists a moment about neither axis: one row, or one bolt in each."""
    held = (np.asarray(pod.I_x) > 0) & (np.asarray(pod.I_y) > 0)
    safe = [np.where(np.asarray(v) > 0, v, 1.0) for v in (pod.I_x, pod.I_y)]
    return np.where(held, corner_pull(F_z, pod.n, M_y, pod.far_x, safe[0], M_x, pod.far_y, safe[1]), np.inf)


def _check(trial: Trial, what: str, rule: str, demand: Value, limit: Value, source: str, unit: str = "N",
           note: str = "", known_by: str = "memory") -> CheckArray:  # fmt: skip
    return CheckArray(
        part="crossmembers",
        what=what,
        rule=rule,
        method="hand",
        unit=unit,
        source=source,
        evidence="published",
        known_by=known_by,
        cases=trial.cases.names,
        demand=np.atleast_2d(np.asarray(demand, dtype=float)),
        resistance=np.atleast_2d(np.asarray(limit, dtype=float)),
        note=note,
    )


def checks(trial: Trial) -> tuple[CheckArray, ...]:
    """Bolts, and the wall they pull through; nothing where no pod holds the board."""
    pod = trial.setup.pod
    if pod is None:
        return ()
    F, b, factors = forces(trial, pod), pod.bolts, trial.setup.factors
    F_t = bolt_tension_resistance(b.f_ub, b.A_s, factors.gamma_M2)
    F_v = bolt_shear_resistance(b.f_ub, b.A_s, b.alpha_v, factors.gamma_M2)
    both = shear_tension_interaction(F.shear, F_v, F.pull, F_t)
    bearing = wall_bearing(b, pod.wall, pod.f_u, practice_edge(b.d), practice_pitch(b.d), factors)
    wall = pull_over(b, pod.wall, pod.f_u, trial.factor("adm.phi_pull_over"))
    return (
        _check(trial, "bolt-tension", "ec3", F.pull, F_t, BOLT, note=GROUP, known_by="transcribed"),
        _check(trial, "bolt-shear", "ec3", F.shear, F_v, BOLT, known_by="transcribed"),
        _check(trial, "bolt-tension-and-shear", "ec3", both, 1.0, BOLT, unit="", known_by="transcribed"),
        _check(trial, "wall-pull-through", "ec9", F.pull, punching(b, pod.wall, pod.f_u, factors.gamma_M2), PUNCH),
        _check(trial, "wall-pull-through", "adm", F.pull, wall, "Aluminum Design Manual, J.5, sheet over a washer",
               note="bending of the crossmember itself is not judged"),
        _check(trial, "wall-bearing", "ec9", F.shear, bearing, "EN 1999-1-1:2007, Table 8.5",
               note="edge 1.5 d and pitch 3 d taken, the least shops drill"),
    )  # fmt: skip
