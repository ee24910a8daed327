"""What holds the board along each of its lines, node by node, out of a solved plate."""

import numpy as np
from numpy.typing import NDArray

from transom.board.answer import Answer
from transom.board.grid import Rectangle
from transom.formula import formula
from transom.frozen import dataclass
from transom.maths import maximum, minimum
from transom.units import MM, Array


@formula(symbol="w_i", source="linear between two places of the plate's grid", known_by="derived",
         typical={"at": 5.0, "a_0": 4.0, "a_1": 8.0})  # fmt: skip
def travel_between(at: MM, a_0: MM, a_1: MM, w_0: MM, w_1: MM, least: MM = 1e-6) -> MM:
    """Travel of the edge at a depth between two places, or beside the only one."""
    return w_0 + (w_1 - w_0) * minimum(maximum((at - a_0) / maximum(a_1 - a_0, least), 0.0), 1.0)


@dataclass(frozen=True)
class EdgeLine:
    """A line that holds the board, node by node (k).

    `places` (k, 2) y and z, `along` (k,) mm down a side or across to starboard, rising. `pull` (k, v) N holds the
    board back from going aft, negative: from going forward. `edge` (k, v) mm is how far the board's own edge beside
    each node moves aft, `overhang` mm how far beyond the line it lies. Of a line along the edge itself with its bolts
    deeper: how far the edge would move were the board held at their depth, and that depth.
    """

    places: Array
    along: Array
    pull: Array
    edge: Array
    overhang: float


def edge_line(answer: Answer, line: Rectangle, deep: float = 0.0) -> EdgeLine:
    """A line up the board or across it, on the answer's finest grid; `deep` mm below it lie its bolts."""
    g, borne, units = answer.grid, answer.borne, answer.seated[-1].units
    upright = line.y_lo == line.y_hi
    i, j = np.nonzero(g.on_line(line))
    along = np.negative(g.z[j]) if upright else g.y[i]
    order = np.argsort(along)
    i, j = i[order], j[order]
    pull = np.negative(units.at("reaction", i, j) @ borne.forces)
    places = np.stack([g.y[i], g.z[j]], axis=-1)
    if deep:
        return EdgeLine(places, along[order], pull, np.negative(_moves_below(answer, i, deep)), deep)
    if upright:
        edge = np.full_like(i, _nearer_end(g.y, line.y_lo)), j
        overhang = np.abs(np.subtract(g.y[edge[0][0]], line.y_lo))
    else:
        edge = i, np.full_like(j, _nearer_end(g.z, line.z_lo))
        overhang = np.abs(np.subtract(g.z[edge[1][0]], line.z_lo))
    travel = units.at("w", *edge) @ borne.forces
    return EdgeLine(places, along[order], pull, travel, float(overhang))


def _moves_below(answer: Answer, i: NDArray[np.int_], deep: float) -> Array:
    """How far the board moves aft so deep below its top edge at the grid's lines i, (k, v); straight between nodes."""
    g, units, forces = answer.grid, answer.seated[-1].units, answer.borne.forces
    z = float(np.negative(deep))
    n = int(np.searchsorted(g.z[1:-1], z))
    rows = (np.full_like(i, n), np.full_like(i, np.add(n, 1)))
    low, high = (units.at("w", i, j) @ forces for j in rows)
    return np.asarray(travel_between(z, float(g.z[rows[0][0]]), float(g.z[rows[1][0]]), low, high))


def _nearer_end(stations: Array, x: float) -> int:
    """Place of the end of a grid's stations nearer to x."""
    return 0 if abs(np.subtract(stations[0], x)) <= abs(np.subtract(stations[-1], x)) else len(stations[1:])
