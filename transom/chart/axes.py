"""From power and thickness to places on the page, and the marks along both axes."""

import math
from collections.abc import Iterator

from transom.drawing.shapes import Box, Point
from transom.frozen import dataclass
from transom.quantity import show

WIDE, HIGH = 165.0, 108.0  # mm, the field of the chart
MARGIN = 5.0  # mm on the page kept free at both ends of the powers
STEPS_US, STEPS_SI = (3.175, 6.35, 12.7, 25.4), (2.0, 5.0, 10.0, 20.0)
MOST_MARKS = 12


@dataclass(frozen=True)
class Axes:
    """Powers (W) on a scale of ratios, thickness (mm) on an even one; the field's lower left corner is 0, 0."""

    low_W: float  # noqa: N815 - a name ends in its unit
    high_W: float  # noqa: N815
    low_mm: float
    high_mm: float
    step: float

    @property
    def field(self) -> Box:
        """Where lines are drawn."""
        return Box(0.0, 0.0, WIDE, HIGH)

    def x(self, watts: float) -> float:
        """Across; one power alone stands in the middle."""
        if self.high_W <= self.low_W:
            return WIDE / 2
        share = math.log(watts / self.low_W) / math.log(self.high_W / self.low_W)
        return MARGIN + share * (WIDE - 2 * MARGIN)

    def y(self, mm: float) -> float:
        """Up."""
        return (mm - self.low_mm) / (self.high_mm - self.low_mm) * HIGH

    def at(self, watts: float, mm: float) -> Point:
        """A place in the field."""
        return self.x(watts), self.y(mm)

    def holds(self, watts: float) -> bool:
        """True for a power that the field shows, a hair beyond its ends included."""
        return 0.0 <= self.x(watts) <= WIDE

    def marks(self, units: str) -> Iterator[tuple[float, str]]:
        """Heights (mm of wood) and their words, the other system beside."""
        count = round((self.high_mm - self.low_mm) / self.step)
        for i in range(count + 1):
            mm = self.low_mm + i * self.step
            if units == "us":
                yield mm, f"{show.length(mm, 'us', step='1/8')} ({show.length(mm, 'si', step_mm='1')})"
            else:
                yield mm, f"{show.length(mm, 'si', step_mm='1')} ({show.length(mm, 'us', step='1/16')})"


def axes(powers: tuple[float, float], thicknesses: list[float], units: str) -> Axes:
    """Axes about the powers and thicknesses given, ends on whole marks."""
    low, high = min(thicknesses, default=20.0), max(thicknesses, default=60.0)
    steps = STEPS_US if units == "us" else STEPS_SI
    room = (high - low) * 0.1 + 3.0
    step = next((s for s in steps if (high - low + 2 * room) / s <= MOST_MARKS), steps[-1])
    return Axes(*powers, math.floor((low - room) / step) * step, math.ceil((high + room) / step) * step, step)
