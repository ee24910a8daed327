"""A four-node rectangular plate element with shear, and its stiffness for all cells at once.

Mindlin-Reissner: w and the slopes b_1, b_2 (of the normal, towards y and z), γ_1 = ∂w/∂y − b_1. Shear is
interpolated from the mid-edges (MITC4: Bathe, *Finite Element Procedures*, 5.4.2), so that thin plates
do not lock; the edge shear stiffness carries the residual bending flexibility, 1/S' = 1/S + h²/(12 D)
(MacNeal, Computers & Structures 8 (1978)), which makes a strip of elements exact at its nodes.
Both from memory; the exact plates in the tests are what vouches for them.

Freedoms of an element: (w, b_1, b_2) of its nodes (0,0), (1,0), (1,1), (0,1). Moments per width:
M_1 = −(D_11 ∂b_1/∂y + D_12 ∂b_2/∂z), M_2 likewise, M_12 = −D_66 (∂b_1/∂z + ∂b_2/∂y); M > 0 pulls the
aft face of a plate whose w is positive aft.
"""

from functools import cache

import numpy as np
from numpy.typing import ArrayLike, NDArray

from transom.board.distinct import distinct
from transom.board.grid import Grid
from transom.board.layers import residual_shear
from transom.frozen import dataclass
from transom.units import Array

CORNERS = ((0, 0), (1, 0), (1, 1), (0, 1))
DIGITS = 11  # of a step, mm: so that those of one gap, even but for rounding, are one


@dataclass(frozen=True)
class Section:
    """Stiffness per width, each a number or an array over cells (p, q).

    D_11, D_12, D_22, D_66 in N·mm (1 along y, 2 along z); transverse shear S_1, S_2 in N/mm.
    """

    D_11: ArrayLike
    D_12: ArrayLike
    D_22: ArrayLike
    D_66: ArrayLike
    S_1: ArrayLike
    S_2: ArrayLike

    def finer(self) -> "Section":
        """The same on a grid with every cell cut in four."""
        parts = {k: np.asarray(v, dtype=float) for k, v in vars(self).items()}
        return Section(**{k: v if v.ndim == 0 else v.repeat(2, 0).repeat(2, 1) for k, v in parts.items()})

    def on(self, shape: tuple[int, int]) -> dict[str, Array]:
        """Every stiffness as an array over cells."""
        return {k: np.broadcast_to(np.asarray(v, dtype=float), shape) for k, v in vars(self).items()}


@cache
def _templates() -> Array:
    """Stiffness of a unit square for each coefficient of `_coefficients`, (12, 12, 12)."""
    bending = np.zeros((8, 12, 12))
    gauss = 0.5 + np.array([-0.5, 0.5]) / np.sqrt(3)
    for s in gauss:
        for t in gauss:
            d_y, d_z = _slopes(s, t)
            rows = np.zeros((4, 12))  # b_1,y  b_2,z  b_1,z  b_2,y
            rows[0, 1::3], rows[1, 2::3], rows[2, 1::3], rows[3, 2::3] = d_y, d_z, d_z, d_y
            for k, (a, b) in enumerate(((0, 0), (1, 1), (2, 2), (3, 3), (0, 1), (2, 3))):
                product = np.outer(rows[a], rows[b])
                bending[k] += (product if a == b else product + product.T) / 4
    return np.concatenate([bending[:6], _edge_shear(((0, 1), (3, 2)), 1), _edge_shear(((0, 3), (1, 2)), 2)])


def _slopes(s: float, t: float) -> tuple[Array, Array]:
    """Slopes of the four corner functions of the unit square at (s, t)."""
    d_s = np.array([-(1 - t), 1 - t, t, -t])
    d_t = np.array([-(1 - s), -s, s, 1 - s])
    return d_s, d_t


def _edge_shear(edges: tuple[tuple[int, int], tuple[int, int]], slope: int) -> Array:
    """Products of edge shears, linear from edge to edge: of w with w, w with slope, slope with slope."""
    rise, mean = np.zeros((2, 12)), np.zeros((2, 12))
    for e, (a, b) in enumerate(edges):
        rise[e, 3 * a], rise[e, 3 * b] = -1.0, 1.0
        mean[e, 3 * a + slope] = mean[e, 3 * b + slope] = 0.5
    share = np.array([[1 / 3, 1 / 6], [1 / 6, 1 / 3]])
    cross = rise.T @ share @ mean
    return np.array([rise.T @ share @ rise, -(cross + cross.T), mean.T @ share @ mean])


def _coefficients(a: Array, b: Array, section: Section) -> Array:
    """Factors of the templates for cells of size a by b, (p, q, 12)."""
    k = section.on((a.shape[0], b.shape[1]))
    S_1 = residual_shear(k["S_1"], k["D_11"], a)
    S_2 = residual_shear(k["S_2"], k["D_22"], b)
    rows = (
        k["D_11"] * b / a, k["D_22"] * a / b, k["D_66"] * a / b, k["D_66"] * b / a, k["D_12"], k["D_66"],
        S_1 * b / a, S_1 * b, S_1 * a * b, S_2 * a / b, S_2 * a, S_2 * a * b,
    )  # fmt: skip
    return np.stack([np.broadcast_to(r, k["D_11"].shape) for r in rows], axis=-1)


def kinds_of_cells(grid: Grid, section: Section) -> tuple[Array, NDArray[np.int_]]:
    """Stiffness of each kind of cell of a grid, (k, 12, 12), and of which kind each is, (p, q); missing ones have none."""
    a, b = (np.round(np.diff(lines), DIGITS) for lines in (grid.y, grid.z))
    factors = _coefficients(a[:, None], b[None, :], section) * grid.present[..., None]
    rows, of_row = distinct(factors.reshape(len(a), -1))
    columns, of_column = distinct(np.swapaxes(factors, 0, 1).reshape(len(b), -1))
    K = np.tensordot(factors[rows][:, columns].reshape(-1, factors.shape[-1]), _templates(), axes=1)
    return K, of_row[:, None] * len(columns) + of_column
