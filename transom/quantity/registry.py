"""Our own short list of units as a Pint registry, and the factor of one unit."""

from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    import pint

DEFINITIONS = Path(__file__).with_name("units.txt")


@cache
def registry() -> "pint.UnitRegistry[Any]":
    """The registry of the units in `units.txt`; made once, keeps no cache and writes no file."""
    import pint

    return pint.UnitRegistry(str(DEFINITIONS), cache_folder=None)


@cache
def factor(unit: str, working: str) -> Fraction:
    """How many `working` units one `unit` is; both as Pint reads them.

    The float is taken at its shortest decimal, 25.4 and not the binary number nearest to it, so that
    20-1/2 in is 520.7 mm to the last digit.
    """
    return Fraction(repr(float(registry().Quantity(1.0, unit).to(working).magnitude)))


def celsius(number: Fraction, unit: str) -> float:
    """A temperature in degC. Rounded to twelve decimals: the offset of 273.15 leaves dust behind them."""
    return round(float(registry().Quantity(float(number), unit).to("degC").magnitude), 12)
