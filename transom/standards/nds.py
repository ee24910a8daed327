"""NDS 2018 (National Design Specification for Wood Construction), 12.3: yield limits of one bolt.

In N, mm, MPa; the constants of the document are given in its own units and turned by PSI. Member m is
the main one (in the middle in double shear), s the side one; each length l is the bolt's bearing in it.
Values are reference values for allowable-stress design, for bolts of 1/4 to 1 in, before adjustment.
"""

from transom.formula import formula
from transom.maths import cos, sin, sqrt
from transom.standards.modes import least
from transom.units import MM, MPA, ONE, RAD, N, Value

INCH = 25.4
PSI = 4.4482216152605 / INCH**2

_ONE = {
    "D": 12.7, "l_m": 38.1, "l_s": 38.1, "F_em": 38.6, "F_es": 38.6, "F_yb": 310.0,
    "R_e": 1.1, "R_t": 0.9, "R_d": 3.6, "k_1": 0.41, "k_2": 1.41, "k_3": 1.41,
}  # fmt: skip
_WOOD = {"G": 0.5, "D": 12.7, "F_1": 77.22, "D_1": 25.4, "K": 1.1, "theta": 0.5}


@formula(symbol="F_e,par", source="NDS 2018, Table 12.3.3, footnote 2", typical=_WOOD)
def bearing_along(G: ONE, F_1: MPA = 11200 * PSI) -> MPA:
    """Dowel bearing strength along the grain; the table rounds it to 50 psi."""
    return F_1 * G


@formula(symbol="F_e,perp", source="NDS 2018, Table 12.3.3, footnote 2", typical={**_WOOD, "F_1": 42.06})
def bearing_across(G: ONE, D: MM, F_1: MPA = 6100 * PSI, D_1: MM = INCH) -> MPA:
    """Dowel bearing strength across the grain; the table rounds it to 50 psi."""
    return F_1 * G**1.45 / sqrt(D / D_1)


@formula(symbol="F_e,theta", source="NDS 2018, 12.3.4 (12.3-11)", typical=_WOOD)
def bearing_at_angle(F_e_par: MPA, F_e_perp: MPA, theta: RAD) -> MPA:
    """Dowel bearing strength at the angle theta between load and grain (Hankinson)."""
    return F_e_par * F_e_perp / (F_e_par * sin(theta) ** 2 + F_e_perp * cos(theta) ** 2)


@formula(symbol="F_e", source="NDS 2018, 12.3.3 and Table 12B footnotes", typical={"F_u": 400.0})
def bearing_steel(F_u: MPA) -> MPA:
    """Dowel bearing strength of a steel side plate of tensile strength F_u."""
    return 2.4 * F_u / 1.6


@formula(symbol="R_d", source="NDS 2018, Table 12.3.1B", typical={"K_theta": 1.1, "c": 3.6})
def reduction_term(c: ONE, K_theta: ONE) -> ONE:
    """Divisor of a yield mode: c is 4 for I, 3.6 for II, 3.2 for III and IV."""
    return c * K_theta


@formula(symbol="R_e", source="NDS 2018, Table 12.3.1A")
def bearing_ratio(F_em: MPA, F_es: MPA) -> ONE:
    """Bearing strength of the main member over that of the side member."""
    return F_em / F_es


@formula(symbol="R_t", source="NDS 2018, Table 12.3.1A")
def length_ratio(l_m: MM, l_s: MM) -> ONE:
    """Bearing length in the main member over that in the side member."""
    return l_m / l_s


@formula(symbol="k_1", source="NDS 2018, Table 12.3.1A", typical=_ONE)
def k_1(R_e: ONE, R_t: ONE) -> ONE:
    """Factor of mode II, a straight bolt that tilts."""
    root = sqrt(R_e + 2 * R_e**2 * (1 + R_t + R_t**2) + R_t**2 * R_e**3)
    return (root - R_e * (1 + R_t)) / (1 + R_e)


@formula(symbol="k_2", source="NDS 2018, Table 12.3.1A", typical=_ONE)
def k_2(R_e: ONE, F_yb: MPA, F_em: MPA, D: MM, l_m: MM) -> ONE:
    """Factor of mode III_m, a hinge in the side member."""
    return sqrt(2 * (1 + R_e) + 2 * F_yb * (1 + 2 * R_e) * D**2 / (3 * F_em * l_m**2)) - 1


@formula(symbol="k_3", source="NDS 2018, Table 12.3.1A", typical=_ONE)
def k_3(R_e: ONE, F_yb: MPA, F_em: MPA, D: MM, l_s: MM) -> ONE:
    """Factor of mode III_s, a hinge in the main member."""
    return sqrt(2 * (1 + R_e) / R_e + 2 * F_yb * (2 + R_e) * D**2 / (3 * F_em * l_s**2)) - 1


@formula(symbol="Z_Im", source="NDS 2018, Table 12.3.1A (12.3-1, 12.3-7)", typical=_ONE)
def mode_I_m(D: MM, l_m: MM, F_em: MPA, R_d: ONE) -> N:
    """The main member crushes."""
    return D * l_m * F_em / R_d


@formula(symbol="Z_Is", source="NDS 2018, Table 12.3.1A (12.3-2)", typical=_ONE)
def mode_I_s(D: MM, l_s: MM, F_es: MPA, R_d: ONE) -> N:
    """The side member crushes."""
    return D * l_s * F_es / R_d


@formula(symbol="Z_II", source="NDS 2018, Table 12.3.1A (12.3-3)", typical=_ONE)
def mode_II(k_1: ONE, D: MM, l_s: MM, F_es: MPA, R_d: ONE) -> N:
    """The straight bolt tilts in both members."""
    return k_1 * D * l_s * F_es / R_d


@formula(symbol="Z_IIIm", source="NDS 2018, Table 12.3.1A (12.3-4)", typical=_ONE)
def mode_III_m(k_2: ONE, D: MM, l_m: MM, F_em: MPA, R_e: ONE, R_d: ONE) -> N:
    """A hinge in the side member."""
    return k_2 * D * l_m * F_em / ((1 + 2 * R_e) * R_d)


@formula(symbol="Z_IIIs", source="NDS 2018, Table 12.3.1A (12.3-5)", typical=_ONE)
def mode_III_s(k_3: ONE, D: MM, l_s: MM, F_em: MPA, R_e: ONE, R_d: ONE) -> N:
    """A hinge in the main member."""
    return k_3 * D * l_s * F_em / ((2 + R_e) * R_d)


@formula(symbol="Z_IV", source="NDS 2018, Table 12.3.1A (12.3-6)", typical=_ONE)
def mode_IV(D: MM, F_em: MPA, F_yb: MPA, R_e: ONE, R_d: ONE) -> N:
    """A hinge in each member."""
    return D**2 / R_d * sqrt(2 * F_em * F_yb / (3 * (1 + R_e)))


@formula(symbol="Z", source="NDS 2018, Table 12.3.1A (12.3-8 to 12.3-10)")
def both_planes(Z_one: N) -> N:
    """A mode of double shear that is twice its single-shear form: I_s, III_s and IV."""
    return 2 * Z_one


@formula(symbol="Z'", source="NDS 2018, Table 11.3.1", typical={"C_D": 1.6, "C_M": 0.7})
def adjusted_value(Z: N, C_D: ONE = 1.0, C_M: ONE = 1.0, C_t: ONE = 1.0, C_g: ONE = 1.0, C_Delta: ONE = 1.0) -> N:
    """Allowable load of one bolt: load duration, damp, heat, group action and geometry."""
    return Z * C_D * C_M * C_t * C_g * C_Delta


@formula(symbol="C_b", source="NDS 2018, 3.10.4 (3.10-2)", known_by="memory", typical={"l_b": 50.0, "l_1": 9.525})
def bearing_area_factor(l_b: MM, l_1: MM = 0.375 * INCH) -> ONE:
    """Gain of a bearing shorter than 6 in along the grain and 3 in or more from an end."""
    return (l_b + l_1) / l_b


def single_shear_modes(
    F_em: MPA, F_es: MPA, F_yb: MPA, l_m: MM, l_s: MM, D: MM, K_theta: ONE = 1.0
) -> dict[str, Value]:
    """The six modes of single shear in N, reference values (Table 12.3.1A). Arrays broadcast."""
    R_e, R_t = bearing_ratio(F_em, F_es), length_ratio(l_m, l_s)
    I, II, III = (reduction_term(c, K_theta) for c in (4.0, 3.6, 3.2))  # noqa: E741 the mode's numeral
    return {
        "I_m": mode_I_m(D, l_m, F_em, I),
        "I_s": mode_I_s(D, l_s, F_es, I),
        "II": mode_II(k_1(R_e, R_t), D, l_s, F_es, II),
        "III_m": mode_III_m(k_2(R_e, F_yb, F_em, D, l_m), D, l_m, F_em, R_e, III),
        "III_s": mode_III_s(k_3(R_e, F_yb, F_em, D, l_s), D, l_s, F_em, R_e, III),
        "IV": mode_IV(D, F_em, F_yb, R_e, III),
    }


def double_shear_modes(
    F_em: MPA, F_es: MPA, F_yb: MPA, l_m: MM, l_s: MM, D: MM, K_theta: ONE = 1.0
) -> dict[str, Value]:
    """The four modes of double shear in N, both planes together, reference values (Table 12.3.1A)."""
    one = single_shear_modes(F_em, F_es, F_yb, l_m, l_s, D, K_theta)
    return {"I_m": one["I_m"]} | {mode: both_planes(one[mode]) for mode in ("I_s", "III_s", "IV")}


def single_shear(F_em: MPA, F_es: MPA, F_yb: MPA, l_m: MM, l_s: MM, D: MM, K_theta: ONE = 1.0) -> Value:
    """Reference value Z in N of one bolt in single shear, the least of its modes. Arrays broadcast."""
    return least(single_shear_modes(F_em, F_es, F_yb, l_m, l_s, D, K_theta))


def double_shear(F_em: MPA, F_es: MPA, F_yb: MPA, l_m: MM, l_s: MM, D: MM, K_theta: ONE = 1.0) -> Value:
    """Reference value Z in N of one bolt in double shear, both planes together. Arrays broadcast."""
    return least(double_shear_modes(F_em, F_es, F_yb, l_m, l_s, D, K_theta))
