"""AISC: plates bent by the pressure under them (Design Guide 1), bolts in tension and shear (360, J3)."""

from transom.formula import formula
from transom.maths import minimum, sqrt
from transom.units import MM, MPA, ONE

_PLATE = {"m": 20.0, "p": 8.0, "f_y": 215.0, "gamma_M": 1.1, "t": 8.0}
_BOLT = {"F_nt": 620.0, "F_nv": 372.0, "f_rv": 125.0, "phi": 0.75}


@formula(symbol="t_req", source="AISC Design Guide 1, 2nd ed., 3.1", known_by="memory", typical=_PLATE)
def plate_thickness(m: MM, p: MPA, f_y: MPA, gamma_M: ONE) -> MM:
    """Thickness that a plate needs to overhang by m under the pressure p; fully plastic section.

    gamma_M is one over the guide's phi of 0.9, or the partial factor of the plate.
    """
    return m * sqrt(2 * p * gamma_M / f_y)


@formula(symbol="t_el", source="bending of a cantilever strip, elastic section", known_by="derived", typical=_PLATE)
def elastic_plate_thickness(m: MM, p: MPA, f_y: MPA, gamma_M: ONE) -> MM:
    """The same at first yield, 1.22 times as thick: a plate that stays straight."""
    return m * sqrt(3 * p * gamma_M / f_y)


@formula(symbol="p_Rd", source="AISC Design Guide 1, 2nd ed., 3.1, solved for the pressure",
         known_by="derived", typical=_PLATE)  # fmt: skip
def plate_pressure_resistance(m: MM, t: MM, f_y: MPA, gamma_M: ONE) -> MPA:
    """Pressure under a plate of thickness t and overhang m that makes it fully plastic."""
    return t**2 * f_y / (2 * m**2 * gamma_M)


@formula(symbol="F'_nt", source="AISC 360-16, J3.7 (J3-3a)", known_by="memory", typical=_BOLT)
def tension_strength_with_shear(F_nt: MPA, F_nv: MPA, f_rv: MPA, phi: ONE = 0.75) -> MPA:
    """Nominal tension strength of a bolt that also carries the shear stress f_rv."""
    return minimum(1.3 * F_nt - F_nt / (phi * F_nv) * f_rv, F_nt)
