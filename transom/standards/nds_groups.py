"""NDS 2018, 11.3.6 and appendix E: bolts in a row share unevenly, and wood tears out in rows."""

from transom.formula import formula
from transom.maths import exp, log, minimum, sqrt
from transom.standards.nds import INCH
from transom.units import MM, MM2, MPA, N_PER_MM, ONE, N, Value

LBF_PER_INCH = 4.4482216152605 / INCH
WOOD_TO_WOOD = 180000 * LBF_PER_INCH

_GROUP = {"EA_m": 7.47e7, "EA_s": 7.47e7, "gamma": 31500.0, "s": 101.6, "m": 0.75, "n": 4.0, "R_EA": 0.9,
          "D": 25.4, "c": 31500.0, "D_1": 25.4}  # fmt: skip
_TEAR = {"n": 2.0, "F_v": 1.24, "F_t": 3.96, "t": 38.1, "s_crit": 50.8}


@formula(symbol="gamma", source="NDS 2018, 11.3.6", typical=_GROUP)
def load_slip_modulus(D: MM, c: N_PER_MM = WOOD_TO_WOOD, D_1: MM = INCH) -> N_PER_MM:
    """Load over slip of one bolt; c is 180,000 lb/in between wood and 270,000 lb/in to metal."""
    return c * (D / D_1) ** 1.5


@formula(symbol="R_EA", source="NDS 2018, 11.3.6", typical=_GROUP)
def stiffness_ratio(EA_m: N, EA_s: N) -> ONE:
    """Axial stiffness of the softer member over that of the stiffer one."""
    return minimum(EA_m / EA_s, EA_s / EA_m)


@formula(symbol="u", source="NDS 2018, 11.3.6", typical=_GROUP)
def group_u(gamma: N_PER_MM, s: MM, EA_m: N, EA_s: N) -> ONE:
    """One and the stretch of the members between two bolts, s apart, for each unit of slip."""
    return 1 + gamma * s / 2 * (1 / EA_m + 1 / EA_s)


@formula(symbol="m", source="NDS 2018, 11.3.6", typical={"u": 1.04})
def group_m(u: ONE) -> ONE:
    """Decay of the load from one bolt of a row to the next."""
    return u - sqrt(u**2 - 1)


@formula(symbol="C_g", source="NDS 2018, 11.3.6 (11.3-1)", typical=_GROUP)
def group_action_factor(m: ONE, R_EA: ONE, n: ONE) -> ONE:
    """Mean load over the largest in a row of n bolts along the load."""
    m_n = exp(n * log(m))
    inner = (1 + R_EA * m_n) * (1 + m) - 1 + m_n**2
    return m * (1 - m_n**2) / (n * inner) * (1 + R_EA) / (1 - m)


@formula(symbol="Z_RTi", source="NDS 2018, appendix E.3 (E.3-3)", known_by="memory", typical=_TEAR)
def row_tear_out(n: ONE, F_v: MPA, t: MM, s_crit: MM) -> N:
    """Load that tears one row of n bolts out along the grain; s_crit is the least of spacing and end."""
    return n * F_v * t * s_crit


@formula(symbol="Z_GT", source="NDS 2018, appendix E.4 (E.4-1)", known_by="memory", typical=_TEAR)
def group_tear_out(Z_RT_first: N, Z_RT_last: N, F_t: MPA, A_group_net: MM2) -> N:
    """Load that tears the whole group out: the outer halves in shear and the net area between in tension."""
    return Z_RT_first / 2 + Z_RT_last / 2 + F_t * A_group_net


@formula(symbol="Z_NT", source="NDS 2018, appendix E.2 (E.2-1)", known_by="memory", typical=_TEAR)
def net_tension(F_t: MPA, A_net: MM2) -> N:
    """Load that parts the member across its bolts."""
    return F_t * A_net


@formula(symbol="A_net", source="geometry of a strip with round holes", known_by="derived",
         typical={"t": 38.1, "b": 140.0, "n": 2.0, "d_h": 14.3})  # fmt: skip
def net_strip(t: MM, b: MM, n: ONE, d_h: MM) -> MM2:
    """Section of a strip of width b less the n holes side by side in it."""
    return t * (b - n * d_h)


def row_action_factor(D: MM, s: MM, EA_m: N, EA_s: N, n: ONE, c: N_PER_MM = WOOD_TO_WOOD) -> Value:
    """C_g of n bolts of diameter D at spacing s in one row along the load (11.3-1). Arrays broadcast.

    EA_m and EA_s are the axial stiffnesses in N of the whole main and side members; c as above.
    """
    m = group_m(group_u(load_slip_modulus(D, c), s, EA_m, EA_s))
    return group_action_factor(m, stiffness_ratio(EA_m, EA_s), n)
