"""Moments and shear forces at the nodes of a plate, and what two grids point to."""

import numpy as np

from transom.board.grid import Bools, Grid
from transom.board.plate import Deflections, Plate
from transom.formula import formula
from transom.frozen import dataclass
from transom.units import ONE, Array


@formula(symbol="x", source="Richardson: two steps h and h/2 of a method of second order", known_by="derived")
def richardson(coarse: ONE, fine: ONE) -> ONE:
    """The value two grids point to where the error falls with the square of the step."""
    return fine + (fine - coarse) / 3


@dataclass(frozen=True)
class Moments:
    """Moments per width, N (N·mm/mm), at nodes, each (p+1, q+1, m).

    `M_1` bends along y, `M_2` along z, `M_12` twists; M > 0 pulls the aft face. At free edges and soft
    supports the twist is the mean of the two cuts that meet there. NaN where there is no board.
    """

    M_1: Array
    M_2: Array
    M_12: Array


@dataclass(frozen=True)
class Shears:
    """Shears along y and along z, N/mm, at nodes, each (p+1, q+1, m); NaN where there is no board."""

    Q_1: Array
    Q_2: Array


@dataclass(frozen=True)
class Fields(Moments, Shears):
    """Both."""


def fields(plate: Plate, solution: Deflections) -> Fields:
    """Moments and shears of every load of a solution, on the plate's own grid."""
    return Fields(**vars(moments(plate, solution)), **vars(shears(plate, solution)))


def moments(plate: Plate, solution: Deflections) -> Moments:
    """Moments alone."""
    one, two = _densities(plate, solution, (1, 2))
    twist = one[:, :, 1] + two[:, :, 0]
    twist /= 2
    return Moments(one[:, :, 0], np.ascontiguousarray(two[:, :, 1]), twist)


def shears(plate: Plate, solution: Deflections) -> Shears:
    """Shears alone."""
    one, two = _densities(plate, solution, (0,))
    return Shears(-one[:, :, 0], -two[:, :, 0])


def _densities(plate: Plate, solution: Deflections, freedoms: tuple[int, ...]) -> tuple[Array, Array]:
    """What crosses the lines of y and those of z, (p+1, q+1, freedoms, m) both; NaN where there is no board."""
    u = np.stack([solution.w, solution.b_1, solution.b_2], axis=2)
    found = plate.crossing.densities(u, freedoms)
    off = ~plate.grid.nodes
    for density in found if off.any() else ():
        density[off] = np.nan
    return found


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
