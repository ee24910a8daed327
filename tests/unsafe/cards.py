"""One card a check: a mount and a load at which it is just over its limit by hand, and the slips that would let it pass.

`hand` works the share of the limit out in plain numbers, apart from the code, from the source named beside it; its keywords
hold the right sign, axis or factor, and a slip gives one of them wrongly. At the load where the right figure is 1.02 every
slip must come out under 1, so that a tool with that slip would pass what must fail.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from tests.checks.shop import found
from transom.checks.trial import Trial

OVER = 1.02  # of the limit, by hand
Hand = Callable[..., float]


@dataclass(frozen=True)
class Card:
    """A check by its name without the method; `at` gives the trial at so many times the card's load or measure."""

    check: str
    at: Callable[[float], Trial]
    hand: Hand
    slips: Mapping[str, Mapping[str, Any]]
    exact: float = 2e-3  # how near the tool's figure lies to the hand's
    most: float = 1e4
    at_k: float = 0.0  # for what comes in whole numbers: at so many, however far over

    def times(self) -> float:
        """How many times it takes to be just over the limit by hand; `hand` grows with it."""
        if self.at_k:
            return self.at_k
        low, high = 0.0, self.most
        for _ in range(200):
            middle = (low + high) / 2
            low, high = (low, middle) if self.hand(middle) >= OVER else (middle, high)
        return high


def share(of: Trial, check: str) -> float:
    """Worst share of its limit of one check, as the tool has it."""
    return float(found(of)[check].worst.max())
