"""A plate on its supports: assembly on a grid and a block-tridiagonal solve for many loads at once.

The nodes of one grid line y[i] are a block; blocks couple to their neighbours only.
"""

from collections.abc import Iterable
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from transom.board.blocks import Blocks, End
from transom.board.crossing import Crossing
from transom.board.distinct import distinct
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
        section = [np.asarray(v, dtype=float) for v in vars(self.section).values()]
        like = (self.grid.present * 1.0, *(v for v in section if v.ndim), self.free, self.spring_rows.sum(axis=0))
        even = len(steps) % 2 == 0 and np.abs(steps - steps[::-1]).max() <= ROUNDING * np.abs(self.grid.y).max()
        return bool(even) and all(np.abs(v - v[::-1]).max() <= ROUNDING * np.abs(v).max() for v in like)

    @cached_property
    def _blocks(self) -> Blocks:
        """The equations with supports and springs: a held freedom has a stiffness of its own and no neighbour."""
        (K, kind), h = self.kinds, len(self.grid.y) // 2
        springs = self.spring_rows.sum(axis=0)
        size = float(np.diagonal(K, axis1=1, axis2=2).max())
        first, one = _end(K, kind[:h], self.free[: h + 1], springs[: h + 1], size)
        if self.mirrored:
            second, other = first, one
        else:
            turned = K[:, TURNED[:, None], TURNED] * np.outer(SIGNS, SIGNS)
            second, other = _end(turned, kind[h:][::-1], self.free[h:][::-1], springs[h:][::-1], size)
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
        at = np.full(self.grid.nodes.shape, -1)
        at[self.held] = np.arange(np.count_nonzero(self.held))
        near, K = self._held_rows
        here, m = at[i, j], np.arange(len(i))
        loads = np.zeros((self.grid.nodes.size, 3, len(i)))
        for k in range(9):
            loads[near[here, k], :, m] -= K[here, k]
        loads *= self.free.reshape(-1, 3, 1)
        u = self._blocks.solve(loads.reshape(len(self.grid.y), -1, len(i))).reshape(*self.grid.nodes.shape, 3, -1)
        u[i, j, 0, m] = 1.0
        return Solution(u[:, :, 0], u[:, :, 1], u[:, :, 2], self._reactions(u, None))

    @cached_property
    def _held_rows(self) -> tuple[NDArray[np.int_], Array]:
        """Of each held node the nodes about it, (l, 9), and the stiffness that joins it to their freedoms, (l, 9, 3).

        Beyond an edge of the grid there is none; the node on the edge stands there.
        """
        i, j = np.nonzero(self.held)
        (p, q), (K, kind), steps = self.grid.present.shape, self.kinds, np.arange(-1, 2)
        out = np.zeros((len(i), 3, 3, 3))
        for m, (i_m, j_m) in enumerate(CORNERS):
            y, z = i - i_m, j - j_m
            on = (y >= 0) & (y < p) & (z >= 0) & (z < q)
            rows = K[kind[y[on], z[on]], 3 * m].reshape(-1, 4, 3)
            for n, (i_n, j_n) in enumerate(CORNERS):
                out[on, 1 + i_n - i_m, 1 + j_n - j_m] += rows[:, n]
        y, z = (np.clip(at[:, None] + steps, 0, most) for at, most in ((i, p), (j, q)))
        near = y[:, :, None] * (q + 1) + z[:, None]
        return near.reshape(len(i), 9), out.reshape(len(i), 9, 3)

    def _reactions(self, u: Array, loads: Array | None) -> Array:
        """Forces at nodes whose deflection is held, from the cells that meet there."""
        (near, K), m = self._held_rows, u.shape[-1]
        about = u.reshape(-1, 3, m).take(near, axis=0).reshape(len(near), 27, m)
        out = np.zeros((*self.held.shape, m))
        out[self.held] = (K.reshape(-1, 1, 27) @ about)[:, 0]
        if loads is not None:
            out[self.held] -= loads[self.held]
        return out

    def spring_forces(self, solution: Solution) -> Array:
        """Force of every spring on the board, positive aft, (s, m)."""
        return np.asarray(-np.einsum("sij,ijm->sm", self.spring_rows, solution.w))


def _end(K: Array, kind: NDArray[np.int_], free: Array, springs: Array, size: float) -> tuple[End, Array]:
    """The h lines before cells of a kind each (h, q), and these cells' part of the line behind them, (B, B).

    K (k, 12, 12) has the kinds' stiffness. Held freedoms, where `free` (h+1, B) is zero, keep a stiffness `size` and no
    neighbour.
    """
    h, B = len(kind), free.shape[1]
    first, which = distinct(kind)
    near, onward, far = (part[which] for part in _strips(K[kind[first]]))
    D, U, at = np.zeros((h + 1, B, B)), onward, np.arange(B)
    D[:-1] = near
    D[1:] += far
    D *= free[:, :, None]
    D *= free[:, None, :]
    U *= free[:-1, :, None]
    U *= free[1:, None, :]
    D[:-1, at, at] += np.where(free[:-1] > 0, 0.0, size)
    D[:-1, at[::3], at[::3]] += springs[:-1] * free[:-1, ::3]
    return End(D[:-1], U), D[-1]


def _strips(K: Array) -> tuple[Array, Array, Array]:
    """Stiffness of rows of cells K (s, q, 12, 12) between the line before them and itself, that line and the one behind,
    and the one behind and itself, each (s, B, B)."""
    s, q = K.shape[:2]
    corners, out = K.reshape(s, q, 4, 3, 4, 3), np.zeros((3, s, q + 1, 3, q + 1, 3))
    for m, (i_m, j_m) in enumerate(CORNERS):
        for n, (i_n, j_n) in enumerate(CORNERS):
            if i_m <= i_n:
                _band(out[i_m + i_n], j_m, j_n)[:] += corners[:, :, m, :, n, :]
    near, onward, far = out.reshape(3, s, 3 * (q + 1), 3 * (q + 1))
    return near, onward, far


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
