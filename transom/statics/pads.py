"""Pads that crush the face of the wood, and rigid brackets on edges: pressure and pivot of a contact.

Depths z are positive down from the top edge; N pushes forward and M pulls the top aft, about the datum.
"""

import numpy as np

from transom.formula import formula
from transom.frozen import dataclass
from transom.maths import maximum, positive, sqrt, total, where
from transom.units import MM, MM2, MM2S, MM4, MMS, MPA, N_MM, ONE, Array, N, Value

DG1 = "AISC Design Guide 1, 2nd ed., section 3.4, Eqs 3.4.2 to 3.4.4 (rectangular pressure block)"
BHANDARI = "Bhandari, Design of Machine Elements, 3rd ed., section 7.9 (bracket tilting about its edge)"
CASES = "AISC Manual, part 7, eccentrically loaded bolt groups out of plane"
EQUILIBRIUM = "statics, equilibrium of the bracket"


@formula(symbol="M'", source=EQUILIBRIUM, known_by="derived")
def moment_about_upper_bolts(M: N_MM, N: N, z_u: MM) -> N_MM:
    """Moment about the upper bolts, which the foot of the pads resists."""
    return M - N * z_u


@formula(symbol="M'", source=EQUILIBRIUM, known_by="derived")
def moment_about_lower_bolts(M: N_MM, N: N, z_l: MM) -> N_MM:
    """Moment about the lower bolts, which the top of the pads resists."""
    return N * z_l - M


@formula(symbol="L", source=EQUILIBRIUM, known_by="derived")
def edge_distance(h: MM, z_u: MM) -> MM:
    """Distance from the upper bolts to the foot of the pads."""
    return h - z_u


@formula(symbol="L^2 - 2 M'/(f b)", source=DG1, known_by="memory")
def block_margin(M: N_MM, L: MM, f: MPA, b: MM) -> MM2:
    """Under the root of `block_height`; negative where no block of pressure f resists the moment."""
    return L * L - 2 * positive(M) / (f * b)


@formula(symbol="Y", source=DG1, known_by="memory")
def block_height(M: N_MM, L: MM, f: MPA, b: MM) -> MM:
    """Height of a block of pressure f, b wide, that resists M about bolts L from its outer edge."""
    return L - sqrt(positive(block_margin(M, L, f, b)))


@formula(symbol="Y", source=DG1, known_by="memory")
def block_height_without_tension(N: N, f: MPA, b: MM) -> MM:
    """Height of a block of pressure f, b wide, that carries the push alone; zero for a pull."""
    return positive(N) / (f * b)


@formula(symbol="T_u", source=DG1, known_by="memory")
def block_tension(N: N, Y: MM, f: MPA, b: MM) -> N:
    """Tension of all bolts that balances a block Y high and a push N."""
    return f * b * Y - N


@formula(symbol="Y_max", source="half the pad; own limit", evidence="convention", known_by="derived")
def block_limit(h: MM) -> MM:
    """Tallest block a pad may need."""
    return h / 2


@formula(symbol="f_max", source="statics of a triangular pressure: p = 2N/(3b(L/2 - e))", known_by="read")
def partial_contact_pressure(N: N, b: MM, L: MM, e: MM) -> MPA:
    """Edge pressure of a push N at e (over L/6, under L/2) from the middle of a length L, no tension."""
    return 2 * N / (3 * b * (L / 2 - e))


@formula(symbol="Y", source="statics of a triangular pressure: Y = 3(L/2 - e)", known_by="read")
def partial_contact_length(L: MM, e: MM) -> MM:
    """Length in contact of a push at e (over L/6, under L/2) from the middle of a length L, no tension."""
    return 3 * (L / 2 - e)


@formula(symbol="sum l^2", source=BHANDARI)
def sum_of_squares(lever: MMS) -> MM2:
    """Sum of the squared distances of like bolts from the tilting edge."""
    return total(lever * lever)


@formula(symbol="F_t", source=BHANDARI)
def edge_pivot_tension(M: N_MM, lever: MM, sum_l2: MM2) -> N:
    """Tension of a bolt at a lever from the edge about which a rigid bracket tilts.

    For comparison with handbooks: on a board it gives 0.6 to 0.75 of the tension and is unsafe.
    """
    return M * lever / sum_l2


@formula(symbol="F_eq", source="maximum principal stress (Rankine)", known_by="read")
def principal_force(F_t: N, F_s: N) -> N:
    """Tension that gives the largest principal stress of tension and shear together."""
    return F_t / 2 + sqrt((F_t / 2) ** 2 + F_s**2)


@formula(symbol="F_s,max", source="maximum shear stress (Tresca)", known_by="read")
def greatest_shear_force(F_t: N, F_s: N) -> N:
    """Shear force that gives the largest shear stress of tension and shear together."""
    return sqrt((F_t / 2) ** 2 + F_s**2)


@formula(symbol="r_ut", source=f"{CASES}, Case II", known_by="memory")
def centroid_pivot_tension(M: N_MM, n: ONE, d_m: MM) -> N:
    """Tension of each of n bolts above the centroid, bolts in tension and compression d_m apart."""
    return M / (n * d_m)


@formula(symbol="y", source=f"{CASES}, Case I", known_by="derived")
def bearing_depth(A: MM2S, d: MMS, b: MM) -> MM:
    """Depth in bearing from the lower edge, from first moments; bolts of area A at d above that edge pull."""
    return (sqrt(total(A) ** 2 + 2 * b * total(A * d)) - total(A)) / b


@formula(symbol="I_x", source=f"{CASES}, Case I", known_by="derived")
def bearing_second_moment(A: MM2S, d: MMS, b: MM, y: MM) -> MM4:
    """Second moment about the neutral axis of bolts in tension and a plate b wide in bearing."""
    return b * y**3 / 3 + total(A * d * d) - 2 * y * total(A * d) + y**2 * total(A)


@formula(symbol="r_ut", source=f"{CASES}, Case I", known_by="derived")
def bearing_bolt_tension(M: N_MM, A_b: MM2, d: MM, y: MM, I_x: MM4) -> N:
    """Tension of a bolt of area A_b at d above the lower edge."""
    return M * (d - y) * A_b / I_x


@dataclass(frozen=True)
class PadBlock:
    """Pad height crushed at the strength `y` and the height allowed `limit`, mm; `y` is infinite where no
    block can hold the bracket, never NaN."""

    y: Array
    limit: Array


def _height(M: Value, L: Value, f: Value, b: Value) -> Array:
    real = (block_margin(M, L, f, b) > 0) & (np.asarray(L) > 0)
    return np.asarray(where(real, block_height(M, L, f, b), np.inf))


def pad_block(*, N: Value, M: Value, f: Value, b: Value, h: Value, z_u: Value, z_l: Value) -> PadBlock:
    """Pad height that must crush at pressure f to hold N and M about the datum; shapes broadcast.

    The larger of three: a block at the foot against the upper bolts, at the top against the lower bolts,
    and the push alone.

    Args:
        N, M: forward push, N, and moment that pulls the top aft, N*mm, of the whole bracket.
        f: pressure the face grain bears, MPa, above zero.
        b: total width of both pads, mm, above zero.
        h: pad height, mm.
        z_u, z_l: depths of the upper and lower bolts, mm.
    """
    foot = _height(moment_about_upper_bolts(M, N, z_u), edge_distance(h, z_u), f, b)
    top = _height(moment_about_lower_bolts(M, N, z_l), z_l, f, b)
    y = maximum(maximum(foot, top), block_height_without_tension(N, f, b))
    y = np.where(np.isnan(y), np.inf, y)
    return PadBlock(y, np.asarray(block_limit(h)))
