"""How far a plate or washer spreads the force of what bears on it."""

from transom.formula import formula
from transom.maths import sqrt
from transom.units import MM, MPA, ONE

DG1 = "AISC Design Guide 1, 2nd ed., section 3.1"


@formula(symbol="m", source=DG1, known_by="memory", typical={"B": 80.0, "c": 20.0})
def plate_overhang(B: MM, c: MM, share: ONE = 1.0) -> MM:
    """Length of a plate B wide beyond a width c that bears on it; of a rolled section a share bears."""
    return (B - share * c) / 2


@formula(symbol="m_eff", source=f"{DG1}, plastic section, solved for the overhang", known_by="derived")
def effective_overhang(t: MM, f_y: MPA, p: MPA, gamma_M: ONE) -> MM:
    """Overhang a plate t thick carries at pressure p; what lies beyond spreads nothing."""
    return t * sqrt(f_y / (2 * p * gamma_M))
