"""Wrenches: from one point to another, from level axes to board axes, from the aft face to mid-thickness.

A wrench is an array (..., 6) of Fx, Fy, Fz in N and Mx, My, Mz in N*mm, acting on the mount. Board axes:
x aft, y starboard, z up the board, origin on the centreline, aft face, top edge.
"""

import numpy as np

from transom.formula import formula
from transom.frozen import dataclass
from transom.maths import cos, sin
from transom.units import MM, N_MM, RAD, Array, N, Value

STATICS = "statics, M' = M - r x F"


@formula(symbol="M_x'", source=STATICS, known_by="derived")
def moment_about_x(M_x: N_MM, F_y: N, F_z: N, y: MM, z: MM) -> N_MM:
    """Moment about the x axis through (y, z), for a moment stated about the datum."""
    return M_x - (y * F_z - z * F_y)


@formula(symbol="M_y'", source=STATICS, known_by="derived")
def moment_about_y(M_y: N_MM, F_x: N, F_z: N, x: MM, z: MM) -> N_MM:
    """Moment about the y axis through (x, z), for a moment stated about the datum."""
    return M_y - (z * F_x - x * F_z)


@formula(symbol="M_z'", source=STATICS, known_by="derived")
def moment_about_z(M_z: N_MM, F_x: N, F_y: N, x: MM, y: MM) -> N_MM:
    """Moment about the z axis through (x, y), for a moment stated about the datum."""
    return M_z - (x * F_y - y * F_x)


@formula(symbol="F_x", source="statics, e_x = (cos, 0, -sin)", known_by="derived")
def turned_x(F_x: N, F_z: N, theta: RAD) -> N:
    """Component square to a board whose top leans aft by theta, from level components."""
    return F_x * cos(theta) - F_z * sin(theta)


@formula(symbol="F_z", source="statics, e_z = (sin, 0, cos)", known_by="derived")
def turned_z(F_x: N, F_z: N, theta: RAD) -> N:
    """Component up a board whose top leans aft by theta, from level components."""
    return F_x * sin(theta) + F_z * cos(theta)


@formula(symbol="M_x", source="statics, e_x = (cos, 0, -sin)", known_by="derived")
def turned_moment_x(M_x: N_MM, M_z: N_MM, theta: RAD) -> N_MM:
    """Moment about the axis square to the board, from level components."""
    return M_x * cos(theta) - M_z * sin(theta)


@formula(symbol="M_z", source="statics, e_z = (sin, 0, cos)", known_by="derived")
def turned_moment_z(M_x: N_MM, M_z: N_MM, theta: RAD) -> N_MM:
    """Moment about the axis up the board, from level components."""
    return M_x * sin(theta) + M_z * cos(theta)


@formula(symbol="M_y,m", source="statics: in-plane load acts at the aft face", known_by="derived")
def mid_thickness_moment_y(M_y: N_MM, F_z: N, t: MM) -> N_MM:
    """Moment that pulls the top aft, about mid-thickness of a board t thick."""
    return M_y - F_z * t / 2


@formula(symbol="M_z,m", source="statics: in-plane load acts at the aft face", known_by="derived")
def mid_thickness_moment_z(M_z: N_MM, F_y: N, t: MM) -> N_MM:
    """Moment about the board's upward axis, about mid-thickness of a board t thick."""
    return M_z + F_y * t / 2


def about(wrench: Array, x: Value, y: Value, z: Value) -> Array:
    """The same wrench with its moments about the point (x, y, z), mm; shape (..., 6) in and out.

    A thrust of 1 kN forward, half a meter below the datum it was stated about:

    >>> about(np.array([-1000.0, 0, 0, 0, 0, 0]), 0, 0, -500).tolist()
    [-1000.0, 0.0, 0.0, 0.0, -500000.0, 0.0]
    """
    F_x, F_y, F_z, M_x, M_y, M_z = np.moveaxis(np.asarray(wrench, dtype=float), -1, 0)
    parts = (
        F_x,
        F_y,
        F_z,
        moment_about_x(M_x, F_y, F_z, y, z),
        moment_about_y(M_y, F_x, F_z, x, z),
        moment_about_z(M_z, F_x, F_y, x, y),
    )
    return np.stack(np.broadcast_arrays(*parts), axis=-1)


def turned(wrench: Array, theta: Value) -> Array:
    """Wrenches (..., 6) in level axes, turned into those of a board that leans aft by theta, rad, a float or (n, 1).

    A weight of 1 kN pulls off a board that leans 14 degrees with 242 N:

    >>> turned(np.array([0, 0, -1000.0, 0, 0, 0]), np.radians(14)).round(1).tolist()
    [241.9, 0.0, -970.3, 0.0, 0.0, 0.0]
    """
    F_x, F_y, F_z, M_x, M_y, M_z = np.moveaxis(np.asarray(wrench, dtype=float), -1, 0)
    parts = (
        turned_x(F_x, F_z, theta),
        F_y,
        turned_z(F_x, F_z, theta),
        turned_moment_x(M_x, M_z, theta),
        M_y,
        turned_moment_z(M_x, M_z, theta),
    )
    return np.stack(np.broadcast_arrays(*parts), axis=-1)


@dataclass(frozen=True)
class BoardActions:
    """What a board t thick resists, at mid-thickness below the datum; N, N*mm.

    `N` is forward push (v,), `M` the moment that pulls the top aft (n, v), `M_z` the moment about the
    upward axis (n, v); in the plane of the board `F_y`, `F_z` and `M_x` about the datum (v,).
    """

    N: Array
    M: Array
    M_z: Array
    F_y: Array
    F_z: Array
    M_x: Array


def board_actions(wrench: Array, t: Value) -> BoardActions:
    """Split wrenches (v, 6) about the datum into what boards of thickness t, (n, 1) or a float, resist."""
    F_x, F_y, F_z, M_x, M_y, M_z = np.moveaxis(np.asarray(wrench, dtype=float), -1, 0)
    return BoardActions(
        N=-F_x,
        M=np.asarray(mid_thickness_moment_y(M_y, F_z, t)),
        M_z=np.asarray(mid_thickness_moment_z(M_z, F_y, t)),
        F_y=F_y,
        F_z=F_z,
        M_x=M_x,
    )
