"""Moments and shear forces on every grid line, from the nodal forces of the cells beside it.

The cells on one side of a line are held in balance by what crosses it. Their nodal forces are the
moments and shears there weighted with the shape functions; undoing the weighting, one line at a time,
gives values at the nodes that are in equilibrium with the loads, right up to edges and supports, where
slopes of the deflections would give the mean of half a cell.
"""

from dataclasses import dataclass

import numpy as np

from transom.board.grid import Bools, Grid
from transom.board.plate import Plate, Solution
from transom.formula import formula
from transom.units import ONE, Array


@formula(symbol="x", source="Richardson: two steps h and h/2 of a method of second order", known_by="derived")
def richardson(coarse: ONE, fine: ONE) -> ONE:
    """The value two grids point to where the error falls with the square of the step."""
    return fine + (fine - coarse) / 3


@dataclass(frozen=True)
class Fields:
    """Moments per width, N (N·mm/mm), and shears, N/mm, at nodes, each (p+1, q+1, m).

    `M_1` bends along y, `M_2` along z, `M_12` twists; M > 0 pulls the aft face. At free edges and soft
    supports the twist is the mean of the two cuts that meet there. NaN where there is no board.
    """

    M_1: Array
    M_2: Array
    M_12: Array
    Q_1: Array
    Q_2: Array

    def combined(self, factors: Array) -> "Fields":
        """Sums of the loads, `factors` (m, v)."""
        return Fields(*(field @ factors for field in vars(self).values()))


def fields(plate: Plate, solution: Solution) -> Fields:
    """Moments and shears of every load of a solution, on the plate's own grid."""
    grid = plate.grid
    across, up = _unweighted(grid.present, np.diff(grid.z)), _unweighted(grid.present.T, np.diff(grid.y))
    one, beside = _swept(plate, solution, across)
    two = np.zeros((beside.shape[1] + 1, *one.shape[:1], *one.shape[2:]))
    for j, (behind, before) in enumerate(zip(*beside, strict=True)):
        two[j] += _apply(up[0][j], behind)
        two[j + 1] -= _apply(up[1][j], before)
    two = np.swapaxes(two, 0, 1)
    for field in (one, two):
        np.negative(field[:, :, 0], out=field[:, :, 0])
        field[~grid.nodes] = np.nan
    return Fields(one[:, :, 1], two[:, :, 2], (one[:, :, 2] + two[:, :, 1]) / 2, one[:, :, 0], two[:, :, 0])


def _swept(plate: Plate, solution: Solution, undo: tuple[Array, Array]) -> tuple[Array, Array]:
    """Nodal densities on the lines y[i], (p+1, q+1, 3, m), and forces on the lines z[j], (2, q, p+1, 3, m).

    The latter are of the cells behind z[j] and, one line on, of the same cells before z[j+1]. One line of
    cells at a time: all their forces together would not stay in the processor's cache.
    """
    p, q = plate.grid.present.shape
    one = np.zeros((p + 1, q + 1, 3, solution.w.shape[-1]))
    beside = np.empty((2, q, p + 1, *one.shape[2:]))
    here, last = _line(solution, 0), np.zeros((q, 4, *one.shape[2:]))
    for i in range(p):
        ahead = _line(solution, i + 1)
        corners = np.concatenate([here[:-1], ahead[:-1], ahead[1:], here[1:]], axis=1)
        forces = (plate.cells[i] @ corners).reshape(q, 4, *one.shape[2:])
        one[i] += _apply(undo[0][i], _joined(forces[:, 0], forces[:, 3]))
        one[i + 1] -= _apply(undo[1][i], _joined(forces[:, 1], forces[:, 2]))
        np.add(last[:, 1], forces[:, 0], out=beside[0, :, i])
        np.add(last[:, 2], forces[:, 3], out=beside[1, :, i])
        here, last = ahead, forces
    beside[0, :, p], beside[1, :, p] = last[:, 1], last[:, 2]
    return one, beside


def _line(solution: Solution, i: int) -> Array:
    """Freedoms of one line of nodes, (q+1, 3, m)."""
    return np.stack([solution.w[i], solution.b_1[i], solution.b_2[i]], axis=1)


def _joined(lower: Array, upper: Array) -> Array:
    """Forces at the nodes of a line from those at both ends of each of its cells."""
    out = np.zeros((len(lower) + 1, *lower.shape[1:]))
    out[:-1] = lower
    out[1:] += upper
    return out


def _apply(undo: Array, nodal: Array) -> Array:
    """Densities along a line from its nodal forces (k, 3, m)."""
    return np.asarray(undo @ nodal.reshape(len(nodal), -1)).reshape(nodal.shape)


def _unweighted(present: Bools, steps: Array) -> tuple[Array, Array]:
    """What undoes the weighting on the near and on the far side of each line of cells, (p, q+1, q+1) both.

    Where cells lie on both sides of a grid line each side counts half.
    """
    share, there = _line_shares(present, steps)
    undo, sides = np.linalg.inv(share), np.zeros((len(there) + 1, there.shape[1]))
    sides[:-1] += there
    sides[1:] += there
    weight = 1 / np.maximum(sides, 1.0)[..., None]
    return undo * weight[:-1], undo * weight[1:]


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


def extrapolated(grid: Grid, coarse: Fields, fine: Fields) -> tuple[Fields, Fields]:
    """Fields on the finer of two grids by Richardson, and the correction as the measure of their error.

    `grid` is the coarse one; the correction is worked out at its nodes and spread evenly between them,
    so that a peak between two of its lines is not lost.
    """
    better, errors = [], []
    for c, f in zip(vars(coarse).values(), vars(fine).values(), strict=True):
        change = _between(np.asarray(richardson(c, f[::2, ::2])) - f[::2, ::2])
        change = np.where(np.isnan(change) & ~np.isnan(f), 0.0, change)
        better.append(f + change)
        errors.append(np.abs(change))
    return Fields(*better), Fields(*errors)


def _between(values: Array) -> Array:
    """Values at every node of the finer grid, means of the coarse nodes beside it."""
    for axis in (0, 1):
        v = np.moveaxis(values, axis, 0)
        out = np.empty((2 * len(v) - 1, *v.shape[1:]))
        out[::2], out[1::2] = v, (v[1:] + v[:-1]) / 2
        values = np.moveaxis(out, 0, axis)
    return values
