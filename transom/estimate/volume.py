"""What a kit holds: liters from a shop's text."""

import re
from fractions import Fraction

_LITERS = {
    "l": Fraction(1), "liter": Fraction(1), "liters": Fraction(1), "litre": Fraction(1), "litres": Fraction(1),
    "ml": Fraction(1, 1000), "gal": Fraction("3.785411784"), "gallon": Fraction("3.785411784"),
    "gallons": Fraction("3.785411784"), "qt": Fraction("0.946352946"), "quart": Fraction("0.946352946"),
    "quarts": Fraction("0.946352946"), "pt": Fraction("0.473176473"), "pint": Fraction("0.473176473"),
    "fl oz": Fraction("0.0295735295625"), "oz": Fraction("0.0295735295625"),
}  # fmt: skip
_FORM = re.compile(r"(?:(\d{1,6})[ -])?(\d{1,6}(?:\.\d{1,6})?)(?:/(\d{1,6}))?\s*([a-z ]+?)\.?")


def liters(text: str) -> float | None:
    """Liters of "1 gal", "1-1/2 qt", "900 ml" (US measures, NIST SP 811); None where it is no volume."""
    found = _FORM.fullmatch(" ".join(text.lower().split()))
    unit = _LITERS.get(found[4]) if found else None
    if found is None or unit is None or (found[3] is not None and int(found[3]) == 0):
        return None
    number = Fraction(found[1] or 0) + Fraction(found[2]) / Fraction(found[3] or 1)
    return float(number * unit) if 0 < number * unit <= 1000 else None
