"""Welds as lines: what each millimetre of a group of straight fillets carries, in its plane and out of it.

The group lies in the y, z plane of a plate; x is square to it. Properties are of unit throat, so that a
throat is chosen after the forces per length are known.
"""

import numpy as np

from transom.formula import formula
from transom.frozen import dataclass
from transom.maths import PI, sqrt, total
from transom.statics.wrench import moment_about_x, moment_about_y, moment_about_z
from transom.units import MM, MM3, MMS, MPA, N_MM, N_PER_MM, ONE, Array, N, Value

SHIGLEY = "Budynas and Nisbett, Mechanical Engineering Design, 9th ed., Tables 9-1 and 9-2, Eqs 9-4 to 9-6"
THROAT = "Budynas and Nisbett, Mechanical Engineering Design, 9th ed., Fig. 9-9"


@formula(symbol="L_i", source="geometry of a line", known_by="derived")
def segment_length(dy: MM, dz: MM) -> MM:
    """Length of each straight weld from its two projections."""
    return sqrt(dy * dy + dz * dz)


@formula(symbol="L", source=SHIGLEY)
def group_length(L: MMS) -> MM:
    """Length of all welds, which is their area at unit throat."""
    return total(L)


@formula(symbol="y_c", source=SHIGLEY)
def line_centroid(L: MMS, y: MMS) -> MM:
    """Centroid of the group from the middles of its lines."""
    return total(L * y) / total(L)


@formula(symbol="I_u", source=SHIGLEY)
def unit_second_moment(L: MMS, z: MMS, dz: MMS) -> MM3:
    """Second moment at unit throat; z is each line's middle from the centroid, dz its extent that way."""
    return total(L * (z * z + dz * dz / 12))


@formula(symbol="J_u", source=SHIGLEY)
def unit_polar_moment(I_y: MM3, I_z: MM3) -> MM3:
    """Polar second moment at unit throat."""
    return I_y + I_z


@formula(symbol="I_u", source=SHIGLEY)
def ring_second_moment(r: MM) -> MM3:
    """Second moment at unit throat of a weld all round a circle of radius r, about a diameter."""
    return PI * r**3


@formula(symbol="f_y", source=SHIGLEY)
def line_force_across(V_y: N, L: MM, M_x: N_MM, z: MM, J_u: MM3) -> N_PER_MM:
    """Force per length along y at z from the centroid; M_x turns y towards z."""
    return V_y / L - M_x * z / J_u


@formula(symbol="f_z", source=SHIGLEY)
def line_force_up(V_z: N, L: MM, M_x: N_MM, y: MM, J_u: MM3) -> N_PER_MM:
    """Force per length along z at y from the centroid; M_x turns y towards z."""
    return V_z / L + M_x * y / J_u


@formula(symbol="f_x", source=SHIGLEY)
def line_force_out(N_x: N, L: MM, M_y: N_MM, z: MM, I_y: MM3, M_z: N_MM, y: MM, I_z: MM3) -> N_PER_MM:
    """Force per length out of the plane at (y, z) from the centroid."""
    return N_x / L + M_y * z / I_y - M_z * y / I_z


@formula(symbol="f", source=f"{SHIGLEY}; vector sum, every component as shear on the throat", known_by="read")
def vector_sum(f_x: N_PER_MM, f_y: N_PER_MM, f_z: N_PER_MM) -> N_PER_MM:
    """Resultant force per length: Shigley's convention, the harsher one."""
    return sqrt(f_x * f_x + f_y * f_y + f_z * f_z)


@formula(symbol="f_s", source="Bhandari, Design of Machine Elements, 3rd ed., section 8.10; greatest shear of a "
         "normal and a shear stress (Mohr)", known_by="read")  # fmt: skip
def greatest_shear_per_length(f_n: N_PER_MM, f_s: N_PER_MM) -> N_PER_MM:
    """Greatest shear per length with bending as a normal stress: Bhandari's convention, up to half as much."""
    return sqrt((f_n / 2) ** 2 + f_s * f_s)


@formula(symbol="a", source=THROAT, known_by="read", typical={"h": 5.0})
def throat(h: MM) -> MM:
    """Throat of an even fillet of leg h."""
    return h / sqrt(2)


@formula(symbol="h", source=THROAT, known_by="read", typical={"a": 4.0})
def leg(a: MM) -> MM:
    """Leg of an even fillet of throat a."""
    return a * sqrt(2)


@formula(symbol="a_req", source=SHIGLEY)
def throat_needed(f: N_PER_MM, tau: MPA) -> MM:
    """Throat at which a force per length comes to the stress tau."""
    return f / tau


@formula(symbol="f_Rd", source=THROAT, known_by="read", typical={"h": 5.0})
def fillet_strength_per_length(tau: MPA, h: MM) -> N_PER_MM:
    """Force per length of a fillet of leg h at the shear stress tau on its throat."""
    return tau * h / sqrt(2)


@formula(symbol="sigma_perp", source="EN 1999-1-1:2007, 8.6.3.3, throat at 45 degrees", known_by="memory",
         typical={"a": 4.0})  # fmt: skip
def throat_normal_stress(f_n: N_PER_MM, f_t: N_PER_MM, a: MM) -> MPA:
    """Stress square to the throat from forces square to the one and to the other leg."""
    return (f_n + f_t) / (sqrt(2) * a)


@formula(symbol="tau_perp", source="EN 1999-1-1:2007, 8.6.3.3, throat at 45 degrees", known_by="memory",
         typical={"a": 4.0})  # fmt: skip
def throat_shear_stress(f_n: N_PER_MM, f_t: N_PER_MM, a: MM) -> MPA:
    """Shear on the throat square to the weld from forces square to the one and to the other leg."""
    return (f_n - f_t) / (sqrt(2) * a)


@formula(symbol="f_haz,Rd", source="EN 1999-1-1:2007, 8.6.3.4, shear of the parent metal beside a fillet",
         known_by="memory", typical={"h": 5.0, "F_s_w": 55.0, "gamma_Mw": 1.25})  # fmt: skip
def parent_metal_strength_per_length(F_s_w: MPA, h: MM, gamma_Mw: ONE = 1.25) -> N_PER_MM:
    """Force per length on a leg h of parent metal whose shear strength beside the weld is F_s_w."""
    return F_s_w * h / gamma_Mw


@dataclass(frozen=True)
class WeldGroup:
    """A group of straight welds at unit throat: length mm, centroid mm, second moments mm3.

    `ends_y`, `ends_z` (..., 2 k) are both ends of each line from the centroid; all else (...).
    """

    L: Value
    y_c: Value
    z_c: Value
    I_y: Value
    I_z: Value
    J: Value
    ends_y: Array
    ends_z: Array


@formula(symbol="y_m", source="geometry of a line", known_by="derived")
def middle(y_1: MM, y_2: MM) -> MM:
    """Middle of a line."""
    return (y_1 + y_2) / 2


@formula(symbol="dy", source="geometry of a line", known_by="derived")
def extent(y_1: MM, y_2: MM) -> MM:
    """Projection of a line, or distance of a point from another."""
    return y_2 - y_1


def weld_group(y_1: Array, z_1: Array, y_2: Array, z_2: Array) -> WeldGroup:
    """Properties of k straight welds from (y_1, z_1) to (y_2, z_2), each (k,) or (..., k), mm.

    Raises:
        ValueError: no weld, or one that ends where it begins.
    """
    ends = list(np.broadcast_arrays(*(np.asarray(e, dtype=float) for e in (y_1, z_1, y_2, z_2))))
    dy, dz = np.asarray(extent(ends[0], ends[2])), np.asarray(extent(ends[1], ends[3]))
    L = np.asarray(segment_length(dy, dz))
    if not L.size or not np.all(L > 0):
        raise ValueError("weld group: no weld, or one without length; give both ends of each")
    y, z = np.asarray(middle(ends[0], ends[2])), np.asarray(middle(ends[1], ends[3]))
    y_c, z_c = np.asarray(line_centroid(L, y)), np.asarray(line_centroid(L, z))
    I_y = unit_second_moment(L, np.asarray(extent(z_c[..., None], z)), dz)
    I_z = unit_second_moment(L, np.asarray(extent(y_c[..., None], y)), dy)
    return WeldGroup(
        L=group_length(L),
        y_c=y_c,
        z_c=z_c,
        I_y=I_y,
        I_z=I_z,
        J=unit_polar_moment(I_y, I_z),
        ends_y=np.asarray(extent(y_c[..., None], np.concatenate([ends[0], ends[2]], axis=-1))),
        ends_z=np.asarray(extent(z_c[..., None], np.concatenate([ends[1], ends[3]], axis=-1))),
    )


@dataclass(frozen=True)
class WeldForces:
    """Force per length at both ends of each weld, N/mm, (..., 2 k): out of the plane, across, up, resultant."""

    out: Array
    across: Array
    up: Array
    resultant: Array

    @property
    def largest(self) -> Array:
        """The largest resultant, (...)."""
        return np.asarray(np.max(self.resultant, axis=-1))


def weld_forces(wrench: Array, group: WeldGroup) -> WeldForces:
    """Force per length at the ends of every weld, where it is largest, under wrenches (..., 6) about the origin.

    Raises:
        ValueError: welds in one straight line or point resist no moment about it.
    """
    F_x, F_y, F_z, M_x, M_y, M_z = (
        np.asarray(w)[..., None] for w in np.moveaxis(np.asarray(wrench, dtype=float), -1, 0)
    )
    L, y_c, z_c, I_y, I_z, J = (
        np.asarray(g)[..., None] for g in (group.L, group.y_c, group.z_c, group.I_y, group.I_z, group.J)
    )
    if not (np.all(I_y > 0) and np.all(I_z > 0)):
        raise ValueError("weld group: all welds on one line resist no moment about it; add one beside it")
    M_x = np.asarray(moment_about_x(M_x, F_y, F_z, y_c, z_c))
    M_y = np.asarray(moment_about_y(M_y, F_x, F_z, 0.0, z_c))
    M_z = np.asarray(moment_about_z(M_z, F_x, F_y, 0.0, y_c))
    out = line_force_out(F_x, L, M_y, group.ends_z, I_y, M_z, group.ends_y, I_z)
    across = line_force_across(F_y, L, M_x, group.ends_z, J)
    up = line_force_up(F_z, L, M_x, group.ends_y, J)
    out, across, up = np.broadcast_arrays(out, across, up)
    return WeldForces(out, across, up, np.asarray(vector_sum(out, across, up)))
