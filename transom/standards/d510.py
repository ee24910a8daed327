"""APA D510 (Panel Design Specification): allowable stress of sanded plywood, a second opinion.

The document gives bending capacity for a strip of unit width. Over the gross section of its own panel it
becomes a stress, which is put beside a stack of sheets for information; a stack is not a listed panel.
"""

from transom.formula import formula
from transom.maths import absolute
from transom.units import MM, MPA, ONE, N

_PANEL = {"F_bS": 287.0, "t": 18.26, "C_D": 1.25, "C_M": 0.75, "m": 500.0}


@formula(symbol="F_b", source="APA D510 (2012) Table 9, over the gross section", known_by="derived", typical=_PANEL)
def gross_bending_stress(F_bS: N, t: MM) -> MPA:
    """Allowable stress from the capacity F_bS in N*mm for each mm of width of a panel t thick."""
    return 6 * F_bS / t**2


@formula(symbol="F'_b", source="APA D510 (2012), 4.5", typical=_PANEL)
def allowable_stress(F_b: MPA, C_D: ONE, C_M: ONE) -> MPA:
    """Allowable stress for the load's duration and, above 16 % moisture, the damp."""
    return F_b * C_D * C_M


@formula(symbol="f_b", source="bending of a rectangular section", known_by="derived", typical=_PANEL)
def gross_stress(m: N, t: MM) -> MPA:
    """Stress from the moment m in N*mm for each mm of width over the gross section of a stack t thick."""
    return 6 * absolute(m) / t**2
