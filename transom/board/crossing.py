"""What crosses the grid lines of a plate, from the nodal forces of the cells beside them.

The cells on one side of a line are held in balance by what crosses it. Their nodal forces are the moments and shears
there weighted with the shape functions; undoing the weighting, one line at a time, gives values at the nodes that are in
equilibrium with the loads, right up to edges and supports, where slopes of the deflections would give the mean of half
a cell. Cells of one kind are multiplied together, and both sides of a line before the weighting is undone.
"""

from collections.abc import Callable
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from transom.board.distinct import distinct
from transom.board.elements import CORNERS
from transom.board.grid import Bools
from transom.frozen import dataclass
from transom.units import Array

Places = NDArray[np.int_]


@dataclass(frozen=True)
class Undoing:
    """What undoes the weighting on lines (k, n, n) from the forces of both sides, near less far.

    Where the wood on either side differs it is undone for each side alone: on the lines `mixed` `both` is for the near
    side, and `far` (l, n, n) for the far one.
    """

    both: Array
    mixed: Places
    far: Array

    def densities(self, forces: Array, near: Array) -> Array:
        """Densities (k, n, m) from nodal forces, near less far; of the near side alone on the mixed lines, (l, n, m)."""
        if not len(self.mixed):
            return np.asarray(self.both @ forces)
        side = forces.copy()
        side[self.mixed] = near
        out = self.both @ side
        out[self.mixed] += self.far @ (forces[self.mixed] - near)
        return np.asarray(out)


@dataclass(frozen=True)
class Crossing:
    """Cells of a grid: which are `present` (p, q), its `steps` along both axes, the stiffness of each kind of cell
    (k, 12, 12) and of which `kind` each is, (p, q)."""

    present: Bools
    steps: tuple[Array, Array]
    K: Array
    kind: Places

    @cached_property
    def _sorted(self) -> tuple[Places, Places]:
        """Places of the cells that are there, those of a kind together, (n,), and where each kind begins and ends."""
        there = np.flatnonzero(self.present)
        kind = self.kind.ravel()[there]
        return there[np.argsort(kind, kind="stable")], np.cumsum(np.bincount(kind, minlength=len(self.K)))

    @cached_property
    def _freedoms(self) -> Places:
        """Rows of deflections that each cell takes, (12, n)."""
        q = self.present.shape[1]
        i, j = np.divmod(self._sorted[0], q)
        corners = (3 * ((i + i_m) * (q + 1) + j + j_m) for i_m, j_m in CORNERS)
        return np.concatenate([corner + np.arange(3)[:, None] for corner in corners])

    @cached_property
    def _cells(self) -> Places:
        """Of each node the cell, among the sorted ones, that has it as a first to last corner, (4, p+1, q+1); n where none."""
        (p, q), order = self.present.shape, self._sorted[0]
        at = np.full((p + 2, q + 2), len(order))
        i, j = np.divmod(order, q)
        at[i + 1, j + 1] = np.arange(len(order))
        return np.stack([at[1 - i_m : p + 2 - i_m, 1 - j_m : q + 2 - j_m] for i_m, j_m in CORNERS])

    @cached_property
    def _undoing(self) -> tuple[Undoing, Undoing]:
        """On the lines that the first axis counts, and on those that the second does."""
        return _undoing(self.present, self.steps[1]), _undoing(self.present.T, self.steps[0])

    def _corner_forces(self, u: Array, freedoms: tuple[int, ...]) -> list[Array]:
        """What each node gets from the cells of which it is the first to last corner, each (p+1, q+1, freedoms, m)."""
        (order, ends), m, f = self._sorted, u.shape[-1], len(freedoms)
        n = len(order)
        taken = u.reshape(-1, m).take(self._freedoms, axis=0).reshape(12, n * m)
        K = self.K[:, [3 * corner + k for corner in range(4) for k in freedoms]]
        forces = np.empty((4 * f, (n + 1) * m))
        forces[:, n * m :] = 0.0
        begin = 0
        for stiffness, end in zip(K, (ends * m).tolist(), strict=True):
            if end > begin:
                np.matmul(stiffness, taken[:, begin:end], out=forces[:, begin:end])
            begin = end
        rows, step = forces.reshape(-1, m), (n + 1) * np.arange(4 * f).reshape(4, f)
        return [rows.take(cell[..., None] + at, axis=0) for cell, at in zip(self._cells, step, strict=True)]

    def densities(self, u: Array, freedoms: tuple[int, ...]) -> tuple[Array, Array]:
        """Densities on the lines that the first axis counts, and on those that the second does, of deflections and
        slopes u (p+1, q+1, 3, m): each (p+1, q+1, freedoms, m)."""
        first, second, third, fourth = self._corner_forces(u, freedoms)
        across, along = first - third, fourth - second
        lines, turned = self._undoing
        # Near corners of a line along z are the first and the fourth; of one along y the first and the second.
        one = _undone(lines, across + along, lambda k: first[k] + fourth[k])
        swapped = [np.swapaxes(x, 0, 1) for x in (across - along, first, second)]
        two = _undone(turned, swapped[0], lambda k: swapped[1][k] + swapped[2][k])
        return one, np.swapaxes(two, 0, 1)


def _undone(undoing: Undoing, forces: Array, near: Callable[[Places], Array]) -> Array:
    """Densities of nodal forces (k, n, freedoms, m), near less far; `near` has those of the near side on some lines."""
    k, n, f, m = forces.shape
    side = near(undoing.mixed).reshape(-1, n, f * m)
    return undoing.densities(forces.reshape(k, n, f * m), side).reshape(forces.shape)


def _undoing(present: Bools, steps: Array) -> Undoing:
    """Of the lines that the first axis of cells (p, q) counts; where cells lie on both sides each counts half."""
    first, which = distinct(present)
    share, there = _line_shares(present[first], steps)
    undo, there = np.linalg.inv(share), there[which]
    sides = np.zeros((len(present) + 1, there.shape[1]))
    sides[:-1] += there
    sides[1:] += there
    weight = 1 / np.maximum(sides, 1.0)[..., None]
    mixed = 1 + np.flatnonzero(which[1:] != which[:-1])
    return Undoing(undo[np.append(which, which[-1])] * weight, mixed, undo[which[mixed - 1]] * weight[mixed])


def _line_shares(present: Bools, steps: Array) -> tuple[Array, Array]:
    """Mass matrices of the shape functions along each line of cells, (p, q+1, q+1), and its nodes."""
    lines, cells = present.shape
    length = np.where(present, steps, 0.0)
    share = np.zeros((lines, cells + 1, cells + 1))
    j = np.arange(cells)
    share[:, j, j] += length / 3
    share[:, j + 1, j + 1] += length / 3
    share[:, j, j + 1] += length / 6
    share[:, j + 1, j] += length / 6
    there = np.diagonal(share, axis1=1, axis2=2) > 0
    k = np.arange(cells + 1)
    share[:, k, k] += np.where(there, 0.0, 1.0)
    return share, there.astype(float)
