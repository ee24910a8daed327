"""Pod to crossmembers: a level group of bolts that hangs the pod, under the wrench carried down from the board.

Bolts pull and the pod presses, both in proportion to the distance from the group's own middle: of the
handbooks' pivots (edge, neutral axis, middle) the one with the largest pull. It is tension with contact where the
crossmembers give under the pod as much as the bolts do; they give less, the pivot moves to the pressed side and the
bolts pull less: in even rows always, in single holes but for a few percent, which are added. Moments about both level axes and the pull down are added at the worst corner.
"""

from functools import partial

import numpy as np

from transom.checks.check import check
from transom.checks.frame_pull import column_of, own_mass, worst_component
from transom.checks.joints import PUNCH, pull_over, punching, wall_bearing
from transom.checks.trial import Trial
from transom.formula import formula
from transom.frozen import dataclass
from transom.maths import absolute, largest, positive
from transom.result import CheckArray
from transom.setup.records import Bolting, Factors, LevelGroup, PodHold
from transom.standards.ec3 import (
    bolt_shear_resistance,
    bolt_tension_resistance,
    practice_edge,
    practice_pitch,
    shear_tension_interaction,
)
from transom.statics.bolt_group import couple_force, direct_force, resultant
from transom.statics.wrench import about, turned
from transom.units import KG, MM, MM2, N_MM, ONE, PER_MM, RAD, Array, N, Value

GROUP = "elastic group about its middle, the highest of the pivots of the AISC Manual, part 7"
UNSYMMETRIC = "unsymmetric bending of a group of areas about its middle"
RIVET = "ISO 15977, least shear and pull of the class, over the metal factor"
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


@formula(symbol="c", source=UNSYMMETRIC, known_by="derived", typical={"I_m": 3e5, "I_o": 2e5, "I_xy": 4e4})
def lever_of_moment(off: MM, other: MM, I_m: MM2, I_o: MM2, I_xy: MM2) -> PER_MM:
    """Pull of a bolt for a unit moment that bends the group over `off`, in a group of any shape."""
    return (off * I_o - other * I_xy) / (I_m * I_o - I_xy * I_xy)


@formula(symbol="T", source=GROUP, evidence="convention", known_by="memory")
def corner_pull(F_z: N, n: ONE, M_y: N_MM, c_x: PER_MM, M_x: N_MM, c_y: PER_MM, skew: ONE = 1.0) -> N:
    """Pull of a bolt: equal share of the pull down and both moments by their levers, signs taken as the worst."""
    return skew * positive(positive(-F_z) / n + absolute(M_y * c_x) + absolute(M_x * c_y))


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
    return about(turned(wrench, theta), pod.x, pod.group.y, pod.z)


def forces(trial: Trial, pod: PodHold) -> PodForces:
    """Pull and shear of the worst bolt, factored."""
    F_x, F_y, F_z, M_x, M_y, M_z = (
        F[..., None] for F in np.moveaxis(level(trial, trial.cases.design, pod), -1, 0)
    )  # the last axis is the bolts'
    m_e = np.asarray(column_of(trial.setup.loads.mass_light_kg))[..., None]
    F_z = np.asarray(with_pod(F_z, own_mass(trial)[..., None], np.asarray(pod.mass)[..., None], m_e))
    g = pod.group
    n = np.asarray(g.n)[..., None]
    J = np.asarray(polar(g.I_x, g.I_y))[..., None]
    along = worst_component(direct_force(F_x, n), couple_force(M_z, g.off_y, J))
    across = worst_component(direct_force(F_y, n), couple_force(M_z, g.off_x, J))
    return PodForces(
        pull=np.asarray(largest(np.asarray(_pull(F_z, M_x, M_y, n, g)))),
        shear=np.asarray(largest(np.asarray(resultant(along, across)))),
    )


def _pull(F_z: Array, M_x: Array, M_y: Array, n: Array, g: LevelGroup) -> Value:
    """Infinite where the group resists a moment about neither axis: one row, or bolts all on one line."""
    I_x, I_y = (np.asarray(v, dtype=float)[..., None] for v in (g.I_x, g.I_y))
    spread = (I_x > 0) & (I_y > 0)
    safe = [np.where(spread, v, 1.0) for v in (I_x, I_y)]
    held = spread & (np.asarray(stiff_both_ways(safe[0], safe[1], g.I_xy)) > FLAT)
    product = np.where(held, g.I_xy, 0.0)
    c_x = lever_of_moment(g.off_x, g.off_y, safe[0], safe[1], product)
    c_y = lever_of_moment(g.off_y, g.off_x, safe[1], safe[0], product)
    return np.where(held, corner_pull(F_z, n, M_y, c_x, M_x, c_y, g.skew), np.inf)


@formula(symbol="1 - I_xy^2/(I_x I_y)", source=UNSYMMETRIC, known_by="derived",
         typical={"I_x": 3e5, "I_y": 2e5, "I_xy": 4e4})  # fmt: skip
def stiff_both_ways(I_x: MM2, I_y: MM2, I_xy: MM2) -> ONE:
    """One for a group that resists moments about both its axes, nought where all bolts lie on one line."""
    return 1.0 - I_xy * I_xy / (I_x * I_y)


FLAT = 1e-6
NOTHING = 1e-9  # N; what no table lists


_check = partial(check, part="crossmembers", known_by="memory")


@formula(symbol="R_d", source="least in the standard over the metal factor", evidence="convention", known_by="derived")
def rivet_resistance(least: N, gamma_M2: ONE) -> N:
    """What a blind rivet is taken to carry, by its own table."""
    return least / gamma_M2


def metal_of(b: Bolting, factors: Factors) -> tuple[Value, Value]:
    """Pull and shear that one bolt's metal carries, or one blind rivet by its own table."""
    if b.kind == "blind rivets":
        return rivet_resistance(b.rivet_tension, factors.gamma_M2), rivet_resistance(b.rivet_shear, factors.gamma_M2)
    return (
        bolt_tension_resistance(b.f_ub, b.A_s, factors.gamma_M2),
        bolt_shear_resistance(b.f_ub, b.A_s, b.alpha_v, factors.gamma_M2),
    )


def checks(trial: Trial) -> tuple[CheckArray, ...]:
    """Bolts, and the wall they pull through; nothing where no pod holds the board."""
    pod = trial.setup.pod
    if pod is None:
        return ()
    F, b, factors = forces(trial, pod), pod.bolts, trial.setup.factors
    F_t, F_v = metal_of(b, factors)
    both = shear_tension_interaction(F.shear, np.maximum(F_v, NOTHING), F.pull, np.maximum(F_t, NOTHING))
    bearing = wall_bearing(b, pod.wall, pod.f_u, practice_edge(b.d), practice_pitch(b.d), factors)
    wall = pull_over(b, pod.wall, pod.f_u, trial.factor("adm.phi_pull_over"))
    riveted = b.kind == "blind rivets"
    rule, source, known = ("iso15977", RIVET, "memory") if riveted else ("ec3", BOLT, "transcribed")
    return (
        _check(trial, "bolt-tension", rule, F.pull, F_t, source, note=GROUP, known_by=known),
        _check(trial, "bolt-shear", rule, F.shear, F_v, source, known_by=known),
        _check(trial, "bolt-tension-and-shear", rule, both, 1.0, source, unit="", known_by=known),
        _check(trial, "wall-pull-through", "ec9", F.pull, punching(b, pod.wall, pod.f_u, factors.gamma_M2), PUNCH),
        _check(trial, "wall-pull-through", "adm", F.pull, wall, "Aluminum Design Manual, J.5, sheet over a washer",
               note="bending of the crossmember itself is not judged"),
        _check(trial, "wall-bearing", "ec9", F.shear, bearing, "EN 1999-1-1:2007, Table 8.5",
               note="edge 1.5 d and pitch 3 d taken, the least shops drill"),
    )  # fmt: skip
