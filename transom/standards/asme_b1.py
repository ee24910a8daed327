"""ASME B1.1 (unified inch threads): areas, with the pitch in mm (25.4 over threads an inch)."""

from transom.formula import formula
from transom.maths import PI
from transom.units import MM, MM2

_THREAD = {"D": 12.7, "p": 1.9538}


@formula(symbol="A_s", source="ASME B1.1, tensile stress area", typical=_THREAD)
def tensile_stress_area(D: MM, p: MM) -> MM2:
    """Tensile stress area of a unified thread of pitch p."""
    return PI / 4 * (D - 0.9743 * p) ** 2


@formula(symbol="A_r", source="ASME B1.1, UNR minor diameter", known_by="memory", typical=_THREAD)
def minor_area(D: MM, p: MM) -> MM2:
    """Area at the root of a unified thread with rounded root."""
    return PI / 4 * (D - 1.190785 * p) ** 2
