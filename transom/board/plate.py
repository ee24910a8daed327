"""A plate on its supports: assembly on a grid and a block-tridiagonal solve for many loads at once.

The nodes of one grid line y[i] are a block; blocks couple to their neighbours only.
"""

from collections.abc import Iterable
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from transom.board.blocks import Blocks, End
from transom.board.crossing import Crossing
from transom.board.elements import CORNERS, Section, kinds_of_cells
from transom.board.grid import Bools, Grid, Rectangle
from transom.errors import JobError
from transom.frozen import dataclass
from transom.units import Array

MIRROR = (1.0, -1.0, 1.0)  # signs of w, b_1, b_2 seen from the board's other side
DEFLECTIONS = slice(0, None, 3)
TURNED = np.array([3, 4, 5, 0, 1, 2, 9, 10, 11, 6, 7, 8])  # freedoms of an element seen from there
SIGNS = np.tile(MIRROR, 4)
ROUNDING = 1e-15  # of the largest value: what rounding makes of equal ones


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
class Deflections:
    """Deflections under m loads: `w` mm and slopes `b_1`, `b_2`, each (p+1, q+1, m)."""

    w: Array
    b_1: Array
    b_2: Array


@dataclass(frozen=True)
class Solution(Deflections):
    """Deflections, and `reaction` N (p+1, q+1, m): the force of rigid supports on the board, positive aft."""

    reaction: Array


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
    def kinds(self) -> tuple[Array, NDArray[np.int_]]:
        """Stiffness of each kind of cell, (k, 12, 12), and the kind of every cell, (p, q); a missing cell has none."""
        return kinds_of_cells(self.grid, self.section)

    @cached_property
    def cells(self) -> Array:
        """Stiffness of every cell, none where it is missing, (p, q, 12, 12)."""
        K, kind = self.kinds
        return np.asarray(K[kind])

    @cached_property
    def crossing(self) -> Crossing:
        """What crosses its grid lines."""
        return Crossing(self.grid.present, (np.diff(self.grid.y), np.diff(self.grid.z)), *self.kinds)

    @cached_property
    def spring_rows(self) -> Array:
        """Stiffness each spring gives the nodes under it, N/mm, (s, p+1, q+1)."""
        k = np.array([spring.k for spring in self.springs])
        return np.moveaxis(k * self.grid.spreads([spring.where for spring in self.springs]), -1, 0)

    @cached_property
    def mirrored(self) -> bool:
        """True where the board, its section and what holds it are their own image about the middle line."""
        steps = np.diff(self.grid.y)
        section = self.section.on(self.grid.present.shape).values()
        like = (self.grid.present * 1.0, *section, self.free, self.spring_rows.sum(axis=0))
        even = len(steps) % 2 == 0 and np.abs(steps - steps[::-1]).max() <= ROUNDING * np.abs(self.grid.y).max()
        return bool(even) and all(np.abs(v - v[::-1]).max() <= ROUNDING * np.abs(v).max() for v in like)

    @cached_property
    def _blocks(self) -> Blocks:
        """The equations with supports and springs: a held freedom has a stiffness of its own and no neighbour."""
        h = len(self.grid.y) // 2
        springs = self.spring_rows.sum(axis=0)
        size = float(np.diagonal(self.cells, axis1=2, axis2=3).max())
        first, one = _end(self.cells[:h], self.free[: h + 1], springs[: h + 1], size)
        if self.mirrored:
            second, other = first, one
        else:
            turned = self.cells[h:][::-1][:, :, TURNED[:, None], TURNED] * np.outer(SIGNS, SIGNS)
            second, other = _end(turned, self.free[h:][::-1], springs[h:][::-1], size)
        mirror = np.tile(MIRROR, len(self.grid.z))
        centre = one + other * np.outer(mirror, mirror)
        at = np.arange(len(mirror))
        centre[at, at] += np.where(self.free[h] > 0, 0.0, size)
        centre[at[::3], at[::3]] += springs[h] * self.free[h, ::3]
        return Blocks((first, second), centre, mirror)

    def solve(self, loads: Array) -> Solution:
        """Deflections under nodal forces `loads` (p+1, q+1, m), N positive aft.

        Raises:
            JobError: the board is not held against every motion.
        """
        u = self._blocks.solve(loads * self.free[:, ::3, None], DEFLECTIONS).reshape(*loads.shape[:2], 3, -1)
        return Solution(u[:, :, 0], u[:, :, 1], u[:, :, 2], self._reactions(u, loads))

    @cached_property
    def held(self) -> Bools:
        """Nodes on the board whose deflection a support holds, (p+1, q+1)."""
        return np.asarray((self.free[:, ::3] == 0) & self.grid.nodes)

    def moved(self, i: NDArray[np.int_], j: NDArray[np.int_]) -> Solution:
        """What it does where one held node each, at i and j (m,), is moved aft by 1 mm and nothing is loaded."""
        (p, q), m = self.grid.present.shape, np.arange(len(i))
        pulls = np.zeros((p + 1, q + 1, 3, len(i)))
        for k, (i_k, j_k) in enumerate(CORNERS):
            y, z = i - i_k, j - j_k
            on = (y >= 0) & (y < p) & (z >= 0) & (z < q)
            for n, (i_n, j_n) in enumerate(CORNERS):
                pulls[y[on] + i_n, z[on] + j_n, :, m[on]] += self.cells[y[on], z[on], 3 * n : 3 * n + 3, 3 * k]
        loads = -pulls.reshape(p + 1, -1, len(i)) * self.free[..., None]
        u = self._blocks.solve(loads).reshape(pulls.shape)
        u[i, j, 0, m] = 1.0
        return Solution(u[:, :, 0], u[:, :, 1], u[:, :, 2], self._reactions(u, np.zeros((1, 1, len(i)))))

    def _reactions(self, u: Array, loads: Array) -> Array:
        """Forces at nodes whose deflection is held, from the cells that meet there."""
        held = self.held
        out = np.zeros((*held.shape, u.shape[-1]))
        out[held] = -np.broadcast_to(loads, out.shape)[held]
        p, q = self.grid.present.shape
        for m, (i_m, j_m) in enumerate(CORNERS):
            i, j = np.nonzero(held[i_m : p + i_m, j_m : q + j_m])
            corners = np.concatenate([u[i + i_n, j + j_n] for i_n, j_n in CORNERS], axis=1)
            out[i + i_m, j + j_m] += (self.cells[i, j, 3 * m, None, :] @ corners)[:, 0]
        return out

    def spring_forces(self, solution: Solution) -> Array:
        """Force of every spring on the board, positive aft, (s, m)."""
        return np.asarray(-np.einsum("sij,ijm->sm", self.spring_rows, solution.w))


def _end(K: Array, free: Array, springs: Array, size: float) -> tuple[End, Array]:
    """The h lines before the cells K (h, q, 12, 12) and these cells' part of the line behind them, (B, B).

    Held freedoms, where `free` (h+1, B) is zero, keep a stiffness `size` and no neighbour.
    """
    h, q = K.shape[:2]
    corners = K.reshape(h, q, 4, 3, 4, 3)
    diagonal = np.zeros((h + 1, q + 1, 3, q + 1, 3))
    onward = np.zeros((h, q + 1, 3, q + 1, 3))
    for m, (i_m, j_m) in enumerate(CORNERS):
        for n, (i_n, j_n) in enumerate(CORNERS):
            if i_m <= i_n:
                blocks = diagonal[i_m : h + i_m] if i_m == i_n else onward
                _band(blocks, j_m, j_n)[:] += corners[:, :, m, :, n, :]
    B = free.shape[1]
    D, U, at = diagonal.reshape(h + 1, B, B), onward.reshape(h, B, B), np.arange(B)
    D *= free[:, :, None]
    D *= free[:, None, :]
    U *= free[:-1, :, None]
    U *= free[1:, None, :]
    D[:-1, at, at] += np.where(free[:-1] > 0, 0.0, size)
    D[:-1, at[::3], at[::3]] += springs[:-1] * free[:-1, ::3]
    return End(D[:-1], U), D[-1]


def _band(blocks: Array, j_m: int, j_n: int) -> Array:
    """The 3 by 3 parts of blocks (n, c, 3, c, 3) that join nodes j + j_m and j + j_n, as a view (n, c-1, 3, 3)."""
    inner = blocks[:, j_m : blocks.shape[1] - 1 + j_m, :, j_n : blocks.shape[3] - 1 + j_n, :]
    return np.asarray(np.einsum("njajb->njab", inner))


def edges(y: tuple[float, float], z: tuple[float, float]) -> tuple[Rectangle, ...]:
    """The lines y[0], y[1], z[0], z[1] of a rectangle."""
    lines: Iterable[tuple[float, float, float, float]] = (
        (y[0], y[0], *z), (y[1], y[1], *z), (*y, z[0], z[0]), (*y, z[1], z[1]),
    )  # fmt: skip
    return tuple(Rectangle(*line) for line in lines)
