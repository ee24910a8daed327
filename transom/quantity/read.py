"""Text to working units: which unit a text may carry, its factor, its sign."""

import math
import re

from transom.quantity.definitions import celsius, factor
from transom.quantity.grammar import NUMBER, UNIT, Amount, is_one, split, tidy
from transom.quantity.kinds import KINDS, kinds_of, plain, spellings
from transom.quantity.refusal import QuantityError, Refusal

_TO = re.compile(r"(?P<low>.*\S) to (?P<high>\S.*)", re.IGNORECASE)
_DASH = re.compile(rf"(?P<low>[+]?{NUMBER} ?{UNIT}??) ?- ?(?P<high>{NUMBER}.*)")
_ON = re.compile(r"(?P<rise>.*\S) on (?P<run>\S.*)", re.IGNORECASE)
_ABSOLUTE_ZERO = -273.15
_LONGEST = 100
_INSTEAD = {
    "pound": "lbf",
    "ounce": "lbf",
    "kilogram": "kgf or N",
    "gram": "N",
    "pound_force": "lb",
    "kip": "lb",
    "kilogram_force": "kg",
    "newton": "kg",
    "kilonewton": "kg",
}


def is_unmeasured(text: str) -> bool:
    """True for "?", which stands for a value that was not measured."""
    return isinstance(text, str) and text.strip() == "?"


def read(text: str, kind: str, *, bare: str | None = None, negative: bool = False, zero: bool = True) -> float:
    """A quantity in the working unit of its kind.

    Args:
        text: what was typed, number and unit.
        kind: length (mm), mass (kg), force (N), power (W), torque (N*mm), speed (m/s), rotation (1/s,
            revolutions), angle (rad; also a lean, "3-1/2 in on 14 in"), temperature (degC), stress (MPa),
            area (mm^2) or area_density (kg/m^2).
        bare: the unit that a number alone takes, where a question names one. A job file names none, and
            an angle takes none: a number alone is then refused.
        negative: whether a value below zero is allowed. Temperatures always may be.
        zero: whether zero is allowed.

    Returns:
        A finite float.

    Raises:
        QuantityError: anything but one quantity of this kind.

    >>> read("20 1/2 in", "length"), read('1-1/4"', "length")
    (520.7, 31.75)
    >>> read("20,5 in", "length")
    Traceback (most recent call last):
    ...
    transom.quantity.refusal.QuantityError: length "20,5 in": no comma inside a number: 20.5 in or 205 in? Write the one you mean
    """
    what = KINDS[kind].says
    try:
        return _value(_text(text), kind, bare, negative, zero)
    except Refusal as no:
        raise QuantityError(what, text, no.rule, no.next_step) from None


def read_range(text: str, kind: str, *, bare: str | None = None) -> tuple[float, float]:
    """Lower and upper end of "40 to 60 hp" or "40-60 hp"; a single value is both ends.

    The lower end takes the upper one's unit where it has none. A hyphen before a fraction makes a mixed
    number, as everywhere: "2-1/2 in" is one value.

    Raises:
        QuantityError: as `read`, or the ends are in the wrong order.

    >>> [round(watts) for watts in read_range("40 to 60 hp", "power")]
    [29828, 44742]
    """
    what = KINDS[kind].says
    try:
        return _ends(_text(text), kind, bare)
    except Refusal as no:
        raise QuantityError(what, text, no.rule, no.next_step) from None


def _text(text: object) -> str:
    if isinstance(text, str):
        if len(text) > _LONGEST:
            raise Refusal("it is longer than any quantity", "write one number and its unit")
        return text
    raise Refusal("a quantity is text with its unit", "put the number and its unit in quotes")


def _ends(text: str, kind: str, bare: str | None) -> tuple[float, float]:
    found = _range(tidy(text))
    if not found:
        value = _value(text, kind, bare, False, True)
        return value, value
    low, high = (_convert(a, kind, bare) for a in _two(found["low"], found["high"]))
    _check_sign(low, kind, False, True)
    if low > high:
        raise Refusal("the lower value comes first in a range", "write the lower value, to, the higher")
    return low, high


def _range(plain: str) -> re.Match[str] | None:
    """The two ends of a range; none for one amount, or where 20 - 1/2 may be a mixed number."""
    if worded := _TO.fullmatch(plain):
        return worded
    dashed = None if is_one(plain) else _DASH.fullmatch(plain)
    mixed = dashed and re.fullmatch(r"[0-9.]+ ?", dashed["low"]) and re.match(r"[0-9]+/", dashed["high"])
    return None if mixed else dashed


def _two(first: str, second: str) -> tuple[Amount, Amount]:
    """Both amounts; the first takes the second's unit where it has none."""
    a, b = split(first), split(second)
    if b.feet_and_inches and not a.unit:
        raise Refusal("feet or inches is not said of the first number", "write the unit after both numbers")
    return Amount(a.number, a.unit or b.unit), b


def _value(text: str, kind: str, bare: str | None, negative: bool, zero: bool) -> float:
    lean = _ON.fullmatch(tidy(text)) if kind == "angle" else None
    value = _lean(lean["rise"], lean["run"]) if lean else _convert(split(text), kind, bare)
    _check_sign(value, kind, negative, zero)
    return value


def _lean(rise: str, run: str) -> float:
    over, along = (_convert(a, "length", None) for a in _two(rise, run))
    if along <= 0:
        raise Refusal("the length that a lean is measured on is more than zero", "write it as 3-1/2 in on 14 in")
    return math.atan(over / along)


def _check_sign(value: float, kind: str, negative: bool, zero: bool) -> None:
    if kind == "temperature":
        if value < _ABSOLUTE_ZERO:
            raise Refusal("nothing is colder than -273.15 C", "write the temperature again")
    elif value < 0 and not negative:
        raise Refusal("it may not be less than zero", "write it without the minus sign")
    elif value == 0 and not zero:
        raise Refusal("it may not be zero", 'write the value, or "?" if it was not measured')


def _convert(amount: Amount, kind: str, bare: str | None) -> float:
    unit = spellings(kind).get(plain(amount.unit or _named(kind, bare)))
    if unit is None:
        raise _no_such_unit(amount, kind)
    if kind == "temperature":
        return celsius(amount.number, unit)
    return float(amount.number * factor(unit, KINDS[kind].working))


def _named(kind: str, bare: str | None) -> str:
    """The unit that a bare number takes.

    Raises:
        Refusal: there is none, and never one for an angle.
        ValueError: the caller named a unit that this kind has not.
    """
    if bare is None or kind == "angle":
        raise Refusal("a number alone is refused, it needs its unit", f'write it like "{KINDS[kind].example}"')
    if plain(bare) not in spellings(kind):
        raise ValueError(f"{bare!r} is no unit of {kind}")
    return bare


def _no_such_unit(amount: Amount, kind: str) -> Refusal:
    due, typed = KINDS[kind], amount.unit
    others = kinds_of(typed)
    if kind in ("mass", "force") and ("force" if kind == "mass" else "mass") in others:
        return _weight_or_force(typed, kind)
    if kind == "torque" and plain(typed) in ("kg-m", "kgm", "kg-cm", "kgcm"):
        return Refusal(f"{typed} is weight times a length", f"write {typed.lower().replace('kg', 'kgf')}")
    if kind == "torque" and {"mass", "force"} & set(others):
        return Refusal(f"a torque needs the arm too, and {typed} names none", "write lb-ft, lb-in or Nm")
    if others:
        names = " or ".join(KINDS[k].says for k in others)
        return Refusal(f"{typed} is a unit of {names}, and {due.named} is due", f"write it in one of: {due.accepted}")
    return Refusal(f"{typed} is no unit of {due.says} here", f"write it in one of: {due.accepted}")


def _weight_or_force(typed: str, kind: str) -> Refusal:
    other = "mass" if kind == "force" else "force"
    instead = _INSTEAD[spellings(other)[plain(typed)]]
    if kind == "force":
        return Refusal(f"{typed} is a weight, and a force is due", f"write {instead} if a force is meant")
    return Refusal(f"{typed} is a force, and a weight is due", f"write {instead} if a weight is meant")
