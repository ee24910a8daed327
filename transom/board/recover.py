"""Moments and shear forces on every grid line, from the nodal forces of the cells beside it.

The cells on one side of a line are held in balance by what crosses it. Their nodal forces are the
moments and shears there weighted with the shape functions; undoing the weighting, one line at a time,
gives values at the nodes that are in equilibrium with the loads, right up to edges and supports, where
slopes of the deflections would give the mean of half a cell.
"""

import numpy as np

from transom.board.distinct import distinct
from transom.board.elements import CORNERS
from transom.board.grid import Bools, Grid
from transom.board.plate import Plate, Solution
from transom.formula import formula
from transom.frozen import dataclass
from transom.units import ONE, Array

ALONG_Y, ALONG_Z = (0, 3, 1, 2), (0, 1, 3, 2)  # corners at both ends of a cell's near and of its far line


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


def fields(plate: Plate, solution: Solution) -> Fields:
    """Moments and shears of every load of a solution, on the plate's own grid."""
    grid, forces = plate.grid, _cell_forces(plate, solution)
    one = _across(forces, _unweighted(grid.present, np.diff(grid.z)), ALONG_Y)
    turned = _unweighted(grid.present.T, np.diff(grid.y))
    two = np.swapaxes(_across(np.swapaxes(forces, 0, 1), turned, ALONG_Z), 0, 1)
    for field in (one, two):
        np.negative(field[:, :, 0], out=field[:, :, 0])
        field[~grid.nodes] = np.nan
    one[:, :, 2] += two[:, :, 1]
    one[:, :, 2] /= 2
    return Fields(one[:, :, 1], two[:, :, 2], one[:, :, 2], one[:, :, 0], two[:, :, 0])


def _cell_forces(plate: Plate, solution: Solution) -> Array:
    """Nodal forces of every cell, (p, q, 4, 3, m)."""
    (p, q), m = plate.grid.present.shape, solution.w.shape[-1]
    u = np.stack([solution.w, solution.b_1, solution.b_2], axis=2)
    corners = np.empty((p, q, 4, 3, m))
    for corner, (i, j) in enumerate(CORNERS):
        corners[:, :, corner] = u[i : p + i, j : q + j]
    return np.asarray(plate.cells @ corners.reshape(p, q, 12, m)).reshape(corners.shape)


def _across(forces: Array, undo: tuple[Array, Array], order: tuple[int, ...]) -> Array:
    """Nodal densities (p+1, q+1, 3, m) on the lines that the first axis of cells' forces (p, q, 4, 3, m) counts.

    `order` has the corners at the ends of a cell's near line, then of its far line.
    """
    p, q, _, _, m = forces.shape
    out = np.zeros((p + 1, q + 1, 3, m))
    out[:-1] = _apply(undo[0], _joined(forces[:, :, order[0]], forces[:, :, order[1]]))
    out[1:] -= _apply(undo[1], _joined(forces[:, :, order[2]], forces[:, :, order[3]]))
    return out


def _joined(lower: Array, upper: Array) -> Array:
    """Forces at the nodes (k, q+1, 3, m) of lines from those at both ends of each of their cells."""
    out = np.zeros((len(lower), lower.shape[1] + 1, *lower.shape[2:]))
    out[:, :-1] = lower
    out[:, 1:] += upper
    return out


def _apply(undo: Array, nodal: Array) -> Array:
    """Densities along lines from their nodal forces (k, n, 3, m)."""
    return np.asarray(undo @ nodal.reshape(*nodal.shape[:2], -1)).reshape(nodal.shape)


def _unweighted(present: Bools, steps: Array) -> tuple[Array, Array]:
    """What undoes the weighting on the near and on the far side of each line of cells, (p, q+1, q+1) both.

    Where cells lie on both sides of a grid line each side counts half.
    """
    first, which = distinct(present)
    share, there = _line_shares(present[first], steps)
    undo, there = np.linalg.inv(share)[which], there[which]
    sides = np.zeros((len(present) + 1, there.shape[1]))
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


def correction(coarse: Array, fine: Array) -> Array:
    """What Richardson adds to a field of the finer grid at the coarser one's nodes."""
    return np.asarray(richardson(coarse, fine[::2, ::2]) - fine[::2, ::2])


def correct(fine: Array, change: Array) -> None:
    """Add a correction known at every other node to a field of the finer grid, in place, spread evenly between.

    So a peak between two lines of the coarser grid is not lost. Nodes between one on the board and one off
    it keep their value.
    """
    before = fine.copy() if np.isnan(change).any() else fine
    half = (change[1:] + change[:-1]) / 2
    fine[::2, ::2] += change
    for lines, values in ((slice(0, None, 2), change), (slice(1, None, 2), half)):
        between = values[:, 1:] + values[:, :-1]
        between /= 2
        fine[lines, 1::2] += between
    fine[1::2, ::2] += half
    if before is not fine:
        np.copyto(fine, before, where=np.isnan(fine))


def extrapolated(grid: Grid, coarse: Fields, fine: Fields) -> tuple[Fields, Fields]:
    """Fields on the finer of two grids by Richardson, and the correction as the measure of their error.

    `grid` is the coarse one.
    """
    better, error = [], []
    for c, f in zip(vars(coarse).values(), vars(fine).values(), strict=True):
        change = correction(c, f)
        better.append(f.copy())
        correct(better[-1], change)
        error.append(size_of(grid.finer().nodes, change))
    return Fields(*better), Fields(*error)


def size_of(nodes: Bools, change: Array) -> Array:
    """A correction's size at every one of the finer grid's `nodes`, NaN off the board."""
    size = np.repeat(np.where(nodes, 0.0, np.nan)[..., None], change.shape[-1], axis=2)
    correct(size, change)
    return np.asarray(np.abs(size, out=size))
