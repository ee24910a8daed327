"""One-way contact: forces that only push, gaps that only open, and a method that always ends.

Find forces f >= 0 and a rigid motion q with gaps s = M f + Aᵀ q + b >= 0, f·s = 0 and A f = W.
M (m, m), positive definite or semidefinite in the sense x·Mx >= 0, is the flexibility of everything
between the contacts; the rows of A are the equilibrium of a rigid body resting on them.

Sets of touching contacts are tried in whole blocks, which ends in a few steps on almost every board but
may cycle; so after a fixed number of tries Lemke's pivoting with the lexicographic rule takes over,
which ends for every such M in a solution or the proof that there is none (Cottle, Pang and Stone, *The
Linear Complementarity Problem*, theorem 4.4.13; memory). Either result is checked before it is returned.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from transom.errors import JobError
from transom.units import Array

BLOCK_TRIES = 12
TOLERANCE = 1e-9


@dataclass(frozen=True)
class Contacts:
    """m one-way contacts: flexibility `M` (m, m), mm/N, and equilibrium `A` (r, m) of the rigid body."""

    M: Array
    A: Array

    @property
    def _sizes(self) -> tuple[float, Array]:
        """A typical flexibility and the size of each equilibrium row, to balance the equations."""
        rows = np.abs(self.A).max(axis=1, initial=0.0)
        return float(np.abs(np.diag(self.M)).max()), np.where(rows > 0, rows, 1.0)

    def bear(self, W: Array, names: Sequence[str], b: Array | None = None) -> tuple[Array, Array]:
        """Contact forces and rigid motion of v cases.

        Args:
            W: (r, v) what the contacts must add up to.
            names: of the cases, for the error.
            b: (m, v) gaps before any contact force, mm.

        Returns:
            forces (m, v), none negative, and motion (r, v).

        Raises:
            JobError: a case that no contact forces can carry.
        """
        flexibility, rows = self._sizes
        M, A = self.M / flexibility, self.A / rows[:, None]
        gaps = np.zeros((len(M), W.shape[1])) if b is None else b / flexibility
        loads = W / rows[:, None]
        forces, motion = np.empty_like(gaps), np.empty_like(loads)
        touching = np.ones(len(M), dtype=bool)
        for v, name in enumerate(names):
            f, q = _one(M, A, loads[:, v], gaps[:, v], touching, name)
            touching = f > 0
            forces[:, v], motion[:, v] = f, q
        return forces, motion * flexibility / rows[:, None]


def _one(M: Array, A: Array, W: Array, b: Array, start: Array, name: str) -> tuple[Array, Array]:
    """Forces and motion of one case, balanced units; starts from the contacts touching in `start`."""
    if not (np.isfinite(W).all() and np.isfinite(b).all()):
        raise JobError(f"contact: case {name} has a load that is not a number; check its wrench")
    touching = start.copy()
    for _ in range(BLOCK_TRIES):
        trial = _touching(M, A, W, b, touching)
        if trial is None:
            break
        f, q, s = trial
        wrong = np.where(touching, f < -_small(f), s < -_small(f))
        if not wrong.any():
            return _checked(M, A, W, b, np.where(touching, np.maximum(f, 0.0), 0.0), q, name)
        touching = touching ^ wrong
    f, q = _lemke(M, A, W, b, name)
    again = _touching(M, A, W, b, f > 0)
    if again is not None and (again[0] > -_small(again[0])).all() and (again[2] > -_small(again[0])).all():
        f, q = np.maximum(again[0], 0.0), again[1]
    return _checked(M, A, W, b, f, q, name)


def _small(f: Array) -> float:
    """Below this a force, or a gap in balanced units, is nothing."""
    return TOLERANCE * float(np.abs(f).max(initial=0.0)) + 1e-300


def _system(M: Array, A: Array) -> Array:
    r = len(A)
    return np.block([[M, A.T], [A, np.zeros((r, r))]])


def _touching(M: Array, A: Array, W: Array, b: Array, on: Array) -> tuple[Array, Array, Array] | None:
    """Forces, motion and gaps if exactly these touch; None where they cannot hold the body."""
    K = _system(M[np.ix_(on, on)], A[:, on])
    right = np.concatenate([-b[on], W])
    try:
        x = np.linalg.solve(K, right)
        x += np.linalg.solve(K, right - K @ x)
    except np.linalg.LinAlgError:
        return None
    held = np.abs(K @ x - right).max(initial=0.0) <= TOLERANCE * np.abs(right).max(initial=0.0)
    if not (held and np.isfinite(x).all()):
        return None
    f = np.zeros(len(M))
    f[on], q = x[: on.sum()], x[on.sum() :]
    return f, q, np.where(on, 0.0, M @ f + A.T @ q + b)


def _checked(M: Array, A: Array, W: Array, b: Array, f: Array, q: Array, name: str) -> tuple[Array, Array]:
    """The result, once it is shown to be one: equilibrium, no overlap, no force across a gap."""
    size = max(float(np.abs(f).max(initial=0.0)), float(np.abs(W).max(initial=0.0)), 1e-300)
    s = M @ f + A.T @ q + b
    balanced = np.abs(A @ f - W).max(initial=0.0) <= TOLERANCE * size
    deep = float(np.maximum(np.abs(M) @ f, np.abs(b)).max(initial=0.0)) + 1e-300
    if not (balanced and (s >= -1e-7 * deep).all() and np.minimum(f / size, np.abs(s) / deep).max(initial=0.0) < 1e-7):
        raise JobError(f"contact: case {name}: no balance to 1e-9 was found; check bolts and pads, or report the job")
    return f, q


def _lemke(M: Array, A: Array, W: Array, b: Array, name: str) -> tuple[Array, Array]:
    """Forces and motion by Lemke's method on the gaps: f = f0 + P s, where P is [M Aᵀ; A 0]⁻¹'s block."""
    m = len(M)
    inverse = np.linalg.pinv(_system(M, A), hermitian=False)
    right = np.concatenate([-b, W])
    f, s = _complementary(inverse[:m, :m], inverse[:m] @ right, name)
    return f, (inverse[m:] @ (right + np.concatenate([s, np.zeros(len(A))])))


def _complementary(P: Array, f0: Array, name: str) -> tuple[Array, Array]:
    """f = f0 + P s, f and s >= 0, f·s = 0, by Lemke's method with lexicographic pivots.

    Tableau columns: f (basic at first), s, the covering variable, the right-hand side.
    """
    m = len(f0)
    if (f0 >= 0).all():
        return f0, np.zeros(m)
    T = np.hstack([np.eye(m), -P, -np.ones((m, 1)), f0[:, None]])
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
            raise JobError(f"contact: case {name}: no bolts and pads can carry this load; add or move bolts")
        row = _least_ratio(T, column, basis, m)
    raise JobError(f"contact: case {name}: pivoting did not end; report the job")


def _least(T: Array, weight: Array, m: int) -> int:
    """The row whose right-hand side over its weight is least, ties by the first columns in turn."""
    keys = np.hstack([T[:, -1:], T[:, :m]]) / weight[:, None]
    return int(np.lexsort(keys.T[::-1])[0])


def _least_ratio(T: Array, column: Array, basis: Array, m: int) -> int:
    """The lexicographic ratio test; the covering variable leaves as soon as it may."""
    usable = column > TOLERANCE * np.abs(column).max()
    rows = np.flatnonzero(usable)
    ratio = T[rows, -1] / column[rows]
    near = rows[ratio <= ratio.min() + TOLERANCE * (1 + abs(ratio.min()))]
    cover = near[basis[near] == 2 * m]
    if len(cover):
        return int(cover[0])
    return int(near[_least(T[near], column[near], m)])
