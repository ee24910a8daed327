"""Bonded layers in bending: the formulas that turn veneers into a board, per unit width."""

from transom.formula import formula
from transom.maths import absolute, maximum, minimum, sqrt, total
from transom.units import (
    KG_PER_M2,
    KG_PER_M3S,
    MM,
    MM3,
    MM_PER_M,
    MMS,
    MPA,
    MPAS,
    N_MM,
    N_PER_MM,
    ONE,
    PER_N,
    N,
)

FIT = "own fit: a lone sheet returns its panel's table rows; bending of bonded layers, elementary"


@formula(symbol="t", source="sheets one on the other; glue lines are not counted as wood", known_by="derived")
def thickness_of(t: MMS) -> MM:
    """Thickness of wood of all sheets."""
    whole: MM = total(t)
    return whole


@formula(symbol="I", source="second moments of layers, per unit width", known_by="derived")
def plies_inertia(z_lo: MMS, z_hi: MMS) -> MM3:
    """Second moment, per unit width, of layers from z_lo to z_hi about z = 0."""
    inertia: MM3 = total(z_hi**3 - z_lo**3) / 3
    return inertia


@formula(symbol="z", source="plies of one sheet are of equal thickness", evidence="convention", known_by="derived")
def ply_depth(face: MM, t: MM, share: ONE) -> MM:
    """Depth of a ply's face: its sheet's, and so much of the sheet's thickness."""
    return face + t * share


@formula(symbol="E_90", source="share e_90 of the modulus along the grain", known_by="derived", typical={"e_90": 0.05})
def across_grain(E_i: MPA, e_90: ONE) -> MPA:
    """Modulus of a veneer across its grain."""
    return E_i * e_90


@formula(symbol="E_i", source=FIT, evidence="convention", known_by="derived")
def veneer_modulus(E_panel: MPA, t: MM, I_along: MM3, I_across: MM3, e_90: ONE) -> MPA:
    """Modulus along the grain of the veneers that give a lone sheet its panel modulus."""
    return E_panel * (t**3 / 12) / (I_along + e_90 * I_across)


@formula(symbol="f_i", source=FIT, evidence="convention", known_by="derived")
def veneer_strength(f_panel: MPA, E_i: MPA, E_panel: MPA, z_outermost: MM, t: MM) -> MPA:
    """Bending strength of the veneers that gives a lone sheet its panel strength."""
    return f_panel * (E_i / E_panel) * (2 * z_outermost / t)


@formula(symbol="EA", source="bending of bonded layers, elementary", known_by="derived")
def axial_stiffness(E: MPAS, z_lo: MMS, z_hi: MMS) -> N_PER_MM:
    """Axial stiffness per unit width of all layers."""
    EA: N_PER_MM = total(E * (z_hi - z_lo))
    return EA


@formula(symbol="ES", source="bending of bonded layers, elementary", known_by="derived")
def first_stiffness(E: MPAS, z_lo: MMS, z_hi: MMS) -> N:
    """Modulus-weighted first moment of all layers per unit width about z = 0."""
    ES: N = total(E * (z_hi**2 - z_lo**2)) / 2
    return ES


@formula(symbol="ES_b", source="bending of bonded layers, elementary", known_by="derived")
def first_stiffness_beyond(E: MPAS, z_lo: MMS, z_hi: MMS, cut: MMS) -> N:
    """Size of the same of what lies before a cut."""
    ES: N = total(E * (minimum(z_hi, cut) ** 2 - minimum(z_lo, cut) ** 2)) / 2
    return absolute(ES)


@formula(symbol="z", source="geometry", known_by="derived")
def from_axis(z: MM, z_0: MM) -> MM:
    """Depth counted from an axis."""
    return z - z_0


@formula(symbol="z_m", source="geometry", known_by="derived")
def mid_depth(t: MM) -> MM:
    """Depth of the middle of a board."""
    return t / 2


@formula(symbol="z", source="geometry", known_by="derived")
def farther_face(z_lo: MM, z_hi: MM, z_0: MM) -> MM:
    """Distance of a layer's farther face from an axis."""
    return maximum(absolute(z_lo - z_0), absolute(z_hi - z_0))


@formula(symbol="z_0", source="bending of bonded layers, elementary", known_by="derived")
def elastic_axis(ES: N, EA: N_PER_MM) -> MM:
    """Depth of the elastic axis."""
    return ES / EA


@formula(symbol="D", source="bending of bonded layers, elementary", known_by="derived")
def bending_stiffness(E: MPAS, z_lo: MMS, z_hi: MMS) -> N_MM:
    """Bending stiffness per unit width of all layers about z = 0."""
    D: N_MM = total(E * (z_hi**3 - z_lo**3)) / 3
    return D


@formula(
    symbol="D", source="parallel axes", known_by="derived",
    typical={"D_0": 1e9, "EA": 1e5, "z_0": 20.0},
)  # fmt: skip
def about_elastic_axis(D_0: N_MM, EA: N_PER_MM, z_0: MM) -> N_MM:
    """Bending stiffness per unit width about the elastic axis (an unequal stack is taken uncoupled)."""
    return D_0 - EA * z_0**2


@formula(symbol="E", source="bending of bonded layers, elementary", known_by="derived")
def effective_modulus(D: N_MM, t: MM) -> MPA:
    """Modulus of the uniform board of the same thickness and bending stiffness."""
    return 12 * D / t**3


@formula(symbol="G_t", source="layers in series under one shear force", known_by="derived")
def series_modulus(t: MMS, G: MPAS) -> MPA:
    """Shear modulus through the thickness of layers that all carry the same shear force."""
    G_t: MPA = total(t) / total(t / G)
    return G_t


@formula(symbol="s", source="bending of bonded layers, elementary", known_by="derived")
def bending_coefficient(E_i: MPA, z: MM, D: N_MM, f_i: MPA) -> PER_N:
    """Utilisation of a veneer at distance z from the elastic axis by a unit moment per width."""
    return E_i * z / D / f_i


@formula(symbol="r", source="torsion of a laminated plate: tau = G z M_xy / D_66", known_by="derived")
def twist_coefficient(G_i: MPA, z: MM, D_66: N_MM, f_v: MPA) -> PER_N:
    """Utilisation in panel shear at distance z from mid-thickness by a unit twisting moment per width."""
    return G_i * z / D_66 / f_v


@formula(
    symbol="u", source="quadratic interaction in a veneer, (sigma_1/f_1)^2 + (tau_12/f_v)^2 <= 1",
    evidence="convention", known_by="derived", typical={"s": 1e-4, "r": 1e-4, "M": 1e3, "M_xy": 1e2},
)  # fmt: skip
def veneer_interaction(M: N, s: PER_N, M_xy: N, r: PER_N, k: ONE) -> ONE:
    """Utilisation of a veneer in bending along its grain with panel shear; k = k_mod/gamma_M."""
    u: ONE = sqrt((M * s) ** 2 + (M_xy * r) ** 2) / k
    return u


@formula(symbol="c", source="shear flow in bonded layers: tau = V ES/(D b)", known_by="derived")
def planar_shear_factor(t: MM, ES_beyond: N, D: N_MM) -> ONE:
    """Planar shear stress at a depth over the mean stress V/(b t)."""
    return t * ES_beyond / D


@formula(
    symbol="m", source="density times thickness", known_by="derived",
    typical={"mm_per_m": 1000.0, "rho": 460.0},
)  # fmt: skip
def sheets_mass(rho: KG_PER_M3S, t: MMS, mm_per_m: MM_PER_M = 1000.0) -> KG_PER_M2:
    """Mass of all sheets for each square metre of board."""
    mass: KG_PER_M2 = total(rho * t) / mm_per_m
    return mass


@formula(
    symbol="S'",
    source="MacNeal, Computers & Structures 8 (1978), residual bending flexibility",
    known_by="memory",
)
def residual_shear(S: N_PER_MM, D: N_MM, h: MM) -> N_PER_MM:
    """Shear stiffness per width of an element of length h, softened by the bending it cannot show."""
    return S / (1 + S * h**2 / (12 * D))


@formula(symbol="D", source="bending of a uniform layer, per unit width", known_by="derived")
def rigidity(E: MPA, t: MM) -> N_MM:
    """Bending stiffness per width of a uniform board of effective modulus E; twisting with G in its place."""
    return E * t**3 / 12


@formula(symbol="D_p", source="T&WK, Theory of Plates and Shells, 2nd ed., eq. (3)", known_by="memory")
def metal_rigidity(E: MPA, t: MM, nu: ONE) -> N_MM:
    """Bending stiffness per width of a metal plate."""
    return E * t**3 / (12 * (1 - nu**2))


@formula(symbol="S", source="parabolic shear stress over a uniform board", known_by="derived")
def shear_stiffness(G: MPA, t: MM) -> N_PER_MM:
    """Transverse shear stiffness per width of a uniform board."""
    return 5 * G * t / 6
