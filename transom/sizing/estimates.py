"""What plates tell of candidates that have none: the pencil's figures as a plate of one like them corrects them."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from transom.frozen import dataclass
from transom.units import Array

# A candidate is given up where the plate most like it would have it over its limit by more than the first: a plate on two
# grids, a quick look as two grids would have it, a look as it is; and by so much more as the second says for each step the
# two candidates are apart; its bolts, pads and what they press on by `PRIED` more, since wood twice as stiff pries one board
# more than another. With a plate's 0.025 and looks' 0.05 and 0.075, 17 of 404 estimates of candidates that pass would have given
# one up in 108 jobs, by 6 % at most, and one job lost a better board; with these none of 264 in the 54 jobs it was seen in,
# least to spare 1.5 % (`tests/bench/estimates.py 46 100`). What is not given up only gets a look.
FINE, ROUGH, RAW = (0.1, 1.0), (0.1, 0.5), (0.13, 0.5)
PRIED = 0.1
# Not so where their bolts and backing are the same and the two are no farther apart than `SAME`: of 244 such estimates the
# highest was 0.6 % over. So plates of the same bolts are heard before others that are nearer by so much.
SAME, OTHERS = 0.05, 0.02
JUDGED = (0.0249, 1.0)  # its own judgement counts before its own plate
FAR = 0.35  # farther from any plate than this an estimate gives no candidate up: one from a board of 30 mm had one of 54 at 1.9, its own 0.64
NEAR = 0.85  # of a candidate's worst: cases that by others' plates come to less are not looked at again
SURE = 0.9  # below this, by either, the pick's own judgement is asked at once


@dataclass(frozen=True)
class Solved:
    """What one plate made of the pencil's utilisations in the leading cases: `times` and, as demand, `more` (c, v); how near it
    is, and what more each check (c,) may be off."""

    like: Array
    times: Array
    more: Array
    within: tuple[float, float]
    pried: Array
    bolts: int

    def applied(self, u: Array, limit: Array, alike: NDArray[np.bool_]) -> Array:
        """Worst utilisation of each candidate, (n,), from the pencil's and the limits, (c, n, v), less what its check may be off
        where the two are not `alike` (n,)."""
        pried = np.where(alike, 0.0, self.pried[:, None])
        return np.asarray(np.max(self.each(u, limit) - pried[:, :, None], axis=(0, 2)))

    def each(self, u: Array, limit: Array) -> Array:
        """Utilisations of candidates, (c, n, v)."""
        return np.asarray(u * self.times[:, None] + self.more[:, None] / limit)


@dataclass
class Block:
    """Candidates `places` (n,) side by side: utilisations by the pencil and limits in the leading cases (c, n, v); what is
    alike of them (3, n).

    `likely` (n,): the worst utilisation of each as the nearest plate of those `seen` has it; `within` and
    `apart` (n,): how far that may be off, and how far it is away; `worth` (n,) is what it was chosen by. `bolts` (n,) are
    the sets of bolts and backing.
    """

    places: NDArray[np.int_]
    u: Array
    limit: Array
    like: Array
    likely: Array
    within: Array
    apart: Array
    worth: Array
    bolts: NDArray[np.int_]
    seen: int = 0
    heard: Sequence[Solved] = ()

    def learn(self, solved: Sequence[Solved]) -> None:
        """Let plates solved since the last time speak for the candidates that they are nearest to; of other plates all."""
        if solved is not self.heard:
            self.heard, self.seen = solved, 0
            self.likely[:], self.within[:], self.apart[:], self.worth[:] = 1.0, np.inf, np.inf, np.inf
        for plate in solved[self.seen :]:
            apart = np.sqrt(np.sum((self.like - plate.like[:, None]) ** 2, axis=0))
            off = plate.within[0] + plate.within[1] * apart
            alike = (self.bolts == plate.bolts) & (apart <= SAME)
            worth = off + np.where(alike, 0.0, OTHERS)
            better = worth < self.worth
            if better.any():
                self.likely[better] = plate.applied(self.u[:, better], self.limit[:, better], alike[better])
                self.within[better], self.apart[better], self.worth[better] = off[better], apart[better], worth[better]
        self.seen = len(solved)

    def leading(self, some: NDArray[np.int_], by: Solved) -> list[int]:
        """Of the leading cases those in which a plate has any of these candidates near its worst."""
        likely = by.each(self.u[:, some], self.limit[:, some])
        near = likely >= NEAR * likely.max(axis=(0, 2), keepdims=True)
        return [int(v) for v in np.flatnonzero(near.any(axis=(0, 1)))]

    @property
    def out(self) -> NDArray[np.bool_]:
        """Those beyond hope, (n,)."""
        return ~(self.likely <= 1.0 + self.within) & (self.apart <= FAR)

    @property
    def sure(self) -> NDArray[np.bool_]:
        """Those that pass by so much that a quick look tells nothing new, (n,)."""
        return np.isfinite(self.apart) & (self.likely <= SURE)
