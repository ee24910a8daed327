"""EN 1993-1-8 (joints in steel): bolts in tension, shear and both, bearing of plates, spacing in metal.

The bearing check and the edge rules hold for ordinary round holes of diameter d_0.
"""

from transom.formula import formula
from transom.maths import PI, minimum
from transom.units import MM, MM2, MPA, ONE, N

_BOLT = {"f_ub": 700.0, "A_s": 84.3, "A": 84.3, "alpha_v": 0.5, "k_2": 0.9, "gamma_M2": 1.25}
_BEARING = {"d": 12.0, "d_0": 13.0, "e_1": 24.0, "e_2": 20.0, "p_1": 40.0, "p_2": 40.0, "t": 6.0,
            "f_u": 275.0, "f_ub": 700.0, "alpha_b": 0.6, "alpha_d": 0.62, "k_1": 2.5,
            "gamma_M2": 1.25}  # fmt: skip


@formula(symbol="F_t,Rd", source="EN 1993-1-8:2005, Table 3.4", typical=_BOLT)
def bolt_tension_resistance(f_ub: MPA, A_s: MM2, gamma_M2: ONE = 1.25, k_2: ONE = 0.9) -> N:
    """Pull a bolt takes on its tensile stress area."""
    return k_2 * f_ub * A_s / gamma_M2


@formula(symbol="F_v,Rd", source="EN 1993-1-8:2005, Table 3.4", typical=_BOLT)
def bolt_shear_resistance(f_ub: MPA, A: MM2, alpha_v: ONE = 0.5, gamma_M2: ONE = 1.25) -> N:
    """Shear a bolt takes in one plane.

    alpha_v is 0.6 in the plain shank with A its gross area; in the thread, with A = A_s, it is 0.6 for
    4.6, 5.6 and 8.8, and 0.5 for 4.8, 5.8, 6.8, 10.9 and stainless bolts.
    """
    return alpha_v * f_ub * A / gamma_M2


@formula(symbol="F_v/F_v,Rd + F_t/(1.4 F_t,Rd)", source="EN 1993-1-8:2005, Table 3.4")
def shear_tension_interaction(F_v_Ed: N, F_v_Rd: N, F_t_Ed: N, F_t_Rd: N) -> ONE:
    """Shear and pull on one bolt together; at most one, and the pull alone is checked apart."""
    return F_v_Ed / F_v_Rd + F_t_Ed / (1.4 * F_t_Rd)


@formula(symbol="alpha_d", source="EN 1993-1-8:2005, Table 3.4", typical=_BEARING)
def end_bolt_alpha(e_1: MM, d_0: MM) -> ONE:
    """Share of the bearing strength that the end distance e_1, along the load, allows."""
    return e_1 / (3 * d_0)


@formula(symbol="alpha_d", source="EN 1993-1-8:2005, Table 3.4", typical=_BEARING)
def inner_bolt_alpha(p_1: MM, d_0: MM) -> ONE:
    """Share of the bearing strength that the pitch p_1, along the load, allows."""
    return p_1 / (3 * d_0) - 0.25


@formula(symbol="alpha_b", source="EN 1993-1-8:2005, Table 3.4", typical=_BEARING)
def bearing_alpha(alpha_d: ONE, f_ub: MPA, f_u: MPA) -> ONE:
    """Share of the bearing strength with the bolt's own strength; at most one."""
    return minimum(minimum(alpha_d, f_ub / f_u), 1)


@formula(symbol="k_1", source="EN 1993-1-8:2005, Table 3.4", typical={**_BEARING, "most": 2.5})
def edge_bolt_k(e_2: MM, d_0: MM, most: ONE = 2.5) -> ONE:
    """Factor for the edge distance e_2, across the load."""
    return minimum(2.8 * e_2 / d_0 - 1.7, most)


@formula(symbol="k_1", source="EN 1993-1-8:2005, Table 3.4", typical={**_BEARING, "most": 2.5})
def inner_bolt_k(p_2: MM, d_0: MM, most: ONE = 2.5) -> ONE:
    """Factor for the pitch p_2, across the load."""
    return minimum(1.4 * p_2 / d_0 - 1.7, most)


@formula(symbol="F_b,Rd", source="EN 1993-1-8:2005, Table 3.4", typical=_BEARING)
def bearing_resistance(k_1: ONE, alpha_b: ONE, f_u: MPA, d: MM, t: MM, gamma_M2: ONE = 1.25) -> N:
    """Force at which a bolt of diameter d bears through a plate of thickness t."""
    return k_1 * alpha_b * f_u * d * t / gamma_M2


@formula(symbol="B_p,Rd", source="EN 1993-1-8:2005, Table 3.4", known_by="memory",
         typical={"d_m": 20.0, "t_p": 6.0, "f_u": 275.0, "gamma_M2": 1.25})  # fmt: skip
def punching_resistance(d_m: MM, t_p: MM, f_u: MPA, gamma_M2: ONE = 1.25) -> N:
    """Pull at which head or nut of mean diameter d_m punches through a plate."""
    return 0.6 * PI * d_m * t_p * f_u / gamma_M2


@formula(symbol="e_1,min", source="EN 1993-1-8:2005, Table 3.3", known_by="memory", typical={"d_0": 13.0})
def least_edge(d_0: MM) -> MM:
    """Smallest end or edge distance of a hole of diameter d_0 in a metal plate."""
    return 1.2 * d_0


@formula(symbol="p_1,min", source="EN 1993-1-8:2005, Table 3.3", known_by="memory", typical={"d_0": 13.0})
def least_pitch(d_0: MM) -> MM:
    """Smallest pitch along the load in a metal plate."""
    return 2.2 * d_0


@formula(symbol="e_min", source="metal plates, end and edge", evidence="common practice", known_by="derived",
         typical={"d": 12.0})  # fmt: skip
def practice_edge(d: MM) -> MM:
    """End and edge distance this tool asks for in metal: 1.5 d, stricter than 1.2 d_0."""
    return 1.5 * d


@formula(symbol="p_min", source="metal plates, pitch", evidence="common practice", known_by="derived",
         typical={"d": 12.0})  # fmt: skip
def practice_pitch(d: MM) -> MM:
    """Pitch this tool asks for in metal: 3 d, stricter than 2.2 d_0."""
    return 3 * d
