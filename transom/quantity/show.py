"""Working units to the text that a shop reads: US fractions or SI, rounded as the trade does.

Every function takes `towards`: "nearest" (a half away from zero), "up" to the larger number for what is a
minimum, "down" to the smaller for what is a maximum; the caller knows which it is. `units` is "us" or "si".
What is shown reads back through `transom.quantity.read`, thousands commas apart: a comma inside a number
is refused there, and `grouped=False` leaves them out. Neither Pint nor numpy is imported.

All raise ValueError for a value that is not finite, or a `units` or `towards` that is not one of these.
"""

import math
from fractions import Fraction

US = "us"
SI = "si"

# Exact, NIST SP 811 (2008) app. B; a test holds them against the registry.
INCH = Fraction("25.4")  # mm
POUND = Fraction("0.45359237")  # kg
POUND_FORCE = Fraction("4.4482216152605")  # N
FOOT = 12 * INCH
HORSEPOWER = 550 * FOOT / 1000 * POUND_FORCE  # W
PSI = POUND_FORCE / INCH**2  # MPa
MPH = 5280 * FOOT / 1000 / 3600  # m/s
KPH = Fraction(1000, 3600)  # m/s

# A value this close to a step, in steps, is on it: 37.30625 mm is 1-15/32 in whatever the float's dust.
_ON_STEP = Fraction(1, 10**6)
_ONE = Fraction(1)
_TENTH = Fraction(1, 10)


def length(
    mm: float,
    units: str,
    *,
    step: str = "1/32",
    towards: str = "nearest",
    unit: bool = True,
    step_mm: str = "0.1",
) -> str:
    """A length on a tape: "20-1/2 in" in steps of `step` inch, or "37.3 mm" in steps of `step_mm`.

    `towards` is "nearest", "up" for what is the least that will do, or "down" for the most.

    >>> length(52.5, "us"), length(52.5, "us", towards="up"), length(52.5, "si")
    ('2-1/16 in', '2-3/32 in', '52.5 mm')
    """
    if _us(units):
        return _with(_mixed(_rounded(_exact(mm) / INCH, Fraction(step), towards)), "in", unit)
    return _with(_plain(_rounded(_exact(mm), Fraction(step_mm), towards)), "mm", unit)


def measured(mm: float, units: str, *, towards: str = "nearest", unit: bool = True) -> str:
    """A length by caliper, in decimals, mm in.

    >>> measured(3.175, "us"), measured(2.19, "us", towards="up"), measured(3.175, "si")
    ('0.125 in', '0.087 in', '3.18 mm')
    """
    if _us(units):
        inches = _rounded(_exact(mm) / INCH, Fraction(1, 1000), towards)
        return _with(_plain(inches, least=2), "in", unit)
    return _with(_plain(_rounded(_exact(mm), Fraction(1, 100), towards)), "mm", unit)


def mass(kg: float, units: str, *, towards: str = "nearest", unit: bool = True) -> str:
    """A weight in whole pounds or kilograms: "300 lb", "136 kg"."""
    size, name = (POUND, "lb") if _us(units) else (_ONE, "kg")
    return _with(_plain(_rounded(_exact(kg) / size, _ONE, towards)), name, unit)


def force(newtons: float, units: str, *, towards: str = "nearest", unit: bool = True, grouped: bool = True) -> str:
    """A force to three figures: "1,440 lbf", "6.41 kN", and "450 N" below a kilonewton."""
    if _us(units):
        return _three(newtons, POUND_FORCE, _ONE, "lbf", towards, unit, grouped)
    if abs(_exact(newtons)) < 1000:
        return _three(newtons, _ONE, _ONE, "N", towards, unit, grouped)
    return _three(newtons, Fraction(1000), Fraction(1, 100), "kN", towards, unit, grouped)


def moment(n_mm: float, units: str, *, towards: str = "nearest", unit: bool = True, grouped: bool = True) -> str:
    """A moment to three figures: "31,300 lb-in", "3.54 kN m", and "350 N m" below a kilonewton metre."""
    if _us(units):
        return _three(n_mm, POUND_FORCE * INCH, _ONE, "lb-in", towards, unit, grouped)
    if abs(_exact(n_mm)) < 1e6:
        return _three(n_mm, Fraction(1000), _TENTH, "N m", towards, unit, grouped)
    return _three(n_mm, Fraction(10**6), Fraction(1, 100), "kN m", towards, unit, grouped)


def torque(n_mm: float, units: str, *, towards: str = "nearest", unit: bool = True) -> str:
    """What a torque wrench is set to: "55 lb-ft", "75 N m"; below 10 to a tenth."""
    size, name = (POUND_FORCE * FOOT, "lb-ft") if _us(units) else (Fraction(1000), "N m")
    return _tenths_below_ten(n_mm, size, name, towards, unit)


def power(watts: float, units: str, *, towards: str = "nearest", unit: bool = True) -> str:
    """A power to a tenth: "40 hp", "9.9 hp", "29.8 kW"."""
    size, name = (HORSEPOWER, "hp") if _us(units) else (Fraction(1000), "kW")
    return _with(_plain(_rounded(_exact(watts) / size, _TENTH, towards)), name, unit)


def stress(mpa: float, units: str, *, towards: str = "nearest", unit: bool = True, grouped: bool = True) -> str:
    """A stress to three figures: "2,900 psi", "20.3 MPa"."""
    if _us(units):
        return _three(mpa, PSI, _ONE, "psi", towards, unit, grouped)
    return _three(mpa, _ONE, Fraction(1, 100), "MPa", towards, unit, grouped)


def speed(m_per_s: float, units: str, *, towards: str = "nearest", unit: bool = True) -> str:
    """A speed: "22 mph", "35 km/h"; below 10 to a tenth."""
    size, name = (MPH, "mph") if _us(units) else (KPH, "km/h")
    return _tenths_below_ten(m_per_s, size, name, towards, unit)


def rotation(per_s: float, *, towards: str = "nearest", unit: bool = True) -> str:
    """A turning speed, revolutions per second, as whole "5500 rpm"."""
    return _with(_plain(_rounded(60 * _exact(per_s), _ONE, towards)), "rpm", unit)


def angle(rad: float, *, towards: str = "nearest", unit: bool = True) -> str:
    """An angle to a tenth of a degree: "14 deg"."""
    degrees = _exact(math.degrees(rad))
    return _with(_plain(_rounded(degrees, _TENTH, towards)), "deg", unit)


def temperature(deg_c: float, units: str, *, towards: str = "nearest", unit: bool = True) -> str:
    """A temperature in whole degrees: "58 F", "14 C"."""
    value = _exact(deg_c)
    value, name = (value * Fraction(9, 5) + 32, "F") if _us(units) else (value, "C")
    return _with(_plain(_rounded(value, _ONE, towards)), name, unit)


def area(mm2: float, units: str, *, towards: str = "nearest", unit: bool = True, grouped: bool = True) -> str:
    """An area to three figures: "4.52 sq in", "2,920 mm2"."""
    if _us(units):
        return _three(mm2, INCH**2, Fraction(1, 100), "sq in", towards, unit, grouped)
    return _three(mm2, _ONE, _ONE, "mm2", towards, unit, grouped)


def percent(ratio: float, *, towards: str = "nearest", unit: bool = True) -> str:
    """A share of the limit in whole "82 %". Anything over the limit shows at least 101: 1.002 is no 100 %."""
    shown = _rounded(100 * _exact(ratio), _ONE, towards)
    return _with(_plain(max(shown, Fraction(101)) if ratio > 1 else shown), "%", unit)


def _us(units: str) -> bool:
    if units not in (US, SI):
        raise ValueError(f"units {units!r} is not {US!r} or {SI!r}")
    return units == US


def _exact(value: float) -> Fraction:
    """The value at its shortest decimal: 3.175 is a half step of 0.01, its binary neighbour is not."""
    if not math.isfinite(value):
        raise ValueError(f"{value!r} cannot be shown")
    return Fraction(repr(float(value)))


def _rounded(value: Fraction, step: Fraction, towards: str) -> Fraction:
    """The multiple of `step` that stands for `value`."""
    if towards not in ("nearest", "up", "down"):
        raise ValueError(f"towards {towards!r} is not 'nearest', 'up' or 'down'")
    count = value / step
    near = (-1 if count < 0 else 1) * math.floor(abs(count) + Fraction(1, 2))
    if towards == "nearest" or abs(count - near) <= _ON_STEP:
        return near * step
    return (math.ceil(count) if towards == "up" else math.floor(count)) * step


def _three(value: float, size: Fraction, least: Fraction, name: str, towards: str, unit: bool, grouped: bool) -> str:
    """Three figures of value / size, and never finer than `least`."""
    amount = _exact(value) / size
    digits = math.floor(math.log10(abs(amount))) if amount else 0
    step = max(least, Fraction(10) ** (digits - 2))
    return _with(_plain(_rounded(amount, step, towards), grouped=grouped), name, unit)


def _tenths_below_ten(value: float, size: Fraction, name: str, towards: str, unit: bool) -> str:
    amount = _exact(value) / size
    step = _ONE if abs(amount) >= 10 else _TENTH
    return _with(_plain(_rounded(amount, step, towards)), name, unit)


def _with(number: str, name: str, unit: bool) -> str:
    return f"{number} {name}" if unit else number


def _mixed(value: Fraction) -> str:
    """A whole number and a fraction in lowest terms: "20-1/2", "3/4", "24"."""
    whole, rest = divmod(abs(value), 1)
    parts = [str(whole)] * bool(whole or not rest) + [str(rest)] * bool(rest)
    return "-" * (value < 0) + "-".join(parts)


def _plain(value: Fraction, *, least: int = 0, grouped: bool = False) -> str:
    """Decimals without trailing zeros, but `least` of them; a value already on a decimal step."""
    whole, rest = divmod(abs(value), 1)
    decimals = f"{int(rest * 10**6):06d}".rstrip("0").ljust(least, "0")
    number = (f"{whole:,}" if grouped else str(whole)) + (f".{decimals}" if decimals else "")
    return f"-{number}" if value < 0 else number
