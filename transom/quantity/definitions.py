"""`units.txt` read without Pint: how large each unit is, exactly, in the base units of its kind.

Pint and its registry take 0.13 s to import and make, half of what a job takes to read; what a shop types needs one
factor a unit. Tests hold every factor and temperature against Pint's reading of the same file.
"""

import re
from collections.abc import Mapping
from fractions import Fraction
from functools import cache
from pathlib import Path

from transom.frozen import dataclass

DEFINITIONS = Path(__file__).with_name("units.txt")
# A space multiplies after a number alone, as in "1000 newton".
_TERM = re.compile(r"\s*(?P<by>[*/]|(?<=[0-9]\s))\s*(?P<what>[A-Za-z_]+|[0-9.]+)(?:\s*\*\*\s*(?P<power>[0-9]+))?")


@dataclass(frozen=True)
class Size:
    """A unit's size in base units, and the base unit's value at its zero: kelvin at 0 C."""

    of_one: Fraction
    zero: Fraction


@cache
def _sizes() -> Mapping[str, Size]:
    """Every unit of `units.txt`, by its name and by its symbols."""
    found: dict[str, Size] = {}
    for line in DEFINITIONS.read_text(encoding="utf-8").splitlines():
        name, *rest = (part.strip() for part in line.partition("#")[0].split("="))
        if rest:
            worth, _, offset = rest[0].partition("; offset:")
            one = Fraction(1) if worth.startswith("[") else _worth(worth, found)
            found |= dict.fromkeys((name, *rest[1:]), Size(one, Fraction(offset.strip() or 0)))
    return found


def _worth(text: str, known: Mapping[str, Size]) -> Fraction:
    """A product of numbers and units, as `units.txt` and `kinds.py` write them, from left to right."""
    worth, at, text = Fraction(1), 0, f"*{text.strip()}"
    while at < len(text):
        term = _TERM.match(text, at)
        if term is None:
            raise ValueError(f"{text!r} is no product of units")
        what, at = term["what"], term.end()
        one = Fraction(what) if what[0].isdigit() else known[what].of_one
        power = int(term["power"] or 1)
        worth *= one ** (-power if term["by"] == "/" else power)
    return worth


@cache
def factor(unit: str, working: str) -> Fraction:
    """How many `working` units one `unit` is.

    The float is taken at its shortest decimal, 25.4 and not the binary number nearest to it, so that
    20-1/2 in is 520.7 mm to the last digit.
    """
    sizes = _sizes()
    return Fraction(repr(float(_worth(unit, sizes) / _worth(working, sizes))))


def celsius(number: Fraction, unit: str) -> float:
    """A temperature in degC. Rounded to twelve decimals: the offset of 273.15 leaves dust behind them."""
    own, to = _sizes()[unit], _sizes()["degC"]
    return round(float(number * own.of_one + own.zero - to.zero), 12)
