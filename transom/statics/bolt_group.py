"""Bolts sharing a load in the plane of the board: the elastic vector method.

Every bolt takes an equal part of the force and, of the couple about the group's centroid, a part square
to and in proportion to its distance from there.
"""

import numpy as np

from transom.formula import formula
from transom.frozen import dataclass
from transom.maths import largest, sqrt, total
from transom.statics.wrench import moment_about_x
from transom.units import MM, MM2, MMS, N_MM, ONE, Array, N, Value

SHIGLEY = "Budynas and Nisbett, Mechanical Engineering Design, 9th ed., section 8-12, Eqs 8-56 and 8-57"


@formula(symbol="y_c", source=SHIGLEY)
def centroid(y: MMS, n: ONE) -> MM:
    """Centroid of n like bolts along one axis."""
    return total(y) / n


@formula(symbol="J", source=SHIGLEY)
def polar_moment(y: MMS, z: MMS) -> MM2:
    """Sum of squared distances of like bolts from their centroid; y and z measured from there."""
    return total(y * y + z * z)


@formula(symbol="F'", source=SHIGLEY)
def direct_force(V: N, n: ONE) -> N:
    """Equal share of a force among n bolts."""
    return V / n


@formula(symbol="F''", source=SHIGLEY)
def couple_force(M: N_MM, r: MM, J: MM2) -> N:
    """Share of the couple M taken by a bolt at distance r from the centroid."""
    return M * r / J


@formula(symbol="F_y", source=SHIGLEY)
def force_across(V_y: N, M: N_MM, z: MM, n: ONE, J: MM2) -> N:
    """Force across the board on a bolt at z up from the centroid; M turns y towards z."""
    return V_y / n - M * z / J


@formula(symbol="F_z", source=SHIGLEY)
def force_up(V_z: N, M: N_MM, y: MM, n: ONE, J: MM2) -> N:
    """Force up the board on a bolt at y across from the centroid; M turns y towards z."""
    return V_z / n + M * y / J


@formula(symbol="F", source="statics", known_by="derived")
def resultant(F_y: N, F_z: N) -> N:
    """Resultant of two components square to each other."""
    return sqrt(F_y * F_y + F_z * F_z)


@formula(symbol="y", source="statics", known_by="derived")
def from_centroid(y: MM, y_c: MM) -> MM:
    """Position measured from the centroid."""
    return y - y_c


@dataclass(frozen=True)
class BoltForces:
    """Forces on each bolt in the plane of the board: `across`, `up`, `resultant` (..., b) in N."""

    across: Array
    up: Array
    resultant: Array

    @property
    def largest(self) -> Array:
        """The largest resultant of the group, (...)."""
        return np.asarray(largest(self.resultant))


def bolt_group(*, F_y: Value, F_z: Value, M_x: Value, y: Array, z: Array) -> BoltForces:
    """Share an in-plane load among like bolts, elastic vector method.

    Args:
        F_y, F_z: force across (starboard) and up the board, N, any shape that broadcasts.
        M_x: moment about the x axis (y towards z) through the origin of y and z, N*mm.
        y, z: bolt positions (b,), or (n, 1, b) for n patterns, mm; z up, so negative below the datum.

    Returns:
        Forces with the bolts on a last axis added to the loads' shape.

    Raises:
        ValueError: fewer than two places: the group has no resistance to a couple.

    Four bolts at the corners of a square share 4 kN down evenly:

    >>> y, z = np.array([-50.0, 50, -50, 50]), np.array([50.0, 50, -50, -50])
    >>> bolt_group(F_y=0.0, F_z=-4000.0, M_x=0.0, y=y, z=z).up.tolist()
    [-1000.0, -1000.0, -1000.0, -1000.0]
    """
    y, z = np.asarray(y, dtype=float), np.asarray(z, dtype=float)
    n = y.shape[-1]
    y_c, z_c = np.asarray(centroid(y, n)), np.asarray(centroid(z, n))
    M = np.asarray(moment_about_x(M_x, F_y, F_z, y_c, z_c))
    y, z = np.asarray(from_centroid(y, y_c[..., None])), np.asarray(from_centroid(z, z_c[..., None]))
    J = np.asarray(polar_moment(y, z))
    if not np.all(J > 0):
        raise ValueError(f"bolt group: {n} bolts at one place resist no couple; give two places or more")
    y, z = _bolts_first(y, M.ndim), _bolts_first(z, M.ndim)
    across, up = np.broadcast_arrays(force_across(F_y, M, z, n, J), force_up(F_z, M, y, n, J))
    result = np.asarray(resultant(across, up))
    return BoltForces(*(np.moveaxis(x, 0, -1) for x in (across, up, result)))


def _bolts_first(x: Array, loads: int) -> Array:
    """Positions (..., b) with the bolts before so many axes of the loads, along which arrays are quick."""
    first = np.moveaxis(x, -1, 0)
    while first.ndim <= loads:
        first = first[:, None]
    return first
