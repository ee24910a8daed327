"""Bands of a map: where one color ends and the next begins, in the job's units."""

import math

from transom.frozen import dataclass
from transom.quantity import show
from transom.report.maps.ramp import colors

OVER = "#ffffff"  # hatched where it is drawn: over the limit
MOST_BANDS = 8
UNIT = {
    ("mm", "us"): (float(show.INCH), "in"),
    ("mm", "si"): (1.0, "mm"),
    ("MPa", "us"): (float(show.PSI), "psi"),
    ("MPa", "si"): (1.0, "MPa"),
}


@dataclass(frozen=True)
class Band:
    """Values from `low` to `high` in working units, their color and words; `over` is hatched."""

    low: float
    high: float
    color: str
    words: str
    over: bool = False


def of_limit() -> tuple[Band, ...]:
    """Tens of percent of the limit, and what is over it."""
    steps = colors(10)
    bands = [Band(n / 10, (n + 1) / 10, steps[n], f"{10 * n} to {10 * n + 10} %") for n in range(10)]
    return (*bands, Band(1.0, math.inf, OVER, "over 100 %", over=True))


def even(low: float, high: float, unit: str, units: str) -> tuple[Band, ...]:
    """At most eight bands of a round width that hold `low` to `high` (mm or MPa)."""
    size, name = UNIT[unit, units]
    step = _round_step((high - low) / size / (MOST_BANDS - 1))
    first = math.floor(low / size / step + 1e-9)
    last = max(first + 1, math.ceil(high / size / step - 1e-9))
    digits = max(0, -math.floor(math.log10(step) + 1e-9))
    shades = colors(last - first)
    return tuple(
        Band(n * step * size, (n + 1) * step * size, shades[n - first],
             f"{n * step:,.{digits}f} to {(n + 1) * step:,.{digits}f} {name}")
        for n in range(first, last)
    )  # fmt: skip


def _round_step(least: float) -> float:
    """The smallest of 1, 2 and 5 times a power of ten that is no less."""
    if not least > 0:
        return 1.0
    power = 10.0 ** math.floor(math.log10(least))
    return next(k * power for k in (1.0, 2.0, 5.0, 10.0) if k * power >= least * (1 - 1e-9))


def index_of(bands: tuple[Band, ...], value: float) -> int:
    """The band that holds a value; the last takes what lies on its upper edge."""
    inside = (i for i, b in enumerate(bands) if value < b.high)
    return next(inside, len(bands) - 1)
