"""Aluminum Design Manual, specification section J.3: bolts bearing in aluminium. Clauses from memory."""

from transom.formula import formula
from transom.maths import minimum
from transom.units import MM, MPA, ONE, N

_PLATE = {"d_e": 19.05, "D": 12.7, "t": 6.35, "F_tu": 262.0, "Omega": 1.95}


@formula(symbol="R_n", source="Aluminum Design Manual, J.3.7", known_by="memory", typical=_PLATE)
def bearing_strength(d_e: MM, D: MM, t: MM, F_tu: MPA) -> N:
    """Nominal bearing and tear-out: d_e is from the hole's centre to the edge along the load."""
    return minimum(d_e, 2 * D) * t * F_tu


@formula(symbol="P_nov", source="Aluminum Design Manual, J.5.5.2 (pull-over of sheet, C 0.7: flat sheet with a gap behind)",
         known_by="memory", typical={"D_ws": 25.4, "D_h": 10.3, "t": 3.2, "F_tu": 215.0, "C": 0.7})  # fmt: skip
def pull_over_strength(t: MM, F_tu: MPA, D_ws: MM, D_h: MM, C: ONE = 0.7) -> N:
    """Nominal pull at which sheet t thick tears over a washer D_ws with the hole D_h."""
    return C * t * F_tu * (D_ws - D_h)


@formula(symbol="phi R_n", source="Aluminum Design Manual, J.5 (LRFD, screws phi 0.5)", known_by="memory")
def design_strength(R_n: N, phi: ONE) -> N:
    """Strength to set against factored loads."""
    return phi * R_n


@formula(symbol="R_n/Omega", source="Aluminum Design Manual, J.3", known_by="memory", typical=_PLATE)
def allowable_strength(R_n: N, Omega: ONE = 1.95) -> N:
    """Allowable load of the fastener in the plate."""
    return R_n / Omega


@formula(symbol="e_min", source="Aluminum Design Manual, J.3.4", known_by="memory", typical=_PLATE)
def least_edge(D: MM) -> MM:
    """Smallest distance from a bolt's centre to an edge."""
    return 1.5 * D


@formula(symbol="s_min", source="Aluminum Design Manual, J.3.3", known_by="memory", typical=_PLATE)
def least_spacing(D: MM) -> MM:
    """Smallest distance between bolt centres."""
    return 2.5 * D
