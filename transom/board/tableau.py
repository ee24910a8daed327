"""A contact problem in balanced units, and its equations exchanged for a set of touching contacts, for pivoting."""

from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from transom.frozen import dataclass
from transom.units import Array

Bools = NDArray[np.bool_]


@dataclass(frozen=True)
class Problem:
    """Flexibility `M` (m, m) of contacts and equilibrium `A` (r, m) of what rests on them, in balanced units."""

    M: Array
    A: Array

    def gaps(self, f: Array, q: Array, b: Array) -> Array:
        """M f + Aᵀ q + b."""
        return np.asarray(self.M @ f + self.A.T @ q + b)

    def among(self, some: NDArray[np.int_]) -> "Problem":
        """The same of some contacts alone."""
        return Problem(self.M[np.ix_(some, some)], self.A[:, some])

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
    def _equations(self) -> Array:
        M, A, on = self.problem.M, self.problem.A, self.on
        none = np.zeros((len(A), len(A)))
        return np.block([[M[np.ix_(on, on)], A[:, on].T], [A[:, on], none]])

    @cached_property
    def _inverse(self) -> Array:
        return np.asarray(np.linalg.inv(self._equations))

    @property
    def condition(self) -> float:
        """How near the contacts are to holding nothing: size of the equations times that of their inverse."""
        return float(np.abs(self._equations).max() * np.abs(self._inverse).max())

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
