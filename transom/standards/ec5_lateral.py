"""EN 1995-1-1, 8.2: what one bolt carries sideways in wood, for each shear plane.

Every failure mode is a formula of its own and bears the letter of the document. `F_ax_Rk` is the rope
effect's pull: pass zero wherever the bolt carries external tension, since that pull is then used up.
The rope effect adds a quarter of it, and never more than 25 % of the mode itself (bolts).
Arrays broadcast in every argument.
"""

from transom.formula import formula
from transom.maths import minimum, positive, sqrt
from transom.standards.modes import least
from transom.units import MM, MPA, N_MM, ONE, N, Value

_STEEL = {"f_h_k": 45.0, "t_1": 42.0, "d": 12.0, "M_y_Rk": 134000.0, "k": 2.3}
_THIN = {**_STEEL, "k": 1.15}
_WOOD = {"f_h_1_k": 25.0, "f_h_2_k": 20.0, "t_1": 50.0, "t_2": 75.0, "d": 12.0, "M_y_Rk": 76700.0}
_BENT = {**_WOOD, "beta": 0.8, "k": 1.05}


@formula(symbol="beta", source="EN 1995-1-1:2004, 8.2.2 (8.8)")
def embedment_ratio(f_h_1_k: MPA, f_h_2_k: MPA) -> ONE:
    """Embedment strength of member 2 over that of member 1."""
    return f_h_2_k / f_h_1_k


@formula(symbol="F_rope", source="EN 1995-1-1:2004, 8.2.2(2)", typical={"limit": 0.25})
def rope_effect(F_J: N, F_ax_Rk: N, limit: ONE = 0.25) -> N:
    """What the inclined bolt adds to a mode: a quarter of its pull, at most 25 % of the mode F_J."""
    return minimum(F_ax_Rk / 4, limit * F_J)


@formula(symbol="F_v,Rk", source="EN 1995-1-1:2004, 8.2.2(1)")
def with_rope(F_J: N, F_rope: N) -> N:
    """A mode with its rope effect."""
    return F_J + F_rope


@formula(symbol="F_a", source="EN 1995-1-1:2004, 8.2.3 (8.9 a)", typical=_STEEL)
def thin_plate_a(f_h_k: MPA, t_1: MM, d: MM) -> N:
    """Thin steel plate, the wood crushes and the bolt tilts."""
    return 0.4 * f_h_k * t_1 * d


@formula(symbol="F_b", source="EN 1995-1-1:2004, 8.2.3 (8.9 b)", typical=_THIN)
def thin_plate_b(f_h_k: MPA, d: MM, M_y_Rk: N_MM, k: ONE = 1.15) -> N:
    """Thin steel plate, one hinge in the wood."""
    return k * sqrt(2 * M_y_Rk * f_h_k * d)


@formula(symbol="F_c", source="EN 1995-1-1:2004, 8.2.3 (8.10 c)", typical=_STEEL)
def thick_plate_c(f_h_k: MPA, t_1: MM, d: MM, M_y_Rk: N_MM) -> N:
    """Thick steel plate, a hinge at the plate."""
    return f_h_k * t_1 * d * (sqrt(2 + 4 * M_y_Rk / (f_h_k * d * t_1**2)) - 1)


@formula(symbol="F_d", source="EN 1995-1-1:2004, 8.2.3 (8.10 d)", typical=_STEEL)
def thick_plate_d(f_h_k: MPA, d: MM, M_y_Rk: N_MM, k: ONE = 2.3) -> N:
    """Thick steel plate, hinges at the plate and in the wood."""
    return k * sqrt(M_y_Rk * f_h_k * d)


@formula(symbol="F_e", source="EN 1995-1-1:2004, 8.2.3 (8.10 e)", typical=_STEEL)
def thick_plate_e(f_h_k: MPA, t_1: MM, d: MM) -> N:
    """Thick steel plate, the wood crushes over its whole depth."""
    return f_h_k * t_1 * d


@formula(symbol="F_jl", source="EN 1995-1-1:2004, 8.2.3 (8.12 j, 8.13 l)", typical={**_STEEL, "t_2": 42.0})
def outer_plates_j(f_h_k: MPA, t_2: MM, d: MM) -> N:
    """Steel plates on both sides, the wood between them crushes; for each shear plane."""
    return 0.5 * f_h_k * t_2 * d


@formula(symbol="F_v,Rk", source="EN 1995-1-1:2004, 8.2.3(1)", typical={"t_p": 9.0, "d": 12.0})
def between_thin_and_thick(F_thin: N, F_thick: N, t_p: MM, d: MM) -> N:
    """Resistance at plate thickness t_p: thin up to 0.5 d, thick from d, straight between them."""
    share = minimum(positive(2 * t_p / d - 1), 1)
    return F_thin + share * (F_thick - F_thin)


@formula(symbol="F_a", source="EN 1995-1-1:2004, 8.2.2 (8.6 a, 8.7 g)", typical=_WOOD)
def wood_a(f_h_1_k: MPA, t_1: MM, d: MM) -> N:
    """Wood to wood, member 1 crushes."""
    return f_h_1_k * t_1 * d


@formula(symbol="F_b", source="EN 1995-1-1:2004, 8.2.2 (8.6 b)", typical=_WOOD)
def wood_b(f_h_2_k: MPA, t_2: MM, d: MM) -> N:
    """Wood to wood, member 2 crushes."""
    return f_h_2_k * t_2 * d


@formula(symbol="F_c", source="EN 1995-1-1:2004, 8.2.2 (8.6 c)", typical=_BENT)
def wood_c(f_h_1_k: MPA, t_1: MM, t_2: MM, d: MM, beta: ONE) -> N:
    """Wood to wood, the straight bolt tilts in both members."""
    r = t_2 / t_1
    root = sqrt(beta + 2 * beta**2 * (1 + r + r**2) + beta**3 * r**2)
    return f_h_1_k * t_1 * d / (1 + beta) * (root - beta * (1 + r))


@formula(symbol="F_d", source="EN 1995-1-1:2004, 8.2.2 (8.6 d, 8.7 j)", typical=_BENT)
def wood_d(f_h_1_k: MPA, t_1: MM, d: MM, M_y_Rk: N_MM, beta: ONE, k: ONE = 1.05) -> N:
    """Wood to wood, a hinge in member 2 while member 1 crushes."""
    root = sqrt(2 * beta * (1 + beta) + 4 * beta * (2 + beta) * M_y_Rk / (f_h_1_k * d * t_1**2))
    return k * f_h_1_k * t_1 * d / (2 + beta) * (root - beta)


@formula(symbol="F_e", source="EN 1995-1-1:2004, 8.2.2 (8.6 e)", typical=_BENT)
def wood_e(f_h_1_k: MPA, t_2: MM, d: MM, M_y_Rk: N_MM, beta: ONE, k: ONE = 1.05) -> N:
    """Wood to wood, a hinge in member 1 while member 2 crushes."""
    root = sqrt(2 * beta**2 * (1 + beta) + 4 * beta * (1 + 2 * beta) * M_y_Rk / (f_h_1_k * d * t_2**2))
    return k * f_h_1_k * t_2 * d / (1 + 2 * beta) * (root - beta)


@formula(symbol="F_f", source="EN 1995-1-1:2004, 8.2.2 (8.6 f, 8.7 k)", typical={**_BENT, "k": 1.15})
def wood_f(f_h_1_k: MPA, d: MM, M_y_Rk: N_MM, beta: ONE, k: ONE = 1.15) -> N:
    """Wood to wood, a hinge in each member."""
    return k * sqrt(2 * beta / (1 + beta)) * sqrt(2 * M_y_Rk * f_h_1_k * d)


@formula(symbol="F_h", source="EN 1995-1-1:2004, 8.2.2 (8.7 h)", typical=_WOOD)
def wood_double_h(f_h_2_k: MPA, t_2: MM, d: MM) -> N:
    """Wood in double shear, the middle member 2 crushes; for each shear plane."""
    return 0.5 * f_h_2_k * t_2 * d


def roped(F_J: Value, F_ax_Rk: Value) -> Value:
    """A mode in N with the rope effect of the pull F_ax_Rk in N (zero where the bolt carries tension)."""
    return with_rope(F_J, rope_effect(F_J, F_ax_Rk))


def thin_plate_modes(f_h_k: MPA, t_1: MM, d: MM, M_y_Rk: N_MM, F_ax_Rk: N = 0.0) -> dict[str, Value]:
    """Modes a and b in N of one thin steel plate on wood of thickness t_1 (8.9)."""
    return {"a": thin_plate_a(f_h_k, t_1, d), "b": roped(thin_plate_b(f_h_k, d, M_y_Rk), F_ax_Rk)}


def thick_plate_modes(f_h_k: MPA, t_1: MM, d: MM, M_y_Rk: N_MM, F_ax_Rk: N = 0.0) -> dict[str, Value]:
    """Modes c, d and e in N of one thick steel plate on wood of thickness t_1 (8.10).

    They are also modes f, g, h (8.11) of a steel plate between two members of thickness t_1, for each
    shear plane.
    """
    return {
        "c": roped(thick_plate_c(f_h_k, t_1, d, M_y_Rk), F_ax_Rk),
        "d": roped(thick_plate_d(f_h_k, d, M_y_Rk), F_ax_Rk),
        "e": thick_plate_e(f_h_k, t_1, d),
    }


def one_plate(f_h_k: MPA, t_1: MM, d: MM, M_y_Rk: N_MM, t_p: MM, F_ax_Rk: N = 0.0) -> Value:
    """Resistance in N of a bolt in wood of thickness t_1 with one steel plate t_p thick (8.9, 8.10)."""
    thin = least(thin_plate_modes(f_h_k, t_1, d, M_y_Rk, F_ax_Rk))
    thick = least(thick_plate_modes(f_h_k, t_1, d, M_y_Rk, F_ax_Rk))
    return between_thin_and_thick(thin, thick, t_p, d)


def outer_plates(f_h_k: MPA, t_2: MM, d: MM, M_y_Rk: N_MM, t_p: MM, F_ax_Rk: N = 0.0) -> Value:
    """Resistance in N for each shear plane, wood of thickness t_2 between two steel plates (8.12, 8.13)."""
    crushing = outer_plates_j(f_h_k, t_2, d)
    thin = minimum(crushing, roped(thin_plate_b(f_h_k, d, M_y_Rk), F_ax_Rk))
    thick = minimum(crushing, roped(thick_plate_d(f_h_k, d, M_y_Rk), F_ax_Rk))
    return between_thin_and_thick(thin, thick, t_p, d)


def wood_single_modes(
    f_h_1_k: MPA, f_h_2_k: MPA, t_1: MM, t_2: MM, d: MM, M_y_Rk: N_MM, F_ax_Rk: N = 0.0
) -> dict[str, Value]:
    """Modes a to f in N of wood to wood in single shear (8.6)."""
    beta = embedment_ratio(f_h_1_k, f_h_2_k)
    return {
        "a": wood_a(f_h_1_k, t_1, d),
        "b": wood_b(f_h_2_k, t_2, d),
        "c": roped(wood_c(f_h_1_k, t_1, t_2, d, beta), F_ax_Rk),
        "d": roped(wood_d(f_h_1_k, t_1, d, M_y_Rk, beta), F_ax_Rk),
        "e": roped(wood_e(f_h_1_k, t_2, d, M_y_Rk, beta), F_ax_Rk),
        "f": roped(wood_f(f_h_1_k, d, M_y_Rk, beta), F_ax_Rk),
    }


def wood_double_modes(
    f_h_1_k: MPA, f_h_2_k: MPA, t_1: MM, t_2: MM, d: MM, M_y_Rk: N_MM, F_ax_Rk: N = 0.0
) -> dict[str, Value]:
    """Modes g to k in N for each shear plane of wood in double shear, t_2 in the middle (8.7)."""
    beta = embedment_ratio(f_h_1_k, f_h_2_k)
    return {
        "g": wood_a(f_h_1_k, t_1, d),
        "h": wood_double_h(f_h_2_k, t_2, d),
        "j": roped(wood_d(f_h_1_k, t_1, d, M_y_Rk, beta), F_ax_Rk),
        "k": roped(wood_f(f_h_1_k, d, M_y_Rk, beta), F_ax_Rk),
    }


def wood_single(f_h_1_k: MPA, f_h_2_k: MPA, t_1: MM, t_2: MM, d: MM, M_y_Rk: N_MM, F_ax_Rk: N = 0.0) -> Value:
    """Resistance in N of wood to wood in single shear (8.6)."""
    return least(wood_single_modes(f_h_1_k, f_h_2_k, t_1, t_2, d, M_y_Rk, F_ax_Rk))


def wood_double(f_h_1_k: MPA, f_h_2_k: MPA, t_1: MM, t_2: MM, d: MM, M_y_Rk: N_MM, F_ax_Rk: N = 0.0) -> Value:
    """Resistance in N for each shear plane of wood in double shear (8.7)."""
    return least(wood_double_modes(f_h_1_k, f_h_2_k, t_1, t_2, d, M_y_Rk, F_ax_Rk))
