"""What the maps show: values over the board from the plate, and what lies on it."""

import numpy as np

from transom.board.grid import Rectangle
from transom.checks.careful import Careful
from transom.frozen import dataclass
from transom.judge.records import Judgement
from transom.units import Array


@dataclass(frozen=True)
class Raster:
    """Values over the board on rows of even cells, mm: edges `y` (p+1,) and `z` (q+1,), `values` (p, q); NaN is no board."""

    y: Array
    z: Array
    values: Array


@dataclass(frozen=True)
class Peak:
    """The largest value of a map and where it is."""

    value: float
    y: float
    z: float


@dataclass(frozen=True)
class Fastener:
    """A bolt (or clamp screw) at y, z, what spreads it, and its pull in the case shown, N."""

    name: str
    y: float
    z: float
    plate: Rectangle
    pull: float


NAMES = "ABCDEFGH"


def case_shown(j: Judgement) -> int:
    """The governing case; where no load governs, the one that bends the board most."""
    names = j.cases.names
    if j.governing.case in names:
        return names.index(j.governing.case)
    bent = max((c for c in j.deciding if c.case in names), key=lambda c: (c.utilisation, c.id))
    return names.index(bent.case)


def share_of_limit(plate: Careful) -> Array:
    """Bending with twist over the veneers at every node of the finer grid, worst case of each, (p+1, q+1)."""
    m, there = plate.moments, plate.answer.grid.nodes
    out = np.full(there.shape, np.nan)
    out[there] = plate.stacks.veneer_utilisation(m.Mx, m.My, m.Mxy, plate.k).max(axis=1)
    return out


def deflection(plate: Careful, case: int) -> Array:
    """How far each node of the finer grid goes aft in a case, mm, (p+1, q+1)."""
    a = plate.answer
    return np.where(a.grid.nodes, a.solution.w[..., case], np.nan)


def raster(plate: Careful, nodes: Array, across: int, up: int) -> Raster:
    """Values at nodes on even cells, straight between the nodes."""
    grid = plate.answer.grid
    y, z = np.linspace(grid.y[0], grid.y[-1], across + 1), np.linspace(grid.z[0], grid.z[-1], up + 1)
    y_mid, z_mid = (y[1:] + y[:-1]) / 2, (z[1:] + z[:-1]) / 2
    along = np.array([np.interp(y_mid, grid.y, column) for column in nodes.T])
    return Raster(y, z, np.array([np.interp(z_mid, grid.z, row) for row in along.T]))


def peak(plate: Careful, nodes: Array) -> Peak:
    """The node with the largest size of value; the first of equals."""
    grid = plate.answer.grid
    i, j = np.unravel_index(int(np.nanargmax(np.abs(np.round(nodes, 9)))), nodes.shape)
    return Peak(float(nodes[i, j]), float(grid.y[i]), float(grid.z[j]))


def pressures(plate: Careful, case: int) -> tuple[tuple[Rectangle, float], ...]:
    """Each pad cell and its mean pressure in a case, MPa."""
    a = plate.answer
    return tuple((p.where, float(v)) for p, v in zip(a.seat.pads, a.pressure[:, case], strict=True))


def fasteners(plate: Careful, case: int) -> tuple[Fastener, ...]:
    """Bolts in reading order: upper row, port first."""
    a = plate.answer
    return tuple(
        Fastener(NAMES[n], b.y, b.z, b.plate, float(a.borne.bolts[n, case])) for n, b in enumerate(a.seat.bolts)
    )


def pad_outlines(plate: Careful) -> tuple[Rectangle, ...]:
    """The two pads, whole."""
    cells = [p.where for p in plate.answer.seat.pads]
    sides = ([c for c in cells if c.centre[0] < 0], [c for c in cells if c.centre[0] >= 0])
    return tuple(
        Rectangle(
            min(c.y_lo for c in s), max(c.y_hi for c in s), min(c.z_lo for c in s), max(c.z_hi for c in s)
        )
        for s in sides
        if s
    )  # fmt: skip
