"""What is wrong with a text that is not one number and one unit, and what it may have meant.

Called only once the grammar has refused, so nothing here decides whether a text is accepted.
"""

import re
from collections.abc import Callable

from transom.quantity.refusal import Refusal

_Match = re.Match[str]


def _both(text: str, found: _Match, *readings: str) -> str:
    """Each reading put where the doubtful part stands, joined by or."""
    whole = [text[: found.start()] + reading + text[found.end() :] for reading in readings]
    return " or ".join(dict.fromkeys(whole))


def _comma(text: str, found: _Match) -> Refusal:
    digits = found[0]
    point = [digits.replace(",", ".")] if digits.count(",") == 1 and "." not in digits else []
    readings = _both(text, found, *point, digits.replace(",", ""))
    return Refusal(f"no comma inside a number: {readings}?", "write the one you mean")


def _side_by_side(text: str, found: _Match) -> Refusal:
    first, second = found[1], found[2]
    if "." in first + second:
        readings = _both(text, found, first, second)
    else:
        readings = _both(text, found, f"{first}.{second}", first + second)
    return Refusal(f"two numbers side by side: {readings}?", "write the one you mean")


def _spaced_hyphen(text: str, found: _Match) -> Refusal:
    whole, fraction = found[1], found[2]
    reading = _both(text, found, f"{whole}-{fraction}")
    return Refusal(f"{reading}, or from {whole} to {fraction}?", "write the one you mean")


def _says(rule: str, next_step: str) -> Callable[[str, _Match], Refusal]:
    return lambda text, found: Refusal(rule, next_step)


# In this order: the first that is found names the fault.
_FAULTS: tuple[tuple[str, Callable[[str, _Match], Refusal]], ...] = (
    (r"^$", _says("nothing is written", 'write a number and its unit, or "?" if it was not measured')),
    (r"^\?$", _says('"?" means not measured, and a value is due', "measure it and write the value")),
    (r"(?i)\b(?:nan|inf|infinity)\b", _says("it is not a finite number", "write a number and its unit")),
    (r"^[^0-9]*$", _says("there is no number in it", "write a number and its unit")),
    (r"[0-9.]*,[0-9][0-9,.]*", _comma),
    (r"(?i)[0-9.]e[+-]?[0-9]", _says("no scientific notation", "write the number out in full")),
    (r"(?i)[*×+=()^]|(?<=[0-9a-z\"' ])x ?[0-9.]",
     _says("one value is due: no sums, products or powers", "work it out and write the result")),
    (r"\.[0-9]*\.", _says("a number has one decimal point", "write the number again")),
    (r"[0-9]\.(?![0-9])", _says("digits are due after the point", "write the number again")),
    (r"\.[0-9]+[ -]*[0-9]*/|[0-9/]\.[0-9]+$|/ ?[0-9]*\.",
     _says("a decimal and a fraction do not go together", "write one or the other")),
    (r"/[^/]*[0-9] ?/|[0-9]+/[0-9]+ [0-9]",
     _says("one number holds one fraction", "write the number again")),
    (r"[0-9.]+(?: [0-9.]+){2,}(?![0-9./]| ?/)",
     _says("three numbers or more side by side", "write one number, like 20-1/2 in")),
    (r"([0-9.]+) ([0-9.]+)(?![0-9./]| ?/)", _side_by_side),
    (r"([0-9]+)(?: - ?|- )([0-9]+/[0-9]+)", _spaced_hyphen),
    (r"(?i)(?:ft\.?|feet|foot|') ?-? ?[0-9][0-9./ -]*$",
     _says("the inches after feet need their mark", "write it like 3 ft 4 in")),
    (r"(?i)[0-9][a-z\"'. ]* ?(?:-|\bto\b) ?[0-9]", _says("one value is due, not a range", "write one value")),
)  # fmt: skip


def diagnose(text: str) -> Refusal:
    """The fault in a tidy text that the grammar has refused."""
    for pattern, refusal in _FAULTS:
        if found := re.search(pattern, text):
            return refusal(text, found)
    return Refusal("it is not one number and one unit", "write the number first, then its unit")
