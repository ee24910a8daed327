"""Money as decimals: to the cent, a half up, and never through a binary float."""

from collections.abc import Iterable
from decimal import ROUND_CEILING, ROUND_HALF_UP, Decimal

from transom.frozen import dataclass

CENT = Decimal("0.01")
ZERO = Decimal("0.00")
ROUNDING = (
    "Every line is rounded to the cent, a half cent up: cost, then mark-up on the rounded cost; tax on the sum of its"
    " class. Totals are sums of rounded lines."
)
_ONES = [
    "zero",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
]
_TENS = ["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"]
_GROUPS = ((10**9, "billion"), (10**6, "million"), (10**3, "thousand"), (100, "hundred"))


def cents(amount: Decimal) -> Decimal:
    """The amount to the cent, a half cent up."""
    return amount.quantize(CENT, ROUND_HALF_UP)


def exact(value: float) -> Decimal:
    """A number as it was typed, or as it prints shortest, in decimal."""
    return Decimal(repr(value))


@dataclass(frozen=True)
class Span:
    """Low, likely and high of an amount of money, each to the cent."""

    low: Decimal
    likely: Decimal
    high: Decimal

    def __add__(self, other: "Span") -> "Span":
        return Span(self.low + other.low, self.likely + other.likely, self.high + other.high)

    def __sub__(self, other: "Span") -> "Span":
        return Span(self.low - other.low, self.likely - other.likely, self.high - other.high)

    def times(self, share: Decimal) -> "Span":
        """Each end times the share, to the cent."""
        return Span(cents(self.low * share), cents(self.likely * share), cents(self.high * share))


NOTHING = Span(ZERO, ZERO, ZERO)


def total(spans: Iterable[Span]) -> Span:
    """The sum, end by end."""
    return sum(spans, NOTHING)


def shown(amount: Decimal, sign: str = "") -> str:
    """An amount to the cent with thousands apart: "$2,775.40"."""
    return f"{'-' * (amount < 0)}{sign}{abs(cents(amount)):,}"


def about(amount: Decimal, sign: str = "") -> str:
    """An amount as people say it: to 50 below 2,000, to 100 above; anything is more than nothing."""
    step = Decimal(50) if abs(amount) < 2000 else Decimal(100)
    said = (amount / step).quantize(Decimal(1), ROUND_HALF_UP) * step
    return f"{sign}{max(said, step):,}" if amount > 0 else f"{sign}{said:,}"


def up_to(amount: Decimal, step: int = 25) -> Decimal:
    """The next whole step at or above the amount."""
    return cents((amount / step).quantize(Decimal(1), ROUND_CEILING) * step)


def in_words(amount: Decimal, unit: str) -> str:
    """An amount written out as on a check: "two thousand seven hundred seventy-five and 40/100 dollars".

    Raises:
        ValueError: below zero, or a million millions and more.
    """
    amount = cents(amount)
    if not 0 <= amount < 10**12:
        raise ValueError(f"{amount} is not written out")
    whole, part = divmod(int(amount * 100), 100)
    return f"{_whole(whole)} and {part:02d}/100 {unit}".strip()


def _whole(number: int) -> str:
    if number < 20:
        return _ONES[number]
    if number < 100:
        tens, ones = divmod(number, 10)
        return _TENS[tens - 2] + (f"-{_ONES[ones]}" if ones else "")
    size, name = next((s, n) for s, n in _GROUPS if number >= s)
    count, rest = divmod(number, size)
    return f"{_whole(count)} {name}" + (f" {_whole(rest)}" if rest else "")
