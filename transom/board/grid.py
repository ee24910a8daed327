"""A rectangular grid over the board whose lines pass through given stations, and loads upon it.

y runs across the board, z up it. Node (i, j) lies at (y[i], z[j]). Cells may be missing (a top notch,
cut corners); a cell is there or it is not, so that notches belong on stations.
"""

from collections.abc import Iterable, Sequence
from functools import cached_property
from itertools import pairwise

import numpy as np
from numpy.typing import ArrayLike, NDArray

from transom.errors import JobError
from transom.frozen import dataclass
from transom.units import Array

Bools = NDArray[np.bool_]
SAME = 1e-6  # mm; stations nearer than this are one line


@dataclass(frozen=True)
class Rectangle:
    """A rectangle on the board, mm; a side of no length makes it a line, two a point."""

    y_lo: float
    y_hi: float
    z_lo: float
    z_hi: float

    @property
    def centre(self) -> tuple[float, float]:
        """Its middle (y, z)."""
        return (self.y_lo + self.y_hi) / 2, (self.z_lo + self.z_hi) / 2

    @property
    def area(self) -> float:
        """Its area, mm²."""
        return (self.y_hi - self.y_lo) * (self.z_hi - self.z_lo)


@dataclass(frozen=True)
class Means:
    """Means over k places: the nodes i and j (n,) that any of them has a part in, and their `weights` in each, (k, n)."""

    i: NDArray[np.int_]
    j: NDArray[np.int_]
    weights: Array

    def of(self, field: Array) -> Array:
        """Those of a field (p+1, q+1, v), (k, v)."""
        return np.asarray(self.weights @ field[self.i, self.j])

    def part(self, share: Array) -> "Means":
        """The same where a share (p+1, q+1) of each value counts."""
        return Means(self.i, self.j, self.weights * share[self.i, self.j])


@dataclass(frozen=True)
class Grid:
    """Lines `y` (p+1,) and `z` (q+1,) in rising order, mm, and which cells are there (p, q)."""

    y: Array
    z: Array
    present: Bools

    @property
    def nodes(self) -> Bools:
        """Which nodes touch a cell, (p+1, q+1)."""
        out = np.zeros((len(self.y), len(self.z)), dtype=bool)
        for i in (0, 1):
            for j in (0, 1):
                out[i : i + len(self.y) - 1, j : j + len(self.z) - 1] |= self.present
        return out

    def finer(self) -> "Grid":
        """The same grid with every cell cut in four."""
        y, z = (np.sort(np.concatenate([s, (s[1:] + s[:-1]) / 2])) for s in (self.y, self.z))
        return Grid(y, z, np.repeat(np.repeat(self.present, 2, axis=0), 2, axis=1))

    def spread(self, where: Rectangle) -> Array:
        """Nodal weights (p+1, q+1), sum one, of a load spread evenly over a rectangle, line or point.

        Only the part of a rectangle on wood counts.

        Raises:
            JobError: nothing of it lies on the board.
        """
        return self.spreads([where])[..., 0]

    def spreads(self, places: Sequence[Rectangle]) -> Array:
        """The same for m places at once, (p+1, q+1, m)."""
        sides = np.array([(r.y_lo, r.y_hi, r.z_lo, r.z_hi) for r in places], dtype=float).reshape(-1, 4).T
        y, z = _shares(self.y, sides[0], sides[1]), _shares(self.z, sides[2], sides[3])
        if self.present.all():
            across, up = _nodal(y), _nodal(z)
            across /= _counted(places, across.sum(axis=0) * up.sum(axis=0))
            return np.asarray(across[:, None] * up)
        out = np.zeros((len(self.y), len(self.z), len(places)))
        p, q = self.present.shape
        for i in (0, 1):
            for j in (0, 1):
                out[i : p + i, j : q + j] += y[i][:, None] * z[j] * self.present[..., None]
        out /= _counted(places, out.sum(axis=(0, 1)))
        return out

    @cached_property
    def _means(self) -> dict[tuple[float, ...], Means]:
        return {}

    def means(self, places: Sequence[Rectangle]) -> Means:
        """The same for means over places, worked out once: of several moments and boards there are some over them."""
        sides = tuple(side for r in places for side in (r.y_lo, r.y_hi, r.z_lo, r.z_hi))
        found = self._means.get(sides)
        if found is None:
            spread = self.spreads(places)
            i, j = np.nonzero(spread.any(axis=-1))
            found = self._means[sides] = Means(i, j, np.ascontiguousarray(spread[i, j].T))
        return found

    def on_line(self, where: Rectangle) -> Bools:
        """Nodes (p+1, q+1) on a line or in a rectangle, within `SAME`."""
        y = (self.y >= where.y_lo - SAME) & (self.y <= where.y_hi + SAME)
        z = (self.z >= where.z_lo - SAME) & (self.z <= where.z_hi + SAME)
        return np.outer(y, z) & self.nodes


def _counted(places: Sequence[Rectangle], whole: Array) -> Array:
    """What of loads lies on the board, (m,).

    Raises:
        JobError: nothing of one does.
    """
    for place, on_board in zip(places, (whole > 0).tolist(), strict=True):
        if not on_board:
            raise JobError(f"plate: a load or part at {place} lies off the board; move it or enlarge the board")
    return whole


def _shares(stations: Array, lo: Array, hi: Array) -> tuple[Array, Array]:
    """What the lower and the upper node of each cell take of unit loads per length from lo to hi, (cells, m).

    Where lo is hi, of a unit load there: every cell touching it takes a part, so that a missing
    neighbour does not lose it.
    """
    a, b = stations[:-1, None], stations[1:, None]
    start, end = np.clip(lo, a, b), np.clip(hi, a, b)
    touches = (a <= lo + SAME) & (b >= lo - SAME)
    line = hi - lo > SAME
    upper = np.where(line, ((end - a) ** 2 - (start - a) ** 2) / (2 * (b - a)), touches * (start - a) / (b - a))
    return np.where(line, end - start, touches) - upper, upper


def _nodal(shares: tuple[Array, Array]) -> Array:
    """Shares of the nodes of a line from those of its cells, (cells+1, m)."""
    out = np.zeros((len(shares[0]) + 1, shares[0].shape[1]))
    out[:-1] = shares[0]
    out[1:] += shares[1]
    return out


def stations(lines: Iterable[float], target: float) -> Array:
    """Lines through every given station, the gaps cut evenly into steps of at most `target`.

    Stations nearer to each other than a twentieth of the target become one, at the first.
    """
    fixed = [*np.sort(np.asarray(list(lines), dtype=float))]
    if len(fixed) < 2 or not np.isfinite(fixed).all() or not target > 0:
        raise JobError(f"plate: a grid needs two finite stations or more and a step above zero, not {fixed}, {target}")
    kept = fixed[:1]
    kept += [b for a, b in pairwise(fixed) if b - a > target / 20]
    kept[-1] = fixed[-1]
    parts = [np.linspace(a, b, max(1, int(np.ceil((b - a) / target - 1e-9))) + 1)[:-1] for a, b in pairwise(kept)]
    return np.concatenate([*parts, [fixed[-1]]])


def grid(y_lines: ArrayLike, z_lines: ArrayLike, target: float = 20.0, missing: Iterable[Rectangle] = ()) -> Grid:
    """A grid through the given stations and the edges of what is missing; the outermost are its edges.

    Args:
        y_lines, z_lines: stations, mm: edges, supports, pads, bolts.
        target: largest step, mm.
        missing: notches, openings and cut corners; a cell whose middle lies in one is not there.

    Raises:
        JobError: fewer than two stations either way, or no board left.
    """
    gone = tuple(missing)
    y_all = [*np.ravel(y_lines), *(e for r in gone for e in (r.y_lo, r.y_hi))]
    z_all = [*np.ravel(z_lines), *(e for r in gone for e in (r.z_lo, r.z_hi))]
    inside = [np.clip(v, np.min(w), np.max(w)) for v, w in ((y_all, y_lines), (z_all, z_lines))]
    y, z = stations(inside[0], target), stations(inside[1], target)
    y_mid, z_mid = (y[1:] + y[:-1]) / 2, (z[1:] + z[:-1]) / 2
    present = np.ones((len(y_mid), len(z_mid)), dtype=bool)
    for r in gone:
        present &= ~np.outer((y_mid > r.y_lo) & (y_mid < r.y_hi), (z_mid > r.z_lo) & (z_mid < r.z_hi))
    if not present.any():
        raise JobError("plate: nothing of the board is left; check the notches and cut corners")
    return Grid(y, z, present)
