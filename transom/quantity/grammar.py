"""Our own grammar of what a shop writes: one number, then one unit.

    amount   = [sign] number [unit]  |  [sign] whole feet, number inches
    number   = whole | decimal | fraction | whole (space or hyphen) fraction
    fraction = whole "/" whole, less than one; or one character such as ½

Nothing is computed but whole plus fraction and feet plus inches: no sums, products or powers, and no
scientific notation (nobody writes 2e3 lb on a field sheet, and "1e400" is no length). Numbers have up to
nine digits either side of the point, so every number read is finite.
"""

import re
import unicodedata
from fractions import Fraction

from transom.frozen import dataclass
from transom.quantity.misread import diagnose
from transom.quantity.refusal import Refusal

_SPACES = "\t\u00a0\u2007\u2009\u202f"
_ALIKE = str.maketrans(
    {
        **dict.fromkeys(_SPACES, " "),
        **dict.fromkeys("\u2010\u2011\u2012\u2013\u2014\u2212", "-"),
        **dict.fromkeys("\u2044\u2215", "/"),
        **dict.fromkeys("\u2018\u2019\u2032\u02b9", "'"),
        **dict.fromkeys("\u201c\u201d\u2033\u02ba", '"'),
        **dict.fromkeys("\u00ba\u02da", "°"),
    }
)
_VULGAR = {c: f"{f.numerator}/{f.denominator}" for c in "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒"
           if (f := Fraction(unicodedata.numeric(c)).limit_denominator(10))}  # fmt: skip

NUMBER = r"(?:[0-9]+[ -][0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]*\.[0-9]+|[0-9]+)"
UNIT = r"(?:(?![eE][+-]?[0-9])[A-Za-z°\"'](?:[A-Za-z°\"'/·⋅•²^ -]|(?<=[A-Za-z])\.|(?<=[A-Za-z^])[0-9])*)"
_JOIN = r"(?:-(?=[A-Za-z])| ?)"
_AMOUNT = re.compile(rf"(?P<sign>[+-]?)(?P<number>{NUMBER}){_JOIN}(?P<unit>{UNIT}?)")
_FEET_INCHES = re.compile(
    rf"(?P<sign>[+-]?)(?P<feet>{NUMBER}){_JOIN}(?:ft\.?|feet|foot|') ?-? ?"
    rf"(?P<inches>{NUMBER}){_JOIN}(?:in\.?|inch|inches|\")",
    re.IGNORECASE | re.ASCII,
)
_DIGITS = 9


@dataclass(frozen=True)
class Amount:
    """A number, exact, and its unit as typed, empty where none was; feet and inches are inches."""

    number: Fraction
    unit: str
    feet_and_inches: bool = False


def tidy(text: str) -> str:
    """The same text with look-alike spaces, dashes, quotes and fractions written one way."""
    plain = text.translate(_ALIKE).replace("''", '"')
    for character, written in _VULGAR.items():
        plain = re.sub(rf"(?<=[0-9]) ?{character}", f" {written}", plain).replace(character, written)
    return re.sub(" +", " ", plain).strip()


def split(text: str) -> Amount:
    """Number and unit of one amount; feet and inches come back as inches.

    Raises:
        Refusal: the text is not one number and one unit.
    """
    plain = tidy(text)
    if both := _FEET_INCHES.fullmatch(plain):
        return Amount(_signed(both["sign"], _feet_inches(both["feet"], both["inches"])), "in", True)
    if one := _AMOUNT.fullmatch(plain):
        return Amount(_signed(one["sign"], _number(one["number"])), one["unit"].strip(" "))
    raise diagnose(plain)


def is_one(plain: str) -> bool:
    """Whether a tidy text has the form of one amount, whatever its number or unit is worth."""
    return bool(_FEET_INCHES.fullmatch(plain) or _AMOUNT.fullmatch(plain))


def _signed(sign: str, number: Fraction) -> Fraction:
    return -number if sign == "-" else number


def _feet_inches(feet: str, inches: str) -> Fraction:
    whole, rest = _number(feet), _number(inches, after_feet=True)
    if whole.denominator != 1 or "." in feet:
        raise Refusal("feet before inches are a whole number", "write it in inches alone")
    if rest >= 12:
        raise Refusal("inches after feet are less than 12", "write it in inches alone")
    return 12 * whole + rest


def _number(text: str, *, after_feet: bool = False) -> Fraction:
    if max(len(digits) for digits in re.split(r"[ ./-]", text)) > _DIGITS:
        raise Refusal(f"a number has up to {_DIGITS} digits", "write it shorter, or in a larger unit")
    if "/" not in text:
        return Fraction(text)
    *whole, fraction = re.split("[ -]", text)
    part = _fraction(fraction, alone=not whole)
    if whole and int(whole[0]) == 0 and not after_feet:
        raise Refusal(f"{text} is no mixed number", f"write {fraction} alone")
    return sum((Fraction(w) for w in whole), part)


def _fraction(text: str, *, alone: bool) -> Fraction:
    over, under = text.split("/")
    if int(under) == 0:
        raise Refusal(f"{text} divides by zero", "write the fraction again")
    part = Fraction(int(over), int(under))
    if part >= 1:
        raise Refusal(f"a fraction is less than one, and {text} is not", _improper(over, under, alone))
    return part


def _improper(over: str, under: str, alone: bool) -> str:
    """What 11/2 may have been meant to be: 5-1/2, or 1-1/2 with the space lost."""
    if not alone:
        return "write the whole number and the fraction again"
    whole, rest = divmod(int(over), int(under))
    readings = [f"{whole}-{rest}/{under}" if rest else str(whole)]
    cuts = [(over[:i], over[i:]) for i in range(1, len(over))]
    readings += [f"{w}-{n}/{under}" for w, n in cuts if n[0] != "0" and int(n) < int(under) and int(w)]
    return f"write {' or '.join(readings)}"
