"""The federal horsepower formula: information, it decides nothing."""

from collections.abc import Callable

from transom.formula import formula
from transom.units import MM, ONE, WATT, Value

CFR_183_53 = "33 CFR 183.53(a), Table 183.53"
FOOT = 304.8
HORSEPOWER = 745.6998715822702
MOTOR = {"F": 104.0, "hp": HORSEPOWER}
SMALL = ((35.0, 3.0), (39.0, 5.0), (42.0, 7.5), (45.0, 10.0), (52.5, 15.0))


@formula(symbol="F", source=CFR_183_53, known_by="read",
         typical={"L": 4877.0, "w": 1981.0, "foot": FOOT})  # fmt: skip
def powering_factor(L: MM, w: MM, foot: MM = FOOT) -> ONE:
    """Boat length times transom width, both in feet; monohull outboard boats under 20 ft."""
    return L / foot * w / foot


@formula(symbol="P", source=f"{CFR_183_53}, remote steering and 20 in transom", typical=MOTOR)
def power_remote(F: ONE, hp: WATT = HORSEPOWER) -> WATT:
    """Greatest power for remote steering and a transom of at least 20 in, factor above 52.5."""
    return (2.0 * F - 90) * hp


@formula(symbol="P", source=f"{CFR_183_53}, no remote steering, flat bottom hard chine", typical=MOTOR)
def power_flat_bottom(F: ONE, hp: WATT = HORSEPOWER) -> WATT:
    """Greatest power for a tiller or a low transom on a flat bottom with hard chines, factor above 52.5."""
    return (0.5 * F - 15) * hp


@formula(symbol="P", source=f"{CFR_183_53}, no remote steering, other bottoms", typical=MOTOR)
def power_tiller(F: ONE, hp: WATT = HORSEPOWER) -> WATT:
    """Greatest power for a tiller or a low transom on other bottoms, factor above 52.5."""
    return (0.8 * F - 25) * hp


@formula(symbol="P/hp", source="definition of the horsepower, 550 ft lbf/s", known_by="derived",
         typical={"P": 30e3, "hp": HORSEPOWER})  # fmt: skip
def in_horsepower(P: WATT, hp: WATT = HORSEPOWER) -> ONE:
    """A power, in horsepower."""
    return P / hp


def federal_horsepower(L: float, w: float, remote: bool, flat: bool) -> float:
    """Greatest outboard power, hp, of a monohull under 20 ft of length L and transom width w (mm).

    `remote` is remote steering with a transom of at least 20 in; `flat` a flat bottom with hard chines.
    Above a factor of 52.5 the next multiple of 5 hp is allowed; up to it the table decides, a flat bottom
    one step lower (never below the table's first).
    """
    F = float(powering_factor(L, w))
    largest, _ = SMALL[-1]
    if largest >= F:
        allowed = next(hp for top, hp in SMALL if top >= F)
        lower = [hp for _, hp in SMALL if hp < allowed]
        return lower[-1] if flat and lower else allowed
    exact = round(float(in_horsepower(_rule(remote, flat)(F))), 9)
    return next(float(hp) for hp in range(0, 10_000, 5) if hp >= exact)


def _rule(remote: bool, flat: bool) -> Callable[[Value], Value]:
    if remote:
        return power_remote
    return power_flat_bottom if flat else power_tiller
