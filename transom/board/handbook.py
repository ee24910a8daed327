"""Uniform rectangular plates in the ratios that handbooks print, by the plate method on two grids.

This is what shows the method against published tables; nothing in a job goes through it.
"""

from functools import cached_property, lru_cache

import numpy as np
from numpy.typing import ArrayLike

from transom.board.elements import Section
from transom.board.grid import Grid, Rectangle, grid
from transom.board.plate import Plate, Solution, Support
from transom.board.recover import Fields, extrapolated, fields, richardson
from transom.errors import JobError
from transom.frozen import dataclass
from transom.units import Array

QUANTITIES = ("w", "M_1", "M_2", "M_12")


@dataclass(frozen=True)
class _Case:
    a: float
    b: float
    edges: str
    nu: float
    t: float

    @property
    def section(self) -> Section:
        """D = 1 in both directions, and the shear stiffness of the thickness."""
        S = 5 / 6 * 6 * (1 - self.nu) / self.t**2
        return Section(1.0, self.nu, 1.0, (1 - self.nu) / 2, S, S)

    @property
    def turned(self) -> "_Case":
        """The same plate with its sides named the other way."""
        return _Case(self.b, self.a, self.edges[2:] + self.edges[:2], self.nu, self.t)

    def plate(self, on: Grid) -> Plate:
        """The plate; a simple support holds the slope along it too, as thin plate theory has it."""
        a, b = self.a, self.b
        sides = ((0, 0, 0, b), (a, a, 0, b), (0, a, 0, 0), (0, a, b, b))
        held = [
            Support(Rectangle(*side), True, kind == "C" or n >= 2, kind == "C" or n < 2)
            for n, (side, kind) in enumerate(zip(sides, self.edges, strict=True))
            if kind != "F"
        ]
        return Plate(on, self.section, tuple(held))


def handbook_ratio(
    quantity: str,
    at: ArrayLike,
    edges: str = "SSSS",
    a: float = 1.0,
    b: float = 1.0,
    patch: ArrayLike | None = None,
    per: str = "pressure",
    factor: float = 1.0,
    nu: float = 0.3,
    slenderness: float = 1000.0,
    cells: int = 10,
) -> float:
    """Deflection or moment of a rectangular isotropic plate a by b as a handbook's coefficient.

    Args:
        quantity: "w", "M_1" (bending along a), "M_2" (along b) or "M_12".
        at: (2,) point as fractions of a and b.
        edges: S, C or F for the edges at 0 and a, then those at 0 and b.
        patch: (4,) loaded rectangle from, to along a and from, to along b, as fractions of a and b;
            the whole plate if not given.
        per: "pressure" gives w D/(q a^4), M/(q a^2); "force" gives w D/(W a^2), M/W.
        factor: what the source multiplies these by, such as 12 (1 - nu^2) for w E t^3.
        slenderness: a over thickness.
        cells: of the coarser grid along the shorter side; the finer has twice as many.

    Raises:
        JobError: a quantity, an edge or a basis that is not one of these.
    """
    if quantity not in QUANTITIES or len(edges) != 4 or set(edges) - set("SCF") or per not in ("pressure", "force"):
        raise JobError(f"plate: {quantity!r}, {edges!r} or {per!r} is not known; see the docstring of handbook_ratio")
    load = np.asarray([0, 1, 0, 1] if patch is None else patch, dtype=float) * [a, a, b, b]
    y, z = (float(v) for v in np.asarray(at, dtype=float) * [a, b])
    case = _Case(a, b, edges, nu, a / slenderness)
    on = grid([0, a, y, *load[:2]], [0, b, z, *load[2:]], min(a, b) / cells)
    value = _value(case, on, Rectangle(*load), quantity, (y, z))
    return factor * value / (a**2 if quantity == "w" else 1.0) * (b / a if per == "pressure" else 1.0)


@dataclass(frozen=True)
class _Solved:
    """A case under a unit force on both grids."""

    on: Grid
    plates: tuple[Plate, Plate]
    solutions: tuple[Solution, Solution]

    @cached_property
    def better(self) -> Fields:
        """Moments, extrapolated."""
        return extrapolated(self.on, *(fields(p, s) for p, s in zip(self.plates, self.solutions, strict=True)))[0]


# A handbook prints several loads of one plate in a row, and several quantities of each.
@lru_cache(maxsize=8)
def _plates(case: _Case, y: tuple[float, ...], z: tuple[float, ...]) -> tuple[Plate, Plate]:
    """The case on the grid of these lines and on its finer one."""
    on = Grid(np.array(y), np.array(z), np.ones((len(y) - 1, len(z) - 1), dtype=bool))
    return case.plate(on), case.plate(on.finer())


@lru_cache(maxsize=4)
def _solved(case: _Case, y: tuple[float, ...], z: tuple[float, ...], load: Rectangle) -> _Solved:
    """The same under a unit force on `load`."""
    plates = _plates(case, y, z)
    first, second = (p.solve(p.grid.spread(load)[..., None]) for p in plates)
    return _Solved(plates[0].grid, plates, (first, second))


TURNED = {"w": "w", "M_1": "M_2", "M_2": "M_1", "M_12": "M_12"}


def _value(case: _Case, on: Grid, load: Rectangle, quantity: str, at: tuple[float, float]) -> float:
    """Extrapolated result of a unit force on `load`; a plate longer than wide is turned, since long lines cost their cube."""
    if case.b > case.a:
        load = Rectangle(load.z_lo, load.z_hi, load.y_lo, load.y_hi)
        return _value(case.turned, Grid(on.z, on.y, on.present.T), load, TURNED[quantity], at[::-1])
    solved = _solved(case, tuple(on.y.tolist()), tuple(on.z.tolist()), load)
    i, j = _node(on, at)
    if quantity == "w":
        coarse, fine = solved.solutions[0].w[i, j, 0], solved.solutions[1].w[2 * i, 2 * j, 0]
        return float(np.asarray(richardson(coarse, fine)))
    field: Array = getattr(solved.better, quantity)
    return float(field[2 * i, 2 * j, 0])


def _node(on: Grid, at: tuple[float, float]) -> tuple[int, int]:
    return int(np.argmin(np.abs(on.y - at[0]))), int(np.argmin(np.abs(on.z - at[1])))
