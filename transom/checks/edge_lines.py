"""What holds the board along each of its lines, node by node, out of a solved plate."""

import numpy as np

from transom.board.answer import Answer
from transom.board.grid import Rectangle
from transom.frozen import dataclass
from transom.units import Array


@dataclass(frozen=True)
class EdgeLine:
    """A line that holds the board, node by node (k).

    `places` (k, 2) y and z, `along` (k,) mm down a side or across to starboard, rising. `pull` (k, v) N holds the
    board back from going aft, negative: from going forward. `edge` (k, v) mm is how far the board's own edge beside
    each node moves aft, `overhang` mm how far beyond the line it lies.
    """

    places: Array
    along: Array
    pull: Array
    edge: Array
    overhang: float


def edge_line(answer: Answer, line: Rectangle) -> EdgeLine:
    """A line up the board or across it, on the answer's finest grid."""
    g, borne, units = answer.grid, answer.borne, answer.seated[-1].units
    upright = line.y_lo == line.y_hi
    i, j = np.nonzero(g.on_line(line))
    along = np.negative(g.z[j]) if upright else g.y[i]
    order = np.argsort(along)
    i, j = i[order], j[order]
    if upright:
        edge = np.full_like(i, _nearer_end(g.y, line.y_lo)), j
        overhang = np.abs(np.subtract(g.y[edge[0][0]], line.y_lo))
    else:
        edge = i, np.full_like(j, _nearer_end(g.z, line.z_lo))
        overhang = np.abs(np.subtract(g.z[edge[1][0]], line.z_lo))
    pull = np.negative(units.at("reaction", i, j) @ borne.forces)
    travel = units.at("w", *edge) @ borne.forces
    return EdgeLine(np.stack([g.y[i], g.z[j]], axis=-1), along[order], pull, travel, float(overhang))


def _nearer_end(stations: Array, x: float) -> int:
    """Place of the end of a grid's stations nearer to x."""
    return 0 if abs(np.subtract(stations[0], x)) <= abs(np.subtract(stations[-1], x)) else len(stations[1:])
