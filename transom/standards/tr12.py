"""AWC Technical Report 12 (2015): the dowel equations with a gap between the members; plywood bearing.

The gap g is whatever separates the members and carries no load: a soft layer, a shim, a coat of sealant.
"""

from transom.formula import formula
from transom.maths import sqrt
from transom.standards.modes import least
from transom.standards.nds import reduction_term
from transom.units import MM, MM_PER_N, MPA, N_MM, N_PER_MM, ONE, N, Value

_DOWEL = {"A": 2e-4, "B": 40.0, "C": 4e5, "q_m": 490.0, "q_s": 490.0, "l_m": 38.1, "l_s": 38.1, "g": 6.35,
          "M_m": 1.06e5, "M_s": 1.06e5, "D": 12.7, "R_d": 3.6}  # fmt: skip


@formula(symbol="q", source="AWC TR12 (2015), Table 1-1", typical=_DOWEL)
def bearing_per_length(F_e: MPA, D: MM) -> N_PER_MM:
    """Bearing of a dowel for each mm of its length."""
    return F_e * D


@formula(symbol="M", source="AWC TR12 (2015), Table 1-1", typical=_DOWEL)
def dowel_moment(F_yb: MPA, D: MM) -> N_MM:
    """Plastic moment of a round dowel."""
    return F_yb * D**3 / 6


@formula(symbol="P", source="AWC TR12 (2015), Table 1-1", typical=_DOWEL)
def dowel_load(A: MM_PER_N, B: MM, C: N_MM) -> N:
    """Positive root of A P^2 + B P - C = 0."""
    return (sqrt(B**2 + 4 * A * C) - B) / (2 * A)


@formula(symbol="P_II", source="AWC TR12 (2015), Table 1-1", typical=_DOWEL)
def mode_II(q_m: N_PER_MM, q_s: N_PER_MM, l_m: MM, l_s: MM, g: MM) -> N:
    """The straight dowel tilts in both members; before the divisor R_d."""
    A = 1 / (4 * q_s) + 1 / (4 * q_m)
    return dowel_load(A, l_s / 2 + g + l_m / 2, (q_s * l_s**2 + q_m * l_m**2) / 4)


@formula(symbol="P_IIIm", source="AWC TR12 (2015), Table 1-1", typical=_DOWEL)
def mode_III_m(q_m: N_PER_MM, q_s: N_PER_MM, l_m: MM, g: MM, M: N_MM) -> N:
    """A hinge in the side member; before the divisor R_d."""
    A = 1 / (2 * q_s) + 1 / (4 * q_m)
    return dowel_load(A, g + l_m / 2, M + q_m * l_m**2 / 4)


@formula(symbol="P_IIIs", source="AWC TR12 (2015), Table 1-1", typical=_DOWEL)
def mode_III_s(q_m: N_PER_MM, q_s: N_PER_MM, l_s: MM, g: MM, M: N_MM) -> N:
    """A hinge in the main member; before the divisor R_d."""
    A = 1 / (4 * q_s) + 1 / (2 * q_m)
    return dowel_load(A, g + l_s / 2, M + q_s * l_s**2 / 4)


@formula(symbol="P_IV", source="AWC TR12 (2015), Table 1-1", typical=_DOWEL)
def mode_IV(q_m: N_PER_MM, q_s: N_PER_MM, g: MM, M: N_MM) -> N:
    """A hinge in each member; before the divisor R_d."""
    return dowel_load(1 / (2 * q_s) + 1 / (2 * q_m), g, 2 * M)


@formula(symbol="P_I", source="AWC TR12 (2015), Table 1-1", typical=_DOWEL)
def mode_I(q: N_PER_MM, l: MM) -> N:  # noqa: E741 the source's symbol
    """A member crushes; before the divisor R_d."""
    return q * l


@formula(symbol="Z", source="AWC TR12 (2015), 1.1", typical=_DOWEL)
def reference_value(P: N, R_d: ONE) -> N:
    """Reference value of a yield mode."""
    return P / R_d


def single_shear_modes(
    F_em: MPA, F_es: MPA, F_yb: MPA, l_m: MM, l_s: MM, D: MM, g: MM = 0.0, K_theta: ONE = 1.0
) -> dict[str, Value]:
    """The six modes of single shear across a gap g, reference values in N. Arrays broadcast."""
    q_m, q_s, M = bearing_per_length(F_em, D), bearing_per_length(F_es, D), dowel_moment(F_yb, D)
    I, II, III = (reduction_term(c, K_theta) for c in (4.0, 3.6, 3.2))  # noqa: E741 the mode's numeral
    return {
        "I_m": reference_value(mode_I(q_m, l_m), I),
        "I_s": reference_value(mode_I(q_s, l_s), I),
        "II": reference_value(mode_II(q_m, q_s, l_m, l_s, g), II),
        "III_m": reference_value(mode_III_m(q_m, q_s, l_m, g, M), III),
        "III_s": reference_value(mode_III_s(q_m, q_s, l_s, g, M), III),
        "IV": reference_value(mode_IV(q_m, q_s, g, M), III),
    }


def single_shear(F_em: MPA, F_es: MPA, F_yb: MPA, l_m: MM, l_s: MM, D: MM, g: MM = 0.0, K_theta: ONE = 1.0) -> Value:
    """Reference value Z in N of one bolt in single shear across a gap g. Arrays broadcast."""
    return least(single_shear_modes(F_em, F_es, F_yb, l_m, l_s, D, g, K_theta))
