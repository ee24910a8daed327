"""Lines of numbers that no formula computed: given, solved for by the plate, or of unknown origin."""

import math

from transom.derivation.digits import shown
from transom.derivation.lines import GIVEN, PLATE, UNTRACED, Line
from transom.derivation.plate import PlateValue
from transom.derivation.resolve import Constant
from transom.derivation.trace import Given

DIGITS = 9  # of a number that enters
PLATE_METHOD = "careful method: Mindlin plate on one-way contacts (DEVELOPERS.md, room board)"


def entering(origin: Given | PlateValue | Constant, name: str, unit: str) -> Line:
    """The line of a number that enters, taken as the argument `name` in a unit; not yet numbered."""
    if isinstance(origin, Given):
        return _line(GIVEN, origin.name, name, float(origin.value), origin.unit or unit, origin.says, origin.source,
                     origin.evidence, origin.known_by)  # fmt: skip
    if isinstance(origin, PlateValue):
        return _line(PLATE, origin.what, origin.symbol, origin.value, unit, plate_words(origin), PLATE_METHOD,
                     "published", "computed")  # fmt: skip
    return _line(UNTRACED, name, name, origin.value, unit, "computed by the program between two formulas",
                 "not traced", "convention", "derived")  # fmt: skip


def plate_words(p: PlateValue) -> str:
    """The number, the grid, the residual, the pencil method's value."""
    beside = "the pencil method has no such number" if math.isnan(p.hand) else f"pencil method {shown(p.hand)} N"
    return f"{p.what}; grid {p.grid}; forces out of balance by {shown(p.residual, 2)} N; {beside}"


def _digits(kind: str) -> int:
    """A solved number is not known to nine digits."""
    return 7 if kind == PLATE else DIGITS


def _line(
    kind: str, name: str, symbol: str, value: float, unit: str, says: str, source: str, evidence: str, known_by: str
) -> Line:
    return Line(
        0, kind, name, symbol, "", "", shown(value, _digits(kind)), unit, value, says, source, evidence, known_by, ()
    )
