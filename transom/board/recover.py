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

SIDES = {"before": ((1, 0), (1, 1)), "behind": ((0, 0), (0, 1))}
CORNER = {(0, 0): 0, (1, 0): 1, (1, 1): 2, (0, 1): 3}


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
    K = plate.cells
    u = np.stack([solution.w, solution.b_1, solution.b_2], axis=2)
    corners = np.concatenate([u[:-1, :-1], u[1:, :-1], u[1:, 1:], u[:-1, 1:]], axis=2)
    forces = (K @ corners).reshape(*K.shape[:2], 4, 3, -1)
    turned = np.ascontiguousarray(np.swapaxes(forces, 0, 1)[:, :, [0, 3, 2, 1]])
    grid = plate.grid
    one = _across(forces, grid.present, np.diff(grid.z))
    two = np.swapaxes(_across(turned, grid.present.T, np.diff(grid.y)), 0, 1)
    off = np.where(grid.nodes, 0.0, np.nan)[..., None]
    return Fields(
        one[:, :, 1] + off, two[:, :, 2] + off, (one[:, :, 2] + two[:, :, 1]) / 2 + off,
        -one[:, :, 0] + off, -two[:, :, 0] + off,
    )  # fmt: skip


def _across(forces: Array, present: Bools, steps: Array) -> Array:
    """Nodal densities on the lines of the first axis, mean of both sides, (p+1, q+1, 3, m)."""
    shape = (forces.shape[0] + 1, forces.shape[1] + 1)
    total = np.zeros((*shape, 3, forces.shape[-1]))
    sides = np.zeros(shape)
    share, there = _line_shares(present, steps)
    undo = np.linalg.inv(share)
    for name, corners in SIDES.items():
        sign, first = (-1.0, 1) if name == "before" else (1.0, 0)
        lines = slice(first, first + forces.shape[0])
        nodal = np.zeros((forces.shape[0], shape[1], 3, forces.shape[-1]))
        nodal[:, :-1] += forces[:, :, CORNER[corners[0]]]
        nodal[:, 1:] += forces[:, :, CORNER[corners[1]]]
        flat = nodal.reshape(*nodal.shape[:2], -1)
        total[lines] += sign * (undo @ flat).reshape(nodal.shape)
        sides[lines] += there
    return total / np.maximum(sides, 1.0)[..., None, None]


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
