"""A pocket calculator: works out a printed line from its text, with nothing of the program's.

It knows + - * / ^, brackets, pi, sqrt, min, max, abs, floor, sin, cos, tan, atan, exp, log, if(condition, a, b), and
sum(...) over [lists], item by item.
"""

import math
import re
from collections.abc import Callable

Number = float | list[float]

TOKEN = re.compile(r"\s*(\d+\.?\d*(?:e-?\d+)?|[a-z]+|<=|>=|[-+*/^(),<>\[\]])")
FUNCTIONS: dict[str, Callable[..., float]] = {
    "sqrt": math.sqrt, "min": min, "max": max, "abs": abs, "sin": math.sin, "cos": math.cos, "tan": math.tan,
    "atan": math.atan, "floor": math.floor, "exp": math.exp, "log": math.log,
}  # fmt: skip


def each(f: Callable[..., float], *values: Number) -> Number:
    """f of numbers, or item by item where some are lists."""
    n = next((len(v) for v in values if isinstance(v, list)), 0)
    if not n:
        return f(*values)
    rows = zip(*(v if isinstance(v, list) else [v] * n for v in values), strict=True)
    return [f(*row) for row in rows]


class Calculator:
    """Reads one expression."""

    def __init__(self, text: str) -> None:
        self.tokens: list[str] = []
        at = 0
        while at < len(text.rstrip()):
            found = TOKEN.match(text, at)
            if not found:
                raise ValueError(f"cannot read {text[at : at + 20]!r} in {text!r}")
            self.tokens.append(found[1])
            at = found.end()

    def value(self) -> float:
        """What the whole text comes to."""
        out = self.sum()
        if self.tokens or isinstance(out, list):
            raise ValueError(f"left over: {self.tokens}")
        return out

    def take(self, *wanted: str) -> str:
        """The next token, if it is one of these."""
        return self.tokens.pop(0) if self.tokens and self.tokens[0] in wanted else ""

    def need(self, token: str) -> None:
        if not self.take(token):
            raise ValueError(f"{token} missing before {self.tokens[:5]}")

    def sum(self) -> Number:
        out = self.product()
        while sign := self.take("+", "-"):
            k = 1.0 if sign == "+" else -1.0
            out = each(lambda a, b, k=k: a + k * b, out, self.product())
        return out

    def product(self) -> Number:
        out = self.signed()
        while sign := self.take("*", "/"):
            right = self.signed()
            out = each((lambda a, b: a * b) if sign == "*" else (lambda a, b: a / b), out, right)
        return out

    def signed(self) -> Number:
        if self.take("-"):
            return each(lambda a: -a, self.signed())
        return self.power()

    def power(self) -> Number:
        base = self.atom()
        if self.take("^"):
            return each(lambda a, b: a**b, base, self.signed())
        return base

    def atom(self) -> Number:
        token = self.tokens.pop(0)
        if token == "(":
            out = self.sum()
            self.need(")")
            return out
        if token == "[":
            return self.listed()
        if token == "pi":
            return math.pi
        if token[0].isdigit():
            return float(token)
        self.need("(")
        out = self.called(token)
        self.need(")")
        return out

    def listed(self) -> list[float]:
        items = []
        while not self.take("]"):
            item = self.sum()
            assert isinstance(item, float)
            items.append(item)
            self.take(",")
        return items

    def called(self, name: str) -> Number:
        if name == "if":
            return self.condition()
        values = [self.sum()]
        while self.take(","):
            values.append(self.sum())
        if name == "sum":
            (items,) = values
            return math.fsum(items) if isinstance(items, list) else items
        return each(FUNCTIONS[name], *values)

    def condition(self) -> Number:
        left, sign, right = self.sum(), self.take("<", "<=", ">", ">="), self.sum()
        self.need(",")
        yes = self.sum()
        self.need(",")
        no = self.sum()
        holds = {"<": left < right, "<=": left <= right, ">": left > right, ">=": left >= right}[sign]  # type: ignore[operator]
        return yes if holds else no


def worked_out(text: str) -> float:
    """What a printed expression of numbers comes to."""
    return Calculator(text).value()


def half_a_digit(result: str, digits: int = 5) -> float:
    """Half a unit in the last of so many significant digits of a printed result."""
    size = abs(float(result))
    return 0.5 * 10.0 ** (math.floor(math.log10(size)) - digits + 1) if size else 0.0


def biggest(text: str) -> float:
    """The largest number in a text."""
    return max((float(n) for n in re.findall(r"\d+\.?\d*(?:e-?\d+)?", text)), default=0.0)


NONE = "no number"


def finite(numbers: str) -> bool:
    """True where a line comes to a number that passes for one."""
    try:
        return NONE not in numbers and math.isfinite(worked_out(numbers))
    except (ZeroDivisionError, OverflowError):
        return False


def fault(numbers: str, result: str) -> str:
    """What is wrong with a printed line, empty where nothing is: it comes out as printed, to the digits shown.

    A printed 0 may be off by a millionth of the largest number in its line, as its numbers are rounded.
    """
    if result == NONE:
        return "" if not finite(numbers) else f"{numbers} comes out, printed {NONE}"
    got = worked_out(numbers)
    allowed = half_a_digit(result) * 1.001 or 1e-5 * biggest(numbers)
    return "" if abs(got - float(result)) <= allowed else f"{numbers} = {got}, printed {result}"
