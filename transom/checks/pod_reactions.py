"""What the crossmembers have to hold: the force of every pod bolt, by the elastic group, and of each crossmember.

Level axes (x aft, y starboard, z up) from the datum. A bolt may pull down or the pod press up beside it; both are
given as the group has them, with their signs. Board and pod hang with their own weight, the pod's below the
group's middle.
"""

import numpy as np

from transom.checks.crossmembers import back_to_level
from transom.checks.frame_pull import own_mass
from transom.checks.reactions import G, Reactions, added, gap, opposed, own_weight, turned_force, weight, wrench_of
from transom.checks.trial import Trial
from transom.formula import formula
from transom.frozen import dataclass
from transom.maths import scalar, total
from transom.statics.bolt_group import bolt_group
from transom.statics.wrench import about, turned
from transom.units import MM, MM2, MMS, N_MM, N_PER_MM, ONE, Array, N

ELASTIC = "elastic group of like bolts, unsymmetric bending"


@formula(symbol="I_xy", source=ELASTIC, known_by="derived")
def product_of(x: MMS, y: MMS) -> MM2:
    """Sum of products of distances from the middle."""
    return total(x * y)


@formula(symbol="a", source=ELASTIC, known_by="derived", typical={"I_x": 3e5, "I_y": 2e5, "I_xy": 4e4})
def slope_aft(M_x: N_MM, M_y: N_MM, I_x: MM2, I_y: MM2, I_xy: MM2) -> N_PER_MM:
    """Force up on a bolt for each mm aft of the middle."""
    return (-M_y * I_y - M_x * I_xy) / (I_x * I_y - I_xy * I_xy)


@formula(symbol="b", source=ELASTIC, known_by="derived", typical={"I_x": 3e5, "I_y": 2e5, "I_xy": 4e4})
def slope_across(M_x: N_MM, M_y: N_MM, I_x: MM2, I_y: MM2, I_xy: MM2) -> N_PER_MM:
    """Force up on a bolt for each mm to starboard of the middle."""
    return (M_x * I_x + M_y * I_xy) / (I_x * I_y - I_xy * I_xy)


@formula(symbol="R_i", source=ELASTIC, known_by="derived", typical={"n": 8.0})
def force_on_bolt(F_z: N, n: ONE, a: N_PER_MM, x: MM, b: N_PER_MM, y: MM) -> N:
    """Force up on a bolt at x, y from the middle of n."""
    return F_z / n + a * x + b * y


@dataclass(frozen=True)
class PodReactions:
    """Forces on the crossmembers, level axes; `weights` (2, 3) N of board and pod act at `weights_at` (2, 3) mm."""

    forces: Reactions
    weights: Array
    weights_at: Array


def pod_reactions(trial: Trial) -> PodReactions | None:
    """Forces on the crossmembers under the characteristic loads; None where no pod hangs or its bolts hold no moment."""
    pod = trial.setup.pod
    if pod is None or not len(pod.group.at):
        return None
    x, y = pod.group.at.T
    # Places were measured along the level at the crossmembers; the datum leans aft over them.
    x = np.asarray(gap(x, float(gap(x.mean(), scalar(pod.x)))))
    middle = np.array([x.mean(), y.mean(), scalar(pod.z)])
    weights, weights_at = _weights(trial, middle)
    v = len(trial.cases)
    there = wrench_of(np.broadcast_to(weights, (v, 2, 3)), weights_at, middle)
    level = about(turned(np.asarray(trial.cases.wrench).reshape(v, 6), _lean(trial)), *middle)
    F_x, F_y, F_z, M_x, M_y, M_z = (np.asarray(added(level[:, i], there[:, i])) for i in range(6))
    dx, dy = np.asarray(gap(x, middle[0])), np.asarray(gap(y, middle[1]))
    I = [float(product_of(*pair)) for pair in ((dx, dx), (dy, dy), (dx, dy))]  # noqa: E741 sums of squares
    if not min(I[:2]) > 0 or np.linalg.matrix_rank(np.stack([dx, dy])) < len(("x", "y")):
        return None
    a, b = (np.asarray(f(M_x, M_y, *I))[:, None] for f in (slope_aft, slope_across))
    up = force_on_bolt(F_z[:, None], float(len(x)), a, dx, b, dy)
    level_shares = bolt_group(F_y=F_x, F_z=F_y, M_x=M_z, y=dx, z=dy)
    force = np.stack([level_shares.across, level_shares.up, np.asarray(up)], axis=-1)
    at = np.stack([x, y, np.full(len(x), middle[2])], axis=-1)
    return PodReactions(Reactions(_names(x), at, force, weights[0], weights_at[0]), weights, weights_at)


def _weights(trial: Trial, middle: Array) -> tuple[Array, Array]:
    """Weights of board and pod, level axes, and where they act."""
    _, at = own_weight(trial)
    masses = (scalar(own_mass(trial)), scalar(trial.setup.pod.mass if trial.setup.pod else 0.0))
    down = [float(opposed(weight(m, G))) for m in masses]
    board = turned_force(at, _lean(trial))
    return np.array([[0.0, 0.0, W] for W in down]), np.stack([board, middle])


def _lean(trial: Trial) -> Array:
    return np.asarray(back_to_level(scalar(trial.setup.place.lean)))


def _names(x: Array) -> tuple[str, ...]:
    """Which crossmember each bolt is in, counted forward."""
    rows = {v: i for i, v in enumerate(sorted({round(float(v), 1) for v in x}, reverse=True), 1)}
    return tuple(f"crossmember {rows[round(float(v), 1)]}" for v in x)
