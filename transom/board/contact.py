"""One-way contact: forces that only push, gaps that only open, and a method that always ends.

Find forces f >= 0 and a rigid motion q with gaps s = M f + Aᵀ q + b >= 0, f·s = 0 and A f = W.
M (m, m), positive definite or semidefinite in the sense x·Mx >= 0, is the flexibility of everything
between the contacts; the rows of A are the equilibrium of a rigid body resting on them.

Sets of touching contacts are tried in whole blocks, which ends in a few steps on almost every board but
may cycle; so after a fixed number of tries Lemke's pivoting with the lexicographic rule takes over,
which ends for every such M in a solution or the proof that there is none (Cottle, Pang and Stone, *The
Linear Complementarity Problem*, theorem 4.4.13; memory). Either result is checked before it is returned.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from transom.errors import JobError
from transom.units import Array

Bools = NDArray[np.bool_]

BLOCK_TRIES = 12
TOLERANCE = 1e-9
UNCARRIED = "is a load that no bolts and pads can carry; add or move bolts"


@dataclass(frozen=True)
class Contacts:
    """m one-way contacts: flexibility `M` (m, m), mm/N, and equilibrium `A` (r, m) of the rigid body."""

    M: Array
    A: Array

    @property
    def _balanced(self) -> tuple[float, Array, Array]:
        """A typical flexibility; combinations of the equilibrium rows that are independent; and the rest."""
        size = np.abs(self.A).max(axis=1, initial=0.0)
        rows = self.A / np.where(size > 0, size, 1.0)[:, None]
        U, S, _ = np.linalg.svd(rows, full_matrices=True)
        rank = int(np.count_nonzero(S / max(S.max(initial=0.0), 1e-300) > 1e-12))
        U = U / np.where(size > 0, size, 1.0)[:, None]
        return float(np.abs(np.diag(self.M)).max()), U[:, :rank].T, U[:, rank:].T

    def bear(
        self,
        W: Array,
        names: Sequence[str],
        b: Array | None = None,
        start: Bools | None = None,
        guess: Bools | None = None,
    ) -> tuple[Array, Array]:
        """Contact forces and rigid motion of v cases.

        Args:
            W: (r, v) what the contacts must add up to.
            names: of the cases, for the error.
            b: (m, v) gaps before any contact force, mm.
            start: (m,) contacts that touch at first, enough to hold the body; all if not given.
            guess: (m, v) contacts to try first in each case; those of the case before if not given.

        Returns:
            forces (m, v), none negative, and motion (r, v).

        Raises:
            JobError: a case that no contact forces can carry.
        """
        flexibility, keep, idle = self._balanced
        M, A = self.M / flexibility, keep @ self.A
        whole = np.block([[M, A.T], [A, np.zeros((len(A), len(A)))]])
        gaps = np.zeros((len(M), W.shape[1])) if b is None else b / flexibility
        loads, lost = keep @ W, idle @ W
        forces, motion = np.empty_like(gaps), np.empty_like(loads)
        first = np.ones(len(M), dtype=bool) if start is None else start
        touching = first
        for v, name in enumerate(names):
            case = _Case(M, A, whole, loads[:, v], gaps[:, v], first, name)
            if np.abs(lost[:, v]).max(initial=0.0) > TOLERANCE * np.abs(loads[:, v]).max(initial=0.0):
                raise case.fault(UNCARRIED)
            f, q = case.solved(touching if guess is None else guess[:, v])
            touching = f > 0
            forces[:, v], motion[:, v] = f, q
        return forces, keep.T @ motion * flexibility


@dataclass(frozen=True)
class _Case:
    """One case in balanced units; `whole` is [M Aᵀ; A 0], `first` a set of contacts that holds the body."""

    M: Array
    A: Array
    whole: Array
    W: Array
    b: Array
    first: Bools
    name: str

    def solved(self, start: Bools) -> tuple[Array, Array]:
        """Forces and motion, trying the contacts in `start` before others."""
        if not (np.isfinite(self.W).all() and np.isfinite(self.b).all()):
            raise self.fault("has a load that is not a number; check its wrench")
        touching = start.copy()
        for _ in range(BLOCK_TRIES):
            trial = self.touching(touching)
            if trial is None:
                break
            f, q, s = trial
            wrong = np.where(touching, f < -_small(f), s < -_small(f))
            if not wrong.any():
                return self.checked(np.where(touching, np.maximum(f, 0.0), 0.0), q)
            touching = touching ^ wrong
        f, q = self.pivoted()
        again = self.touching(f > 0)
        if again is not None and min(again[0].min(), again[2].min()) >= -_small(again[0]):
            f, q = np.maximum(again[0], 0.0), again[1]
        return self.checked(f, q)

    def fault(self, what: str) -> JobError:
        """An error that names the case."""
        return JobError(f"contact: case {self.name} {what}")

    def system(self, on: Bools) -> Array:
        """Equations of the contacts that touch and of equilibrium."""
        at = np.concatenate([np.flatnonzero(on), np.arange(len(on), len(self.whole))])
        return np.asarray(self.whole[at[:, None], at])

    def touching(self, on: Bools) -> tuple[Array, Array, Array] | None:
        """Forces, motion and gaps if exactly these touch; None where they cannot hold the body."""
        K, right = self.system(on), np.concatenate([-self.b[on], self.W])
        try:
            x = np.linalg.solve(K, right)
            rest = right - K @ x
            if np.abs(rest).max(initial=0.0) > 1e-13 * np.abs(right).max(initial=0.0):
                x += np.linalg.solve(K, rest)
                rest = right - K @ x
        except np.linalg.LinAlgError:
            return None
        held = np.abs(rest).max(initial=0.0) <= TOLERANCE * np.abs(right).max(initial=0.0)
        if not (held and np.isfinite(x).all()):
            return None
        f = np.zeros(len(self.M))
        f[on], q = x[: on.sum()], x[on.sum() :]
        return f, q, np.where(on, 0.0, self.M @ f + self.A.T @ q + self.b)

    def checked(self, f: Array, q: Array) -> tuple[Array, Array]:
        """The result, once it is shown to be one: equilibrium, no overlap, no force across a gap."""
        size = max(float(np.abs(f).max(initial=0.0)), float(np.abs(self.W).max(initial=0.0)), 1e-300)
        s = self.M @ f + self.A.T @ q + self.b
        balanced = np.abs(self.A @ f - self.W).max(initial=0.0) <= TOLERANCE * size
        deep = float(np.maximum(np.abs(self.M) @ f, np.abs(self.b)).max(initial=0.0)) + 1e-300
        across = np.minimum(f / size, np.abs(s) / deep).max(initial=0.0)
        if not (balanced and (s >= -1e-7 * deep).all() and across < 1e-7):
            raise self.fault("finds no balance to 1e-9; check bolts and pads, or report the job")
        return f, q

    def pivoted(self) -> tuple[Array, Array]:
        """Forces and motion by Lemke's method, after exchanging the forces of `first` for their gaps."""
        on, m, r = self.first, len(self.M), len(self.A)
        try:
            inverse = np.linalg.inv(self.system(on))
        except np.linalg.LinAlgError as error:
            raise self.fault("has nothing to start from that holds it; check bolts, pads and rests") from error
        to = np.zeros((on.sum() + r, m))
        to[np.arange(on.sum()), np.flatnonzero(on)] = 1.0
        to[:, ~on] = -np.vstack([self.M[np.ix_(on, ~on)], self.A[:, ~on]])
        x0, X = inverse @ np.concatenate([-self.b[on], self.W]), inverse @ to
        P, y0 = np.empty((m, m)), np.empty(m)
        P[on], y0[on] = X[: on.sum()], x0[: on.sum()]
        back = np.hstack([self.M[np.ix_(~on, on)], self.A[:, ~on].T])
        P[~on], y0[~on] = back @ X, back @ x0 + self.b[~on]
        P[np.ix_(~on, ~on)] += self.M[np.ix_(~on, ~on)]
        y, z = _complementary(P, y0, self.fault)
        return np.where(on, y, z), (x0 + X @ z)[on.sum() :]


def _small(f: Array) -> float:
    """Below this a force, or a gap in balanced units, is nothing."""
    return TOLERANCE * float(np.abs(f).max(initial=0.0)) + 1e-300


def _complementary(P: Array, y0: Array, fault: Callable[[str], JobError]) -> tuple[Array, Array]:
    """y = y0 + P z, y and z >= 0, y·z = 0, by Lemke's method with lexicographic pivots.

    Tableau columns: y (basic at first), z, the covering variable, the right-hand side.
    """
    m = len(y0)
    if (y0 >= 0).all():
        return y0, np.zeros(m)
    T = np.hstack([np.eye(m), -P, -np.ones((m, 1)), y0[:, None]])
    basis = np.arange(m)
    row, entering = _least(T, np.full(m, 1.0), m), 2 * m
    for _ in range(50 * m + 50):
        T[row] /= T[row, entering]
        others = np.arange(m) != row
        T[others] -= np.outer(T[others, entering], T[row])
        leaving, basis[row] = basis[row], entering
        if leaving == 2 * m:
            x = np.zeros(2 * m + 1)
            x[basis] = T[:, -1]
            return np.maximum(x[:m], 0.0), np.maximum(x[m : 2 * m], 0.0)
        entering = leaving + m if leaving < m else leaving - m
        column = T[:, entering]
        if not (column > TOLERANCE * np.abs(column).max()).any() or np.abs(column).max() == 0:
            raise fault(UNCARRIED)
        row = _least_ratio(T, column, basis, m)
    raise fault("did not end; report the job")


def _least(T: Array, weight: Array, m: int) -> int:
    """The row whose right-hand side over its weight is least, ties by the first columns in turn."""
    keys = np.hstack([T[:, -1:], T[:, :m]]) / weight[:, None]
    return int(np.lexsort(keys.T[::-1])[0])


def _least_ratio(T: Array, column: Array, basis: NDArray[np.int_], m: int) -> int:
    """The lexicographic ratio test; the covering variable leaves as soon as it may."""
    usable = column > TOLERANCE * np.abs(column).max()
    rows = np.flatnonzero(usable)
    ratio = T[rows, -1] / column[rows]
    near = rows[ratio <= ratio.min() + TOLERANCE * (1 + abs(ratio.min()))]
    cover = near[basis[near] == 2 * m]
    if len(cover):
        return int(cover[0])
    return int(near[_least(T[near], column[near], m)])
