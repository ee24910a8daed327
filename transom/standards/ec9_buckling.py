"""EN 1999-1-1, 6.3.1: a strut of aluminium, its buckling curve. From memory."""

from transom.formula import formula
from transom.maths import PI, maximum, minimum, sqrt
from transom.units import MM, MPA, ONE

CURVE = "EN 1999-1-1:2007, 6.3.1.2, buckling class B"
PANEL = "Timoshenko and Gere, Theory of Elastic Stability, long plate in shear, 5.34; EN 1999-1-1:2007, 6.2.6"
_STRUT = {"L": 250.0, "t": 9.5, "f_o": 103.0, "E": 70000.0, "lam": 0.9, "phi": 0.95, "chi": 0.6, "gamma_M1": 1.1}


@formula(symbol="lambda", source=CURVE, known_by="memory", typical=_STRUT)
def strip_slenderness(L: MM, t: MM, f_o: MPA, E: MPA) -> ONE:
    """Relative slenderness of a strip of plate t thick, pinned over a length L."""
    return sqrt(12) * L / (PI * t) * sqrt(f_o / E)


@formula(symbol="phi", source=CURVE, known_by="memory", typical=_STRUT)
def curve_term(lam: ONE, alpha: ONE = 0.32, lam_0: ONE = 0.0) -> ONE:
    """Term of the buckling curve."""
    return 0.5 * (1 + alpha * (lam - lam_0) + lam * lam)


@formula(symbol="chi", source=CURVE, known_by="memory", typical=_STRUT)
def reduction(phi: ONE, lam: ONE) -> ONE:
    """Share of its strength that buckling leaves a strut."""
    return minimum(1 / (phi + sqrt(maximum(phi * phi - lam * lam, 0.0))), 1.0)


@formula(symbol="sigma_Rd", source=CURVE, known_by="memory", typical=_STRUT)
def strut_strength(chi: ONE, f_o: MPA, gamma_M1: ONE) -> MPA:
    """Stress that a strut carries."""
    return chi * f_o / gamma_M1


@formula(symbol="tau_cr", source=PANEL, known_by="memory", typical={"b": 240.0, "t": 6.0, "E": 70000.0})
def panel_shear_strength(b: MM, t: MM, E: MPA, nu: ONE = 0.33, k: ONE = 5.34) -> MPA:
    """Shear stress at which a long plate b wide buckles; a shorter one holds more."""
    return k * PI * PI * E / (12 * (1 - nu * nu)) * (t / b) ** 2
