"""A plate on its supports: assembly on a grid and a block-tridiagonal solve for many loads at once.

The nodes of one grid line y[i] are a block; blocks couple to their neighbours only. numpy's dense
routines on the blocks are quicker here than importing a sparse solver.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from transom.board.elements import CORNERS, Section, cell_stiffness
from transom.board.grid import Grid, Rectangle
from transom.errors import JobError
from transom.units import Array

NOT_HELD = "plate: the board is not held; give it supports or springs that stop every motion"
BALANCED = 1e-11  # of the largest load
SOFTEST = 1e-12  # of its own stiffness: what a freedom keeps on a board that is held, however slender


@dataclass(frozen=True)
class Support:
    """What holds the nodes within a rectangle, line or point.

    `w`, `b_1`, `b_2`: True holds the deflection, the slope along y, the slope along z rigidly. A pinned
    edge holds w alone: holding the slope along it as well would be harder than a real support.
    """

    where: Rectangle
    w: bool = True
    b_1: bool = False
    b_2: bool = False


@dataclass(frozen=True)
class Spring:
    """A spring of stiffness k, N/mm in all, spread over a rectangle, line or point."""

    where: Rectangle
    k: float


@dataclass(frozen=True)
class Solution:
    """Deflections under m loads: `w` mm and slopes `b_1`, `b_2`, each (p+1, q+1, m).

    `reaction` N (p+1, q+1, m): the force of rigid supports on the board, positive aft.
    """

    w: Array
    b_1: Array
    b_2: Array
    reaction: Array

    def combined(self, factors: Array) -> "Solution":
        """Sums of the loads, `factors` (m, v)."""
        return Solution(*(v @ factors for v in vars(self).values()))


@dataclass(frozen=True)
class Plate:
    """A board on a grid with its section, rigid supports and springs."""

    grid: Grid
    section: Section
    supports: tuple[Support, ...]
    springs: tuple[Spring, ...] = ()

    @cached_property
    def free(self) -> Array:
        """One where a freedom moves, zero where it is held or missing, (p+1, 3 (q+1))."""
        moves = np.repeat(self.grid.nodes[..., None], 3, axis=-1)
        for s in self.supports:
            held = self.grid.on_line(s.where)
            if not held.any():
                raise JobError(f"plate: the support at {s.where} meets no grid line; make it a station of the grid")
            moves &= ~(held[..., None] & np.array([s.w, s.b_1, s.b_2]))
        return moves.reshape(len(self.grid.y), -1).astype(float)

    @cached_property
    def stiffness(self) -> tuple[Array, Array]:
        """Blocks before any support is applied: diagonal (p+1, B, B) and to the next line (p, B, B)."""
        rows, columns = len(self.grid.y), len(self.grid.z)
        K = cell_stiffness(self.grid.y, self.grid.z, self.section) * self.grid.present[..., None, None]
        K = K.reshape(*K.shape[:2], 4, 3, 4, 3)
        diagonal = np.zeros((rows, columns, 3, columns, 3))
        onward = np.zeros((rows - 1, columns, 3, columns, 3))
        J = np.arange(columns - 1)
        for m, (i_m, j_m) in enumerate(CORNERS):
            for n, (i_n, j_n) in enumerate(CORNERS):
                part = np.moveaxis(K[:, :, m, :, n, :], 1, 0)
                if i_m == i_n:
                    diagonal[i_m : rows - 1 + i_m, J + j_m, :, J + j_n, :] += part
                elif i_m < i_n:
                    onward[:, J + j_m, :, J + j_n, :] += part
        B = 3 * columns
        return diagonal.reshape(rows, B, B), onward.reshape(rows - 1, B, B)

    @cached_property
    def spring_rows(self) -> Array:
        """Stiffness each spring gives the nodes under it, N/mm, (s, p+1, q+1)."""
        rows = np.zeros((len(self.springs), *self.grid.nodes.shape))
        for n, spring in enumerate(self.springs):
            rows[n] = spring.k * self.grid.spread(spring.where)
        return rows

    @cached_property
    def _factors(self) -> tuple[Array, Array, Array]:
        """Held stiffness off the diagonal, inverse pivots, and the diagonal, by blocks."""
        diagonal, onward = self.stiffness
        free = self.free
        held = diagonal * free[:, :, None] * free[:, None, :]
        size = np.abs(np.diagonal(diagonal, axis1=1, axis2=2)).max()
        at = np.arange(held.shape[1])
        held[:, at, at] += np.where(free > 0, 0.0, size)
        held[:, at[::3], at[::3]] += self.spring_rows.sum(axis=0) * free[:, ::3]
        across = onward * free[:-1, :, None] * free[1:, None, :]
        inverse = np.empty_like(held)
        pivot = held[0]
        for i in range(len(held)):
            inverse[i] = _inverted(pivot, held[i])
            if i < len(across):
                pivot = held[i + 1] - across[i].T @ inverse[i] @ across[i]
        return across, inverse, held

    def _sweep(self, f: Array) -> Array:
        """One forward and one backward pass over the blocks, f (p+1, B, m)."""
        across, inverse, _ = self._factors
        x = f.copy()
        for i in range(len(across)):
            x[i + 1] -= across[i].T @ (inverse[i] @ x[i])
        x[-1] = inverse[-1] @ x[-1]
        for i in range(len(across) - 1, -1, -1):
            x[i] = inverse[i] @ (x[i] - across[i] @ x[i + 1])
        return x

    def _refined(self, f: Array) -> Array:
        """Solve; where inverses of blocks have lost digits (very thin plates), refine once."""
        x = self._sweep(f)
        rest = self._rest(f, x)
        if np.abs(rest).max(initial=0.0) > BALANCED * np.abs(f).max(initial=0.0):
            x = x + self._sweep(rest)
        return x

    def _rest(self, f: Array, x: Array) -> Array:
        """Force that the deflections x leave unbalanced."""
        across, _, held = self._factors
        rest = f - held @ x
        rest[:-1] -= across @ x[1:]
        rest[1:] -= np.swapaxes(across, 1, 2) @ x[:-1]
        return rest

    def solve(self, loads: Array) -> Solution:
        """Deflections under nodal forces `loads` (p+1, q+1, m), N positive aft.

        Raises:
            JobError: the board is not held against every motion.
        """
        m = loads.shape[-1]
        f = np.zeros((*loads.shape[:2], 3, m))
        f[:, :, 0] = loads
        f = f.reshape(len(self.grid.y), -1, m)
        x = self._refined(f * self.free[..., None])
        x4 = x.reshape(*loads.shape[:2], 3, m)
        return Solution(x4[:, :, 0], x4[:, :, 1], x4[:, :, 2], self._reactions(x, f))

    def _reactions(self, x: Array, f: Array) -> Array:
        diagonal, onward = self.stiffness
        r = diagonal @ x - f
        r[:-1] += onward @ x[1:]
        r[1:] += np.swapaxes(onward, 1, 2) @ x[:-1]
        r = r * (1 - self.free)[..., None]
        return np.asarray(r.reshape(len(self.grid.y), len(self.grid.z), 3, -1)[:, :, 0])

    def spring_forces(self, solution: Solution) -> Array:
        """Force of every spring on the board, positive aft, (s, m)."""
        return np.asarray(-np.einsum("sij,ijm->sm", self.spring_rows, solution.w))


def _inverted(pivot: Array, own: Array) -> Array:
    """Inverse of a pivot, refused where a freedom has next to nothing left of its own stiffness."""
    try:
        inverse = np.asarray(np.linalg.inv(pivot), dtype=float)
    except np.linalg.LinAlgError as error:
        raise JobError(NOT_HELD) from error
    left = np.diag(inverse) * np.diag(own)
    if not (np.isfinite(left) & (left > 0) & (left < 1 / SOFTEST)).all():
        raise JobError(NOT_HELD)
    return inverse


def edges(y: tuple[float, float], z: tuple[float, float]) -> tuple[Rectangle, ...]:
    """The lines y[0], y[1], z[0], z[1] of a rectangle."""
    lines: Iterable[tuple[float, float, float, float]] = (
        (y[0], y[0], *z), (y[1], y[1], *z), (*y, z[0], z[0]), (*y, z[1], z[1]),
    )  # fmt: skip
    return tuple(Rectangle(*line) for line in lines)
