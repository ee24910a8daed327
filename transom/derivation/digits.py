"""Numbers as they are printed: as many digits as the next result needs to come out as printed."""

import math
from collections.abc import Callable

RESULT = 5  # significant digits of a result
NOTHING = 3e-6
LEAST, MOST = 6, 16  # of what goes into one


def shown(value: float, digits: int = RESULT) -> str:
    """A number with so many significant digits, zeros at its end left out; very large and small ones with an e."""
    if not math.isfinite(value):
        return "no number"
    text = f"{value:.{digits}g}"
    number = float(text)
    if number and not 1e-4 <= abs(number) < 1e10:
        mantissa, exponent = f"{number:.{digits - 1}e}".split("e")
        mantissa = mantissa.rstrip("0").rstrip(".") if "." in mantissa else mantissa
        return f"{mantissa}e{int(exponent)}"
    places = max(0, digits - 1 - math.floor(math.log10(abs(number)))) if number else 0
    plain = f"{number:.{places}f}"
    return (plain.rstrip("0").rstrip(".") if "." in plain else plain).replace("-0", "0") if number == 0 else (
        plain.rstrip("0").rstrip(".") if "." in plain else plain
    )  # fmt: skip


def enough(again: Callable[[Callable[[float], float]], float], result: str, size: float = 0.0) -> int:
    """The fewest digits of the arguments from which `again` gives the result as printed; the most there are if none.

    `again` computes the result after each argument has been put through the function it is given. `size` is of
    the largest argument: beside it a nothing may come out as next to nothing.
    """
    if result == "0" and abs(again(lambda x: float(f"{x:.{LEAST}g}"))) <= NOTHING * size:
        return LEAST
    for digits in range(LEAST, MOST):
        if shown(again(lambda x, d=digits: float(f"{x:.{d}g}"))) == result:  # type: ignore[misc]
            return digits
    return MOST + 1
