"""EN 1999-1-1 (aluminium structures): bolts and plates of table 8.5, fillet welds of 8.6.3.

Clauses from memory. Bolts of steel or stainless steel in aluminium plates; gamma_M2 and gamma_Mw 1.25.
"""

from transom.formula import formula
from transom.maths import minimum, sqrt, where
from transom.units import MM, MM2, MPA, ONE, N

_PLATE = {"e_1": 24.0, "e_2": 20.0, "p_1": 40.0, "p_2": 40.0, "d_0": 13.0, "d": 12.0, "t": 6.0, "f_u": 275.0,
          "f_ub": 700.0, "alpha_d": 0.62, "alpha_b": 0.62, "k_1": 2.5, "gamma_M2": 1.25,
          "most": 2.5}  # fmt: skip
_BOLT = {"f_ub": 700.0, "A": 84.3, "A_s": 84.3, "alpha_v": 0.5, "k_2": 0.9, "gamma_M2": 1.25}
_WELD = {"a": 4.0, "L": 100.0, "gamma_Mw": 1.25, "f_w": 170.0}


@formula(symbol="alpha_d", source="EN 1999-1-1:2007, Table 8.5", known_by="memory", typical=_PLATE)
def end_bolt_alpha(e_1: MM, d_0: MM) -> ONE:
    """Share of the bearing strength that the end distance e_1, along the load, allows."""
    return e_1 / (3 * d_0)


@formula(symbol="alpha_d", source="EN 1999-1-1:2007, Table 8.5", known_by="memory", typical=_PLATE)
def inner_bolt_alpha(p_1: MM, d_0: MM) -> ONE:
    """Share of the bearing strength that the pitch p_1, along the load, allows."""
    return p_1 / (3 * d_0) - 0.25


@formula(symbol="alpha_b", source="EN 1999-1-1:2007, Table 8.5", known_by="memory", typical=_PLATE)
def bearing_alpha(alpha_d: ONE, f_ub: MPA, f_u: MPA) -> ONE:
    """Share of the bearing strength with the bolt's own strength; at most one."""
    return minimum(minimum(alpha_d, f_ub / f_u), 1)


@formula(symbol="k_1", source="EN 1999-1-1:2007, Table 8.5", known_by="memory", typical=_PLATE)
def edge_bolt_k(e_2: MM, d_0: MM, most: ONE = 2.5) -> ONE:
    """Factor for the edge distance e_2, across the load."""
    return minimum(2.8 * e_2 / d_0 - 1.7, most)


@formula(symbol="k_1", source="EN 1999-1-1:2007, Table 8.5", known_by="memory", typical=_PLATE)
def inner_bolt_k(p_2: MM, d_0: MM, most: ONE = 2.5) -> ONE:
    """Factor for the pitch p_2, across the load."""
    return minimum(1.4 * p_2 / d_0 - 1.7, most)


@formula(symbol="F_b,Rd", source="EN 1999-1-1:2007, Table 8.5 (8.11)", known_by="memory", typical=_PLATE)
def bearing_resistance(k_1: ONE, alpha_b: ONE, f_u: MPA, d: MM, t: MM, gamma_M2: ONE = 1.25) -> N:
    """Force at which a bolt of diameter d bears or tears through an aluminium plate of thickness t."""
    return k_1 * alpha_b * f_u * d * t / gamma_M2


@formula(symbol="F_v,Rd", source="EN 1999-1-1:2007, Table 8.5 (8.9)", known_by="memory", typical=_BOLT)
def bolt_shear_resistance(f_ub: MPA, A: MM2, alpha_v: ONE = 0.5, gamma_M2: ONE = 1.25) -> N:
    """Shear a bolt takes in one plane: alpha_v 0.5 for stainless steel, and in the thread of 10.9."""
    return alpha_v * f_ub * A / gamma_M2


@formula(symbol="F_t,Rd", source="EN 1999-1-1:2007, Table 8.5 (8.17)", known_by="memory", typical=_BOLT)
def bolt_tension_resistance(f_ub: MPA, A_s: MM2, gamma_M2: ONE = 1.25, k_2: ONE = 0.9) -> N:
    """Pull a bolt takes: k_2 is 0.9 for steel, 0.5 for aluminium bolts, 0.63 for countersunk ones."""
    return k_2 * f_ub * A_s / gamma_M2


@formula(symbol="sigma_c", source="EN 1999-1-1:2007, 8.6.3.3 (8.32)", known_by="memory")
def fillet_stress(sigma_perp: MPA, tau_perp: MPA, tau_par: MPA) -> MPA:
    """Comparison stress on the throat of a fillet weld."""
    return sqrt(sigma_perp**2 + 3 * (tau_perp**2 + tau_par**2))


@formula(symbol="f_w,d", source="EN 1999-1-1:2007, 8.6.3.3 (8.33)", known_by="memory", typical=_WELD)
def weld_strength(f_w: MPA, gamma_Mw: ONE = 1.25) -> MPA:
    """What the comparison stress may reach in weld metal of characteristic strength f_w."""
    return f_w / gamma_Mw


@formula(symbol="F_w,Rd", source="EN 1999-1-1:2007, 8.6.3.3", known_by="memory", typical=_WELD)
def longitudinal_fillet_resistance(f_w: MPA, a: MM, L: MM, gamma_Mw: ONE = 1.25) -> N:
    """Force along a fillet weld of throat a and length L."""
    return f_w * a * L / (sqrt(3) * gamma_Mw)


@formula(symbol="F_w,Rd", source="EN 1999-1-1:2007, 8.6.3.3", known_by="memory", typical=_WELD)
def transverse_fillet_resistance(f_w: MPA, a: MM, L: MM, gamma_Mw: ONE = 1.25) -> N:
    """Force across a fillet weld of throat a and length L, its throat at 45 degrees."""
    return f_w * a * L / (sqrt(2) * gamma_Mw)


@formula(symbol="b_haz", source="EN 1999-1-1:2007, 6.1.6.3, MIG", known_by="memory", typical={"t": 8.0})
def heat_affected_reach(t: MM, thin: MM = 6.0, middling: MM = 12.0, thick: MM = 25.0,
                        b_1: MM = 20.0, b_2: MM = 30.0, b_3: MM = 35.0, b_4: MM = 40.0) -> MM:  # fmt: skip
    """How far from a MIG weld metal t thick is weakened."""
    return where(t <= thin, b_1, where(t <= middling, b_2, where(t <= thick, b_3, b_4)))
