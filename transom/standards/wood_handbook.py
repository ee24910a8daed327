"""FPL Wood Handbook (FPL-GTR-282): clear-wood values at another moisture, and what panels keep of them.

The panel rows of the material tables are estimates made with these steps; a declared class or a test of
the panel at hand always wins over them.
"""

from transom.formula import formula
from transom.maths import exp, log
from transom.units import MPA, ONE

_MOISTURE = {"P_12": 85.0, "P_g": 53.0, "M": 18.0, "M_p": 24.0, "dry": 12.0}
_CUT = {"V": 0.16, "k": 0.5, "z": 1.645}


@formula(symbol="P", source="FPL-GTR-282, eq 5-3", typical=_MOISTURE)
def at_moisture(P_12: MPA, P_g: MPA, M: ONE, M_p: ONE = 25.0, dry: ONE = 12.0) -> MPA:
    """A clear-wood property at the moisture content M in percent, from its 12 % and green values.

    Straight on a logarithmic scale from 12 % to M_p, where green wood begins (24 Douglas-fir, 25 by
    default); hold M at M_p above it. Not for tension across the grain.
    """
    return P_12 * exp(log(P_12 / P_g) * (dry - M) / (M_p - dry))


@formula(symbol="E_L", source="FPL-GTR-282, Table 5-1 note", typical={"k": 1.1})
def true_modulus(E_bending: MPA, k: ONE = 1.1) -> MPA:
    """Modulus along the grain without the shear deflection that the bending test leaves in."""
    return k * E_bending


@formula(symbol="f_k", source="FPL-GTR-282, Table 5-6 (coefficients of variation), normal distribution",
         known_by="derived", typical=_CUT)  # fmt: skip
def lower_fifth(f_mean: MPA, V: ONE, z: ONE = 1.645) -> MPA:
    """The value that 5 in 100 fall below, from mean and coefficient of variation V."""
    return f_mean * (1 - z * V)


@formula(symbol="E", source="lamination against FPL-GTR-282, Table 12-2", evidence="estimate",
         known_by="derived", typical={"k": 0.7})  # fmt: skip
def panel_modulus(E_laminated: MPA, k: ONE = 0.7) -> MPA:
    """Modulus of a real panel from that of clear veneers laminated without fault."""
    return k * E_laminated


@formula(symbol="f_c,90", source="APA D510 (2012), 4.4: allowable bearing is the mean over 1.67",
         known_by="transcribed", typical={"k": 1.67})  # fmt: skip
def mean_face_bearing(F_c_perp: MPA, k: ONE = 1.67) -> MPA:
    """Mean face bearing strength at 0.04 in of crush from the allowable one."""
    return k * F_c_perp
