"""Stocked drills as numbers, in the steps that `report.amounts.drill` prints."""

import math
from fractions import Fraction

from transom.report.amounts import drill_steps

ON_STEP = 1e-6  # of a step


def stocked(mm: float, units: str, towards: str = "nearest") -> float:
    """The stocked drill or bore for a diameter, mm: the nearest, the next "up" or "down".

    Raises:
        ValueError: `units` or `towards` is unknown, or the diameter is not finite and above zero.
    """
    if not (math.isfinite(mm) and mm > 0) or units not in ("us", "si") or towards not in ("nearest", "up", "down"):
        raise ValueError(f"no drill for {mm!r} mm, {units!r}, {towards!r}")
    inch, metric = drill_steps(mm)
    step = float(Fraction(inch) * Fraction("25.4")) if units == "us" else float(metric)
    count = mm / step
    near = math.floor(count + 0.5)
    if towards == "nearest" or abs(count - near) <= ON_STEP:
        return near * step
    return (math.ceil(count) if towards == "up" else math.floor(count)) * step
