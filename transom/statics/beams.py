"""Beams the hand method is made of: deflections, reactions and moments, bending and shear."""

from transom.formula import formula
from transom.maths import sqrt
from transom.units import MM, MM_PER_N, N_MM, N_MM2, N_PER_MM, N

ROARK = "Young, Budynas and Sadegh, Roark's Formulas for Stress and Strain, 8th ed., Table 8.1"
AISC = "AISC Steel Construction Manual, Table 3-23"


@formula(symbol="y", source=f"{ROARK}, case 1a", known_by="memory")
def cantilever_tip_deflection(P: N, a: MM, L: MM, EI: N_MM2) -> MM:
    """Tip deflection of a cantilever of length L under P at a from the root."""
    return P * a**2 * (3 * L - a) / (6 * EI)


@formula(symbol="M", source=f"{ROARK}, case 1a", known_by="memory")
def cantilever_root_moment(P: N, a: MM) -> N_MM:
    """Root moment of a cantilever under P at a from the root."""
    return P * a


@formula(symbol="y", source=f"{ROARK}, case 2a", known_by="memory")
def cantilever_tip_deflection_uniform(w: N_PER_MM, L: MM, EI: N_MM2) -> MM:
    """Tip deflection of a cantilever of length L under a uniform load."""
    return w * L**4 / (8 * EI)


@formula(symbol="M", source=f"{ROARK}, case 2a", known_by="memory")
def cantilever_root_moment_uniform(w: N_PER_MM, L: MM) -> N_MM:
    """Root moment of a cantilever of length L under a uniform load."""
    return w * L**2 / 2


@formula(symbol="R_1", source=f"{AISC}, case 26", known_by="read")
def overhang_far_reaction(P: N, a: MM, L: MM) -> N:
    """Reaction at the support away from an overhang a with P at its end, span L; negative holds down."""
    return -P * a / L


@formula(symbol="R_2", source=f"{AISC}, case 26", known_by="read")
def overhang_near_reaction(P: N, a: MM, L: MM) -> N:
    """Reaction at the support beside an overhang a with P at its end, span L."""
    return P * (L + a) / L


@formula(symbol="y/P", source=f"{AISC}, case 26", known_by="read")
def overhang_flexibility(a: MM, L: MM, EI: N_MM2) -> MM_PER_N:
    """Deflection of the end of an overhang a beside a span L, for each newton there."""
    return a * a * (L + a) / (3 * EI)


@formula(symbol="y", source=f"{AISC}, case 26", known_by="read")
def overhang_tip_deflection(P: N, a: MM, L: MM, EI: N_MM2) -> MM:
    """Deflection of the end of an overhang a beside a span L under P there."""
    return P * overhang_flexibility(a, L, EI)


@formula(symbol="y", source=f"{AISC}, case 26", known_by="read")
def overhang_span_deflection(P: N, a: MM, L: MM, EI: N_MM2) -> MM:
    """Greatest deflection, opposite to P, within the span beside an overhang."""
    return P * a * L**2 / (9 * sqrt(3) * EI)


@formula(
    symbol="y/P",
    source=f"{AISC}, case 9",
    known_by="memory",
    typical={"a": 80.0, "W": 400.0},
)
def two_load_flexibility(a: MM, W: MM, EI: N_MM2) -> MM_PER_N:
    """Deflection under each of two like loads at a (to W/2) from the ends of a span W, for each newton."""
    return a * a * (3 * W - 4 * a) / (6 * EI)


@formula(symbol="y/P", source="two loads outside the supports, from the cantilever's", known_by="derived")
def two_overhang_flexibility(e: MM, W: MM, EI: N_MM2) -> MM_PER_N:
    """Deflection under each of two like loads at e outside the ends of a span W, for each newton."""
    return e * e * (3 * W + 2 * e) / (6 * EI)


@formula(
    symbol="n_ij",
    source=f"{AISC}, case 8",
    known_by="memory",
    typical={"x": 50.0, "z": 300.0, "H": 450.0},
)
def span_influence(x: MM, z: MM, H: MM, EI: N_MM2, GA: N) -> MM_PER_N:
    """Deflection at x for each newton at z, x <= z, on a simple span H, bending and shear."""
    return x * (H - z) * (H * H - x * x - (H - z) * (H - z)) / (6 * EI * H) + x * (H - z) / (GA * H)
