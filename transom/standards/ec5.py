"""EN 1995-1-1 (timber structures): design values, strength under washers, embedment, interaction.

Sideways resistance of bolts is in `ec5_lateral`, spacing and bolts in a row in `ec5_spacing`.
Empirical laws of the document take d in mm and density in kg/m^3; here each is a ratio to a unit
quantity (d_1, rho_1), so that the law has units that can be checked.
"""

from transom.formula import formula
from transom.maths import PI, cos, minimum, sin, sqrt
from transom.units import KG_PER_M3, MM, MM2, MPA, N_MM, ONE, RAD, N


@formula(symbol="f_d", source="EN 1995-1-1:2004, 2.4.1 (2.14)", typical={"k_mod": 0.7, "gamma_M": 1.2})
def design_strength(f_k: MPA, k_mod: ONE, gamma_M: ONE) -> MPA:
    """Design strength: the characteristic one for the load's duration and the wood's damp, over gamma_M."""
    return k_mod * f_k / gamma_M


@formula(symbol="A_net", source="geometry of a round washer on a round hole", known_by="derived",
         typical={"D": 36.0, "d_h": 13.0})  # fmt: skip
def round_net_area(D: MM, d_h: MM) -> MM2:
    """Area of a round washer of diameter D that bears, less the hole d_h in the wood."""
    return PI / 4 * (D**2 - d_h**2)


@formula(symbol="D_eff", source="EN 1995-1-1:2004, 8.5.2(3)", typical={"t": 5.0, "d": 12.0})
def effective_washer_diameter(t: MM, d: MM) -> MM:
    """Diameter of the washer that a steel plate of thickness t stands for, for each bolt of diameter d."""
    return minimum(12 * t, 4 * d)


@formula(symbol="D_min", source="EN 1995-1-1:2004, 10.4.3(2)", typical={"d": 12.0})
def least_washer_side(d: MM) -> MM:
    """Smallest side or diameter of a washer under head or nut."""
    return 3 * d


@formula(symbol="t_min", source="EN 1995-1-1:2004, 10.4.3(2)", typical={"d": 12.0})
def least_washer_thickness(d: MM) -> MM:
    """Smallest thickness of a washer under head or nut."""
    return 0.3 * d


@formula(symbol="F_ax,Rk", source="EN 1995-1-1:2004, 8.5.2(2)")
def washer_bearing_resistance(f_c_90_k: MPA, A_net: MM2) -> N:
    """Force that crushes the face grain under a washer; three times the strength, the load spreads."""
    return 3.0 * f_c_90_k * A_net


@formula(symbol="sigma_b", source="EN 1995-1-1:2004, 8.5.2(2)")
def washer_bearing_strength(f_c_90_k: MPA) -> MPA:
    """Pressure that crushes the face grain under a washer or a pad."""
    return 3.0 * f_c_90_k


@formula(symbol="f_h,k", source="EN 1995-1-1:2004, 8.5.1.2 (8.36)", typical={"d": 12.0, "rho_k": 460.0,
         "f_1": 0.11, "d_1": 1.0, "rho_1": 1.0})  # fmt: skip
def embedment_plywood(d: MM, rho_k: KG_PER_M3, f_1: MPA = 0.11, d_1: MM = 1.0, rho_1: KG_PER_M3 = 1.0) -> MPA:
    """Embedment strength of plywood at every angle to the face grain, bolts up to 30 mm."""
    return f_1 * (1 - 0.01 * d / d_1) * rho_k / rho_1


@formula(symbol="f_h,0,k", source="EN 1995-1-1:2004, 8.5.1.1 (8.32)", typical={"d": 12.0, "rho_k": 350.0,
         "f_1": 0.082, "d_1": 1.0, "rho_1": 1.0})  # fmt: skip
def embedment_along(d: MM, rho_k: KG_PER_M3, f_1: MPA = 0.082, d_1: MM = 1.0, rho_1: KG_PER_M3 = 1.0) -> MPA:
    """Embedment strength of solid wood along the grain, bolts up to 30 mm."""
    return f_1 * (1 - 0.01 * d / d_1) * rho_k / rho_1


@formula(symbol="k_90", source="EN 1995-1-1:2004, 8.5.1.1 (8.33)", typical={"d": 12.0, "k_0": 1.35, "d_1": 1.0})
def grain_factor(d: MM, k_0: ONE = 1.35, d_1: MM = 1.0) -> ONE:
    """How many times weaker embedment is across the grain: k_0 is 1.35 softwood, 1.30 LVL, 0.90 hardwood."""
    return k_0 + 0.015 * d / d_1


@formula(symbol="f_h,alpha,k", source="EN 1995-1-1:2004, 8.5.1.1 (8.31)", typical={"k_90": 1.53, "alpha": 0.7})
def embedment_at_angle(f_h_0_k: MPA, k_90: ONE, alpha: RAD) -> MPA:
    """Embedment strength of solid wood at the angle alpha between load and grain."""
    return f_h_0_k / (k_90 * sin(alpha) ** 2 + cos(alpha) ** 2)


@formula(
    symbol="M_y,Rk",
    source="EN 1995-1-1:2004, 8.5.1.1 (8.30)",
    typical={"f_u_k": 400.0, "d": 12.0, "d_1": 1.0},
)
def yield_moment(f_u_k: MPA, d: MM, d_1: MM = 1.0) -> N_MM:
    """Moment at which a round bolt yields."""
    return 0.3 * f_u_k * d_1**3 * (d / d_1) ** 2.6


@formula(symbol="(F_ax/R_ax)^2 + (F_v/R_v)^2", source="EN 1995-1-1:2004, 8.3.3 (8.28)", known_by="memory")
def axial_lateral_interaction(F_ax_Ed: N, F_ax_Rd: N, F_v_Ed: N, F_v_Rd: N) -> ONE:
    """Pull and sideways load on one bolt in wood together; at most one."""
    return (F_ax_Ed / F_ax_Rd) ** 2 + (F_v_Ed / F_v_Rd) ** 2


@formula(symbol="u", source="EN 1995-1-1:2004, 8.3.3 (8.28), square root", known_by="memory")
def axial_lateral_utilisation(F_ax_Ed: N, F_ax_Rd: N, F_v_Ed: N, F_v_Rd: N) -> ONE:
    """The same interaction in proportion to the load: its root, at most one."""
    return sqrt((F_ax_Ed / F_ax_Rd) ** 2 + (F_v_Ed / F_v_Rd) ** 2)


@formula(symbol="(sigma/f)^2 + (tau/f_v)^2",
         source="quadratic interaction of bending and twist in one veneer",
         evidence="convention", known_by="derived")  # fmt: skip
def veneer_interaction(sigma: MPA, f: MPA, tau: MPA, f_v: MPA) -> ONE:
    """Stress along a veneer's grain with in-plane shear; at most one."""
    return (sigma / f) ** 2 + (tau / f_v) ** 2


@formula(symbol="u", source="quadratic interaction of bending and twist in one veneer, square root",
         evidence="convention", known_by="derived")  # fmt: skip
def veneer_utilisation(sigma: MPA, f: MPA, tau: MPA, f_v: MPA) -> ONE:
    """The same interaction in proportion to the load: its root, at most one."""
    return sqrt((sigma / f) ** 2 + (tau / f_v) ** 2)
