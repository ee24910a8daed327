"""Anodic index (MIL-STD-889 practice): how far apart two metals in contact may lie.

An index is the metal's potential below gold in volts, given here as a plain number.
"""

from transom.formula import formula
from transom.maths import absolute
from transom.units import ONE


@formula(symbol="dV", source="anodic index, MIL-STD-889 practice", known_by="read",
         typical={"V_1": 0.9, "V_2": 0.5})  # fmt: skip
def anodic_difference(V_1: ONE, V_2: ONE) -> ONE:
    """Difference of two anodic indices in volts: 0.15 harsh marine, 0.25 normal, 0.50 controlled at most."""
    return absolute(V_1 - V_2)
