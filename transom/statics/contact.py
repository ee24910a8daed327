"""A bracket held to a board by bolts that only pull and pads that only push.

Depths z are positive down from the top edge; N pushes forward and M pulls the top aft, both about the
datum and for the whole bracket; T is the tension of one bolt, two bolts a row.
"""

from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from transom.formula import formula
from transom.frozen import dataclass
from transom.maths import absolute, maximum, minimum, positive, where
from transom.units import MM, N_MM, ONE, Array, N, Value

Flags: TypeAlias = NDArray[np.bool_]

OWN = "bracket contact, pads at 0.8 and 0.2 of their height; own method, set by an orthotropic plate model"
EQUILIBRIUM = "statics, equilibrium of the bracket"


@dataclass(frozen=True)
class Pattern:
    """Where the bracket meets the board, mm: bolt rows at depths z_u and z_l and half spacings y_u and
    y_l, pads from the top edge to depth h with centres at +-y_pad. Pulled backwards the bracket bears at
    `top_share` of h."""

    z_u: Value
    z_l: Value
    y_u: Value
    y_l: Value
    h: Value
    y_pad: Value
    top_share: Value = 0.2


@formula(symbol="h", source=EQUILIBRIUM, known_by="derived")
def bearing_height(h: MM, H: MM) -> MM:
    """Pad height that finds wood behind it: none below a board H high."""
    return minimum(h, H)


@formula(symbol="z_c", source=OWN, evidence="convention", known_by="computed")
def foot_pivot(h: MM, share: ONE = 0.8) -> MM:
    """Depth at which the pads push when the upper bolts pull."""
    return share * h


@formula(symbol="z_c", source=OWN, evidence="convention", known_by="computed")
def top_pivot(h: MM, share: ONE = 0.2) -> MM:
    """Depth at which the pads push when the lower bolts pull."""
    return share * h


@formula(symbol="d", source=EQUILIBRIUM, evidence="convention", known_by="derived")
def lever(z_low: MM, z_high: MM, least: MM = 1.0) -> MM:
    """Distance between two depths; never under `least`, so that rows that coincide give a large force."""
    return maximum(z_low - z_high, least)


@formula(symbol="T_u", source=OWN, evidence="convention", known_by="computed")
def upper_bolt_tension(M: N_MM, N: N, z_c: MM, d: MM) -> N:
    """Tension of each upper bolt, pads pushing at depth z_c, d below it; below zero it does not pull."""
    return (M - z_c * N) / (2 * d)


@formula(symbol="T_l", source=OWN, evidence="convention", known_by="computed")
def lower_bolt_tension(M: N_MM, N: N, z_c: MM, d: MM) -> N:
    """Tension of each lower bolt, pads pushing at depth z_c, d above it; below zero it does not pull."""
    return (z_c * N - M) / (2 * d)


@formula(symbol="T_u", source=EQUILIBRIUM, known_by="derived")
def upper_share_of_pull(M: N_MM, N: N, z_l: MM, d: MM) -> N:
    """Tension of each upper bolt where both rows pull and no pad pushes; rows d apart."""
    return (M - z_l * N) / (2 * d)


@formula(symbol="T_l", source=EQUILIBRIUM, known_by="derived")
def lower_share_of_pull(M: N_MM, N: N, z_u: MM, d: MM) -> N:
    """Tension of each lower bolt where both rows pull and no pad pushes; rows d apart."""
    return (z_u * N - M) / (2 * d)


@formula(symbol="C", source=EQUILIBRIUM, known_by="derived")
def contact_force(N: N, T_u: N, T_l: N) -> N:
    """Push of all pads: the forward force and whatever the bolts pull."""
    return positive(N + 2 * T_u + 2 * T_l)


@formula(symbol="k_pry", source=OWN, evidence="convention", known_by="computed")
def prying_factor(t: MM, t_0: MM = 45.0) -> ONE:
    """Factor on the tension of bolts and of what lies under them: thin boards pry."""
    return maximum(t_0 / t, 1.0)


@formula(symbol="T_z", source=EQUILIBRIUM, known_by="derived")
def couple_tension(M_z: N_MM, y: MM) -> N:
    """Tension added to each bolt of the worse side by the couple about the upward axis, bolts at +-y."""
    return absolute(M_z) / (4 * y)


@formula(symbol="T", source=OWN, evidence="convention", known_by="computed")
def bolt_tension(T: N, k_pry: ONE, T_z: N) -> N:
    """Tension of the worse bolt of a row, with prying and the couple about the upward axis."""
    return T * k_pry + T_z


@dataclass(frozen=True)
class Contact:
    """Tension per bolt without prying, N; push of all pads, N; and which state holds.

    `ahead`: the upper bolts pull and the foot pushes (else the lower bolts pull and the top pushes).
    `lifted`: both rows pull, no pad touches. `pressed`: the push lies within the pads, no bolt pulls.
    """

    T_u: Array
    T_l: Array
    C: Array
    ahead: Flags
    lifted: Flags
    pressed: Flags


def bracket_contact(N: Value, M: Value, pattern: Pattern) -> Contact:
    """Bolt tensions and pad push in equilibrium with a forward force N and a moment M.

    Upper bolts against the foot or lower bolts against the top, the larger; between the two no bolt pulls
    and the pads push within their height. Where a pull off the board acts between the bolt rows, the pads
    let go and the rows share it as a lever does. Tension is continuous in N and M from state to state.
    Shapes broadcast.
    """
    foot, top = foot_pivot(pattern.h), top_pivot(pattern.h, pattern.top_share)
    upper = upper_bolt_tension(M, N, foot, lever(foot, pattern.z_u))
    lower = lower_bolt_tension(M, N, top, lever(pattern.z_l, top))
    rows = lever(pattern.z_l, pattern.z_u)
    upper_pull = upper_share_of_pull(M, N, pattern.z_l, rows)
    lower_pull = lower_share_of_pull(M, N, pattern.z_u, rows)
    lifted = np.asarray(upper_pull > 0) & np.asarray(lower_pull > 0)
    pressed = np.asarray(upper <= 0) & np.asarray(lower <= 0)
    ahead = np.asarray(where(lifted, upper_pull >= lower_pull, upper >= lower))
    T_u = np.asarray(where(lifted, upper_pull, where(ahead, positive(upper), 0.0)))
    T_l = np.asarray(where(lifted, lower_pull, where(ahead, 0.0, positive(lower))))
    return Contact(T_u, T_l, np.asarray(contact_force(N, T_u, T_l)), ahead, lifted, pressed)
