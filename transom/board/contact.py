"""One-way contact: forces that only push, gaps that only open, and a method that always ends.

Find forces f >= 0 and a rigid motion q with gaps s = M f + Aᵀ q + b >= 0, f·s = 0 and A f = W.
M (m, m), positive definite or semidefinite in the sense x·Mx >= 0, is the flexibility of everything
between the contacts; the rows of A are the equilibrium of a rigid body resting on them.

Sets of touching contacts are tried in whole blocks, all cases together (`touching`), which ends in a few
steps on almost every board but may cycle; so after a fixed number of tries Lemke's pivoting with the
lexicographic rule takes over, which ends for every such M in a solution or the proof that there is none
(Cottle, Pang and Stone, *The Linear Complementarity Problem*, theorem 4.4.13; memory). Either result is
checked before it is returned.
"""

from collections.abc import Callable, Sequence

import numpy as np
from numpy.typing import NDArray

from transom.board.tableau import Bools, Problem, Tableau
from transom.board.touching import TOLERANCE, in_blocks, led, refined, small, solved
from transom.errors import JobError
from transom.frozen import dataclass
from transom.units import Array

BLOCK_TRIES = 12
NOT_A_NUMBER = "has a load that is not a number; check its wrench"
NOTHING_HOLDS = "has nothing to start from that holds it; check bolts, pads and rests"
UNBALANCED = "finds no balance to 1e-9; check bolts and pads, or report the job"
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
        own: Bools | None = None,
    ) -> tuple[Array, Array]:
        """Contact forces and rigid motion of v cases.

        Args:
            W: (r, v) what the contacts must add up to.
            names: of the cases, for the error.
            b: (m, v) gaps before any contact force, mm.
            start: (m,) contacts that touch at first, enough to hold the body; all if not given.
            guess: (m, v) contacts to try first in each case; `start` if not given.
            own: (m, v) contacts that there are in each case; all if not given.

        Returns:
            forces (m, v), none negative, and motion (r, v).

        Raises:
            JobError: a case that no contact forces can carry.
        """
        flexibility, keep, idle = self._balanced
        problem = Problem(self.M / flexibility, keep @ self.A)
        gaps = np.zeros((len(self.M), W.shape[1])) if b is None else b / flexibility
        loads, lost = keep @ W, idle @ W
        first = np.ones(len(self.M), dtype=bool) if start is None else start
        _refuse(names, ~np.isfinite(np.concatenate([W, gaps])).all(axis=0), NOT_A_NUMBER)
        _refuse(names, _size(lost) > TOLERANCE * _size(loads), UNCARRIED)
        at_first = led(problem, gaps, loads, first, BLOCK_TRIES) if guess is None else guess
        there = np.ones(gaps.shape, dtype=bool) if own is None else own
        f, q, done = in_blocks(problem, gaps, loads, at_first & there, BLOCK_TRIES, there)
        for v in map(int, np.flatnonzero(~done)):
            i = np.flatnonzero(there[:, v])
            case = _Case(problem.among(i), loads[:, [v]], gaps[i][:, [v]], first[i], names[v])
            f[i, v : v + 1], q[:, [v]] = case.solved()
        _refuse(names, _unbalanced(problem, there, f, q, gaps, loads), UNBALANCED)
        return f, keep.T @ q * flexibility


def _size(x: Array) -> Array:
    """The largest of each column, (v,)."""
    return np.asarray(np.abs(x).max(axis=0, initial=0.0))


def _fault(name: str, what: str) -> JobError:
    """An error that names the case."""
    return JobError(f"contact: case {name} {what}")


def _refuse(names: Sequence[str], cases: Bools, what: str) -> None:
    """Raise for the first of the cases, if any."""
    for name, refused in zip(names, cases, strict=True):
        if refused:
            raise _fault(name, what)


def _unbalanced(problem: Problem, own: Bools, f: Array, q: Array, b: Array, W: Array) -> Bools:
    """Cases whose result is none: no equilibrium, an overlap, or force across a gap."""
    size = np.maximum(_size(f), _size(W)) + 1e-300
    s = np.where(own, problem.gaps(f, q, b), 0.0)
    deep = np.maximum(_size(np.abs(problem.M) @ f), _size(b)) + 1e-300
    across = np.minimum(f / size, np.abs(s) / deep).max(axis=0, initial=0.0)
    balanced = _size(problem.A @ f - W) <= TOLERANCE * size
    return np.asarray(~(balanced & (s >= -1e-7 * deep).all(axis=0) & (across < 1e-7)))


@dataclass(frozen=True)
class _Case:
    """One case in balanced units, b (m, 1) and W (r, 1); `first` is a set of contacts that holds the body."""

    problem: Problem
    W: Array
    b: Array
    first: Bools
    name: str

    def solved(self) -> tuple[Array, Array]:
        """Forces (m, 1) and motion (r, 1), rid of the rounding of many pivots."""
        f, q = self.pivoted()
        on = f > 0
        y, turn, holds = refined(self.problem, on, *solved(self.problem, on, self.b, self.W), self.b, self.W)
        if holds.all() and (y >= -small(np.where(on, y, 0.0))).all():
            return np.where(on, np.maximum(y, 0.0), 0.0), turn
        return f, q

    def pivoted(self) -> tuple[Array, Array]:
        """Forces and motion by Lemke's method, after exchanging the forces of `first` for their gaps."""
        tableau = Tableau(self.problem, self.first)
        try:
            y0, q = tableau.start(self.b, self.W)
        except np.linalg.LinAlgError as error:
            raise _fault(self.name, NOTHING_HOLDS) from error
        P, R = tableau.exchange
        y, z = _complementary(P, y0[:, 0], lambda what: _fault(self.name, what))
        return np.where(self.first, y, z)[:, None], q + (R @ z)[:, None]


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
