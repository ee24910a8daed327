"""What several cards share, by hand: the mount of `tests.checks.shop` in plain numbers.

Two sheets of 18.26 mm across, Douglas-fir marine (f_r 1.4, f_c,90 2.24 MPa, 460 kg/m3); four 1/2-13 F593C bolts (f_ub 689 MPa,
A_s 91.5, gross 126.7 mm2), upper 327.0 apart 47.6 down, lower 250.8 apart 250.8 down; pads to 330; pair plates 6.35 of
6061-T6 (240 MPa) 381 x 76.2. Wrenches about the datum: top edge, aft face, center line; x aft, y starboard, z up.
"""

from math import hypot

Wrench = tuple[float, ...]

T = 36.52
PRY = 45 / T  # thin boards pry: basis 4.1
K = 0.7 / 1.2  # EN 1995-1-1 Table 3.1 plywood, service class 3, short; Table 2.3 plywood
K_JOINT = 0.7 / 1.3  # connections
AT = ((-163.5, -47.6), (163.5, -47.6), (-125.4, -250.8), (125.4, -250.8))


def upper(w: Wrench, pivot: float = 264.0, pry: float = PRY, lever: float = T / 2, couple: float = 1.0, two: float = 2.0,
          y: float = 163.5) -> float:  # fmt: skip
    """Pull of the worse upper bolt, N: pads at 0.8 h; in-plane load acts at the aft face, the board resists at mid-thickness."""
    F_x, F_y, F_z, _, M_y, M_z = w
    M = M_y - F_z * lever
    return max((M + pivot * F_x) / (two * (264.0 - 47.6)), 0.0) * pry + couple * abs(M_z + F_y * lever) / (4 * y)


def lower(w: Wrench, pivot: float = 66.0, pry: float = PRY, lever: float = T / 2, couple: float = 1.0, sign: float = 1.0,
          y: float = 125.4) -> float:  # fmt: skip
    """Pull of the worse lower bolt, N: pads at 0.2 h, the moment the other way."""
    F_x, F_y, F_z, _, M_y, M_z = w
    M = M_y - F_z * lever
    return max((-sign * M - pivot * F_x) / (2 * (250.8 - 66.0)), 0.0) * pry + couple * abs(M_z + F_y * lever) / (4 * y)


def sideways(w: Wrench, about: float = 149.2, turn: float = 1.0, swapped: bool = False, F_y: float = 1.0) -> float:
    """Largest force on a bolt in the plane of the board, N: elastic vector method about the bolts' own middle."""
    _, y, z, M_x, _, _ = w
    M = (M_x - about * y) * turn  # the middle lies `about` below the datum: M_x + z_c F_y, z_c negative
    J = 2 * (163.5**2 + 125.4**2) + 4 * 101.6**2
    found = []
    for at_y, at_z in AT:
        off_y, off_z = (at_z + 149.2, at_y) if swapped else (at_y, at_z + 149.2)
        found.append(hypot(F_y * y / 4 - M * off_z / J, z / 4 + M * off_y / J))
    return max(found)


def times(w: Wrench, k: float) -> Wrench:
    """The load so many times."""
    return tuple(k * c for c in w)
