"""Contact of many cases at once: sets of touching contacts tried in whole blocks.

The equations are solved once for one set of contacts, the base. Every case whose own set differs from it
in a few contacts then costs a system of that few, and all of these are solved together. Cases far from
one base wait for another that lies nearer. A trial exchanges every contact that pulls and every gap that
overlaps (Kostreva, *Linear Algebra and its Applications* 21 (1978); memory); it may cycle, so it is given a number
of tries and leaves what it cannot settle to pivoting.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from transom.units import Array

Bools = NDArray[np.bool_]

TOLERANCE = 1e-9
EXACT = 1e-11  # of the loads: what a solution may leave over before it is refined, as on the plate
ROUGH = 1e-6  # of the loads: what a solution may leave over before it is taken for none
REACH = 32  # contacts in which a case may differ from its base


@dataclass(frozen=True)
class Problem:
    """Flexibility `M` (m, m) of contacts and equilibrium `A` (r, m) of what rests on them, in balanced units."""

    M: Array
    A: Array

    def gaps(self, f: Array, q: Array, b: Array) -> Array:
        """M f + Aᵀ q + b."""
        return np.asarray(self.M @ f + self.A.T @ q + b)

    def left(self, on: Bools, f: Array, q: Array, b: Array, W: Array) -> tuple[Array, Array]:
        """What f and q leave over of closed gaps where contacts touch, and of equilibrium."""
        return np.where(on, self.gaps(f, q, b), 0.0), W - self.A @ f


@dataclass(frozen=True)
class Tableau:
    """A problem solved for the contacts `on` (m,), for any gaps b (m, v) and loads W (r, v).

    Raises:
        numpy.linalg.LinAlgError: contacts that cannot hold the body.
    """

    problem: Problem
    on: Bools

    @cached_property
    def _inverse(self) -> Array:
        M, A, on = self.problem.M, self.problem.A, self.on
        none = np.zeros((len(A), len(A)))
        return np.asarray(np.linalg.inv(np.block([[M[np.ix_(on, on)], A[:, on].T], [A[:, on], none]])))

    @cached_property
    def _back(self) -> Array:
        """Gaps of open contacts from forces of the others and motion."""
        on = self.on
        return np.hstack([self.problem.M[np.ix_(~on, on)], self.problem.A[:, ~on].T])

    def start(self, b: Array, W: Array) -> tuple[Array, Array]:
        """Forces of touching and gaps of open contacts (m, v), and motion (r, v)."""
        on, k = self.on, int(self.on.sum())
        x = self._inverse @ np.concatenate([-b[on], W])
        y = np.empty(b.shape)
        y[on], y[~on] = x[:k], self._back @ x + b[~on]
        return y, x[k:]

    @cached_property
    def exchange(self) -> tuple[Array, Array]:
        """What gaps of touching and forces of open contacts add to `start`: (m, m) and (r, m)."""
        on, k = self.on, int(self.on.sum())
        X = np.empty((len(self._inverse), len(on)))
        X[:, on] = self._inverse[:, :k]
        X[:, ~on] = -self._inverse @ np.vstack([self.problem.M[np.ix_(on, ~on)], self.problem.A[:, ~on]])
        P = np.empty((len(on), len(on)))
        P[on], P[~on] = X[:k], self._back @ X
        P[np.ix_(~on, ~on)] += self.problem.M[np.ix_(~on, ~on)]
        return P, X[k:]

    def solved(self, sets: Bools, b: Array, W: Array) -> tuple[Array, Array]:
        """Forces of touching and gaps of open contacts (m, v), and motion, where `sets` (m, v) touch."""
        y, q = self.start(b, W)
        flips = sets ^ self.on[:, None]
        k = int(flips.sum(axis=0).max(initial=0))
        if k == 0:
            return y, q
        P, R = self.exchange
        at = np.argsort(~flips, axis=0, kind="stable")[:k].T
        real = np.take_along_axis(flips.T, at, axis=1)
        systems = np.where(real[:, :, None] & real[:, None, :], P[at[:, :, None], at[:, None, :]], np.eye(k))
        right = np.where(real, -np.take_along_axis(y.T, at, axis=1), 0.0)
        z = np.zeros((len(at), len(self.on)))
        np.put_along_axis(z, at, np.linalg.solve(systems, right[..., None])[..., 0], axis=1)
        return np.where(flips, z.T, y + P @ z.T), q + R @ z.T


def small(f: Array) -> Array:
    """Below this a force, or a gap in balanced units, is nothing, (v,)."""
    return np.asarray(TOLERANCE * np.abs(f).max(axis=0, initial=0.0) + 1e-300)


def held(problem: Problem, sets: Bools, y: Array, q: Array, b: Array, W: Array, within: float) -> Bools:
    """Cases whose equations y and q meet within a part of their loads; not those that nothing holds, (v,)."""
    gap, load = problem.left(sets, np.where(sets, y, 0.0), q, b, W)
    size = np.maximum(np.abs(b).max(axis=0), np.abs(W).max(axis=0, initial=0.0))
    worst = np.maximum(np.abs(gap).max(axis=0), np.abs(load).max(axis=0, initial=0.0))
    return np.asarray(worst <= within * size)


def refined(
    tableau: Tableau, sets: Bools, y: Array, q: Array, b: Array, W: Array
) -> tuple[Array, Array, Bools]:  # fmt: skip
    """Forces and gaps y (m, v), motion q (r, v), solved once more for what they leave; and which of them hold."""
    problem = tableau.problem
    if not held(problem, sets, y, q, b, W, EXACT).all():
        more, turn = tableau.solved(sets, *problem.left(sets, np.where(sets, y, 0.0), q, b, W))
        y, q = y + more, q + turn
    return y, q, held(problem, sets, y, q, b, W, TOLERANCE)


def in_blocks(problem: Problem, b: Array, W: Array, guess: Bools, tries: int) -> tuple[Array, Array, Bools]:
    """Forces (m, v) and motion (r, v) of every case, and which cases are settled; begins with `guess` (m, v)."""
    sets, f, q = guess.copy(), np.zeros(b.shape), np.zeros(W.shape)
    done, left = np.zeros(b.shape[1], dtype=bool), np.full(b.shape[1], tries)
    while (todo := np.flatnonzero(~done & (left > 0))).size:
        base, group = _nearest(sets, todo)
        left[group] -= 1
        try:
            tableau, case = Tableau(problem, base), (b[:, group], W[:, group])
            y, turn = tableau.solved(sets[:, group], *case)
            holds = held(problem, sets[:, group], y, turn, *case, ROUGH)
            wrong = y < -small(np.where(sets[:, group], y, 0.0))
            left[group[~holds]] = 0
            right = np.flatnonzero(holds & ~wrong.any(axis=0))
            at = group[right]
            y, turn, fine = refined(tableau, sets[:, at], y[:, right], turn[:, right], b[:, at], W[:, at])
        except np.linalg.LinAlgError:
            left[group] = 0
            continue
        left[at[~fine]] = 0
        done[at[fine]] = True
        f[:, at], q[:, at] = np.where(sets[:, at], np.maximum(y, 0.0), 0.0), turn
        sets[:, group] ^= wrong
    return f, q, done


def _nearest(sets: Bools, todo: NDArray[np.int_]) -> tuple[Bools, NDArray[np.int_]]:
    """The set of the case that most others lie near, and these cases."""
    signs = np.where(sets[:, todo], 1.0, -1.0)
    near = signs.T @ signs >= len(sets) - 2 * REACH
    best = int(np.argmax(near.sum(axis=0)))
    return sets[:, todo[best]], todo[near[best]]
