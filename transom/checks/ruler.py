"""The ruler check: how far a stated push moves the top edge, to hold a ruler against on the finished job.

The board alone is asked: frame and engine are taken as rigid, so that what a ruler shows beyond the board's
own give comes from the frame, its fasteners or wood that is not what the tables say. Stiffness is the
tables' mean, which is 0.7 of clear wood: a sound board moves rather less.
"""

from dataclasses import replace

import numpy as np

from transom.board.answer import on_one_grid
from transom.board.grid import Rectangle
from transom.checks.careful import Careful
from transom.checks.instead import is_bonded
from transom.formula import formula
from transom.frozen import dataclass
from transom.loads.crossing import weight
from transom.loads.geometry import moment_y
from transom.statics.wrench import board_actions, turned
from transom.units import MM, ONE, N

PUSH = {"us": 81.6466266, "si": 80.0}  # kg; 180 lb, and a round figure beside it: somebody's weight
STEP = 30.0  # mm, of one grid: within a percent of two finer ones


@formula(symbol="x_p", source="the propeller turns about one radius aft of the steering axis", evidence="estimate",
         known_by="memory")  # fmt: skip
def push_aft(x_s: MM, D: MM) -> MM:
    """How far aft of the bracket face somebody stands on the anti-ventilation plate: over the propeller."""
    return x_s + D / 2


@formula(symbol="-F", source="statics", known_by="derived")
def opposite(F: N) -> N:
    """A force the other way: a weight along z, a push forward along x."""
    return -F


@formula(symbol="w_stop", source="half as much again as predicted", evidence="convention", known_by="derived",
         typical={"times": 1.5})  # fmt: skip
def stop_and_look(w: MM, times: ONE = 1.5) -> MM:
    """Movement from which something other than the board gives; to be rounded up to a mark on the ruler."""
    return times * w


@dataclass(frozen=True)
class Ruler:
    """A push and what it moves: `mass` kg and its weight `push` N, straight down, `at` mm aft of the datum (level).

    `moves` mm is how far the board goes square to itself, on the center line `down` mm below its top edge,
    against the lines that hold it: at the top edge, but under a cap rail, which holds that, where it moves most.
    `limit` mm is the movement at which to stop and look, before it is rounded to a mark.
    """

    mass: float
    push: float
    at: float
    down: float
    moves: float
    limit: float


def ruler(careful: Careful, mass: float, propeller: float) -> Ruler:
    """The movement under a mass (kg) on the anti-ventilation plate, leg down, by the plate method.

    `propeller` mm is the propeller's diameter. The engine's weight hangs on the board before and after;
    contact is the same with it, so that the push alone gives the difference.

    Raises:
        JobError: pads and bolts that cannot carry the push.
    """
    push = float(np.asarray(weight(mass)))
    x = float(np.ravel(push_aft(careful.setup.loads.x_steer, propeller))[0])
    down, moves = movement(careful, push, x)
    return Ruler(mass, push, x, down, moves, float(np.asarray(stop_and_look(moves))))


def movement(careful: Careful, push: float, x: float) -> tuple[float, float]:
    """Depth of the point to measure and how far it moves, mm, under a push (N) straight down, x mm aft of the datum."""
    F_z = opposite(push)
    level = np.array([[0.0, 0.0, F_z, 0.0, moment_y(x, 0.0, 0.0, F_z, 0.0), 0.0]])
    a = board_actions(turned(level, float(np.ravel(careful.setup.loads.lean_rad)[0])), careful.t)
    wrench = np.stack([np.ravel(v) for v in (opposite(a.N), a.M, a.M_z)], axis=-1)
    # Bonded plates count here alone: what lets go moves more, and is found.
    board = replace(careful, target=STEP, two_grids=False, glued=is_bonded(careful)).board
    found = on_one_grid(board, wrench, ["ruler check"])
    # Where a notch is cut its floor is the edge.
    there = found.grid.z[found.grid.on_line(Rectangle(0.0, 0.0, *found.grid.z[[0, -1]])).any(axis=0)]
    heights = there if careful.setup.place.kind == "cap rail" else there[-1:]
    w = [float(found.mean(found.solution.w, Rectangle(0.0, 0.0, z, z))[0]) for z in heights]
    most = int(np.argmax(np.abs(w)))
    return abs(float(heights[most])), abs(w[most])
