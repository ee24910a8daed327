"""Plates of one material with parts cut out or thicker, as another program may compute them too.

This is what shows notches, cut corners and stiffened parts of the plate method against computed values; nothing in a job
goes through it.
"""

from collections.abc import Sequence
from functools import lru_cache

import numpy as np
from numpy.typing import ArrayLike

from transom.board.elements import Section
from transom.board.grid import Grid, Rectangle, grid
from transom.board.layers import metal_rigidity
from transom.board.plate import Plate, Solution, Support, edges
from transom.board.recover import extrapolated, fields, richardson
from transom.errors import JobError
from transom.units import Array

QUANTITIES = ("w", "M_1", "M_2")


def cut_plate(
    quantity: str,
    at: ArrayLike,
    width: float,
    height: float,
    t: float,
    E: float,
    nu: float = 0.3,
    pressure: float = 0.01,
    missing: ArrayLike = (),
    thicker: ArrayLike = (),
    t_thicker: float = 0.0,
    step: float = 40.0,
) -> float:
    """Deflection (mm) or moment per width (N) of a plate on its sides and bottom edge, its top free, under even pressure.

    Args:
        quantity: "w", "M_1" (bending across) or "M_2" (up the plate).
        at: (2,) point across from the middle and up from the top edge, mm; or (4,) a line from, to across and from, to up,
            over which a moment is its mean.
        width, height, t: mm; E, pressure: MPa.
        missing: (k, 4) rectangles that are cut out, as lines above.
        thicker: (4,) a rectangle that is `t_thicker` thick in all, in the middle of the thickness.
        step: of the coarser of two grids, mm.

    Raises:
        JobError: a quantity that is not one of these.
    """
    if quantity not in QUANTITIES:
        raise JobError(f"plate: {quantity!r} is none of {', '.join(QUANTITIES)}")
    holes = tuple(_rectangle(r) for r in np.asarray(missing, dtype=float).reshape(-1, 4))
    patch = tuple(_rectangle(r) for r in np.asarray(thicker, dtype=float).reshape(-1, 4))
    place = [float(v) for v in np.ravel(at)]
    where = _rectangle(place if len(place) == 4 else [place[0], place[0], place[1], place[1]])
    on = _grid(width, height, holes, (*patch, where), step)
    first, second = _solved(on_key(on), t, t_thicker, patch, E, nu, pressure)
    if quantity == "w":
        coarse, fine = (float(s.w[..., 0].ravel() @ p.grid.spread(where).ravel()) for p, s in (first, second))
        return float(np.asarray(richardson(coarse, fine)))
    field: Array = getattr(extrapolated(on, *(fields(p, s) for p, s in (first, second)))[0], quantity)[..., 0]
    weights = second[0].grid.spread(where)
    return float(weights[weights > 0] @ field[weights > 0])


def _rectangle(r: Sequence[float] | Array) -> Rectangle:
    return Rectangle(*(float(v) for v in r))


def _grid(
    width: float, height: float, missing: tuple[Rectangle, ...], parts: tuple[Rectangle, ...], step: float
) -> Grid:
    """Lines through everything that begins or ends anywhere."""
    y = [-width / 2, 0.0, width / 2, *(e for r in parts for e in (r.y_lo, r.y_hi))]
    z = [-height, 0.0, *(e for r in parts for e in (r.z_lo, r.z_hi))]
    return grid(sorted(y), sorted(z), step, missing=missing)


Key = tuple[tuple[float, ...], tuple[float, ...], bytes]


def on_key(on: Grid) -> Key:
    """A grid as what tells it from others."""
    return tuple(on.y.tolist()), tuple(on.z.tolist()), on.present.tobytes()


# Several quantities of one plate stand in a row.
@lru_cache(maxsize=4)
def _solved(
    key: Key, t: float, t_thicker: float, patch: tuple[Rectangle, ...], E: float, nu: float, pressure: float
) -> tuple[tuple[Plate, Solution], tuple[Plate, Solution]]:
    y, z = np.array(key[0]), np.array(key[1])
    on = Grid(y, z, np.frombuffer(key[2], dtype=bool).reshape(len(y) - 1, len(z) - 1))
    out = []
    for g in (on, on.finer()):
        thick = np.full(g.present.shape, t)
        for r in patch:
            y_mid, z_mid = ((v[1:] + v[:-1]) / 2 for v in (g.y, g.z))
            thick[np.outer((y_mid > r.y_lo) & (y_mid < r.y_hi), (z_mid > r.z_lo) & (z_mid < r.z_hi))] = t_thicker
        sides = edges((float(y[0]), float(y[-1])), (float(z[0]), float(z[-1])))[:3]
        plate = Plate(g, section(thick, E, nu), tuple(Support(line) for line in sides))
        area = float((np.outer(np.diff(g.y), np.diff(g.z)) * g.present).sum())
        whole = Rectangle(float(y[0]), float(y[-1]), float(z[0]), float(z[-1]))
        out.append((plate, plate.solve(g.spread(whole)[..., None] * pressure * area)))
    return out[0], out[1]


def section(t: Array, E: float, nu: float) -> Section:
    """Of a plate of one material, a thickness for each cell."""
    D = np.asarray(metal_rigidity(E, t, nu))
    S = 5 / 6 * E / 2 / (1 + nu) * t
    return Section(D, nu * D, D, (1 - nu) / 2 * D, S, S)
