"""What two grids made of candidates beside their quick looks tells what a quick look is worth elsewhere."""

import dataclasses
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from transom.frozen import dataclass
from transom.result import CheckArray
from transom.units import Array

# A quick look may be over the two grids' worst by so much before they are asked all the same: of 698 candidates of 60
# random jobs the highest was 6.8 % over, its plies sliding or its bending.
COARSE = 0.075
# Raised by what two grids made of a candidate of the same bolts and backing, and of another: so much, so much more for each
# step the two are apart, and no more than `AT_MOST`. By one whose look was much the same, so much, and so much more for what
# the two looks differ by. The least counts. With the margins opened, 2,889 candidates of 105 jobs so raised were 2.5 % over
# at most, the least to spare was 0.1 %, and none of 119 that pass would have been turned down (`tests/bench/quick_looks.py`).
OWN_BOLTS, OTHER_BOLTS, AT_MOST = (0.0125, 0.15), (0.02, 0.3), 0.05
SAME_LOOK = (0.01, 2.0)
NEAR = 0.85  # of a look's worst: what comes to less in it does not tell looks apart
FAR = 0.5  # farther from any such candidate than this its look counts as it is
MOST = 1.1  # times: what two grids find more than that is not told of others


@dataclass(frozen=True)
class Raised:
    """How many times its quick look two grids made of a candidate, in the leading cases (c, v), and the `look`; what it is
    like, (3,), and which set of bolts and backing it has."""

    like: Array
    bolts: int
    times: Array
    look: Array

    def off(self, like: Array, bolts: int, look: Array, framed: NDArray[np.bool_]) -> float:
        """How far over two grids a candidate like this may be by it; infinite where it is too far."""
        apart = float(np.linalg.norm(like - self.like))
        if apart > FAR:
            return np.inf
        near = (look >= NEAR * look.max()) & ~framed[:, None]
        differ = float(np.max(np.abs(look - self.look), where=near, initial=0.0))
        least, more = OWN_BOLTS if bolts == self.bolts else OTHER_BOLTS
        return min(least + more * apart, AT_MOST, SAME_LOOK[0] + SAME_LOOK[1] * differ)


@dataclass
class Looks:
    """Quick looks of one search, shares of the limit in the leading cases (c, v) by place, and what two grids made of them.

    Where a case was not asked, since others are far worse, it stands at nothing.

    `framed` (c,) are the checks of the frame's bolts, whose choice may be another on two grids: these count as they are.
    """

    taken: dict[int, Array] = dataclasses.field(default_factory=dict)
    raised: list[Raised] = dataclasses.field(default_factory=list)
    lifted: Array | None = None
    framed: NDArray[np.bool_] = dataclasses.field(default_factory=lambda: np.zeros(0, dtype=bool))

    def take(self, place: int, checks: Sequence[CheckArray], found: Array) -> None:
        """Keep a look."""
        self.taken[place] = found
        self.framed = np.array([c.part == "frame" for c in checks])

    def times(self, place: int, like: Array, bolts: int) -> tuple[Array, float]:
        """How many times its look two grids may make of a candidate, (c, v), and how far its worst may be over that."""
        off = [r.off(like, bolts, self.taken[place], self.framed) for r in self.raised]
        least = min(off, default=np.inf)
        return (self.raised[off.index(least)].times, least) if np.isfinite(least) else (np.ones((1, 1)), COARSE)

    def expected(self, place: int, like: Array, bolts: int) -> tuple[float, float]:
        """The worst that two grids would make of a candidate by its look, and how far that may be over."""
        times, margin = self.times(place, like, bolts)
        share = np.where(self.framed, (1.0 + margin) / (1.0 + COARSE), 1.0)
        return float(np.max(self.taken[place] * times * share[:, None])), margin

    def compare(self, place: int, kind: tuple[Array, int], fine: Array, bending: Array, lifted: Array | None) -> None:
        """Learn from what two grids made of a candidate of a kind, like and bolts, that was looked at, (c, v): it may have left out how much more its
        bending, `bending` (c,), comes to where its edge lifts; `lifted` (v,) is how many times, None where it did."""
        if lifted is not None:
            self.lifted = lifted if self.lifted is None else np.minimum(self.lifted, lifted)
        look = self.taken.get(place)
        if look is None:
            return
        good = np.isfinite(fine) & (look > 0)
        times = np.minimum(fine / np.where(good, look, 1.0), MOST)
        # Of what was not looked at no more is known than the least of the same check.
        least = np.min(np.where(good, times, 1.0), axis=1, keepdims=True)
        times = np.where(good, times, least)
        if lifted is None and self.lifted is not None:
            times = np.where(bending[:, None], times * self.lifted, times)
        times[self.framed] = 1.0
        self.raised.append(Raised(*kind, times, look))
