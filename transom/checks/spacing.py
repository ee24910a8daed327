"""How near bolts are to edges, to each other and to holes: wood by EN 1995-1-1, plates by shop rule."""

import numpy as np

from transom.checks.patch import half_of
from transom.checks.sideways import bottom_edge, edge_of, offset, pair_pitch
from transom.checks.trial import Trial
from transom.formula import formula
from transom.job.records import Hole
from transom.maths import minimum, sqrt
from transom.result import ONCE, CheckArray
from transom.standards.ec3 import practice_edge, practice_pitch
from transom.standards.ec5_spacing import cross_banded_loaded_edge_floor, spacing_along
from transom.units import MM, Array, Value

EDGE = "EN 1995-1-1:2004, Table 8.4, loaded edge 4 d; cross-banded plywood from 3.5 d with less resistance (convention)"
PITCH = "EN 1995-1-1:2004, Table 8.4, a1 at its largest, 5 d"
METAL = "1.5 d to an edge and 3 d between holes, common practice; above the floors of EN 1993-1-8 Table 3.3"


@formula(symbol="r", source="Pythagoras", evidence="published", known_by="derived")
def distance(dy: MM, dz: MM) -> MM:
    """Distance between two points of the board."""
    return sqrt(dy * dy + dz * dz)


@formula(symbol="c", source="clear of a round hole", evidence="published", known_by="derived",
         typical={"r": 90.0, "D": 25.0})  # fmt: skip
def to_rim(r: MM, D: MM) -> MM:
    """From a bolt's middle to the rim of an opening."""
    return r - D / 2.0


@formula(symbol="c", source="clear of the backing's own reach", evidence="published", known_by="derived",
         typical={"rim": 90.0, "reach": 25.0})  # fmt: skip
def clear_of_backing(rim: MM, reach: MM) -> MM:
    """Room between the backing and the rim of an obstruction."""
    return rim - reach


def _once(what: str, part: str, rule: str, demand: Value, limit: Value, source: str, note: str = "") -> CheckArray:
    return CheckArray(
        part=part,
        what=what,
        rule=rule,
        method="hand",
        unit="mm",
        source=source,
        evidence="published" if rule == "ec5" else "common practice",
        known_by="transcribed" if rule == "ec5" else "memory",
        cases=(ONCE,),
        demand=np.atleast_2d(np.asarray(demand, dtype=float)),
        resistance=np.atleast_2d(np.maximum(np.asarray(limit, dtype=float), 0.0)),
        note=note,
    )


def _nearest_bolts(trial: Trial) -> Value:
    p = trial.setup.holding.pattern
    apart = bottom_edge(p.z_l, p.z_u)
    return minimum(minimum(pair_pitch(p.y_u), pair_pitch(p.y_l)), distance(offset(p.y_u, p.y_l), apart))


def wood(trial: Trial) -> tuple[CheckArray, CheckArray]:
    """Edge and spacing of the engine bolts in the board, worst angle of the load."""
    d = trial.hardware.d
    return (
        _once("edge-distance", "engine-bolts", "ec5", cross_banded_loaded_edge_floor(d), edge_of(trial), EDGE,
              "nearest edge, taken as loaded whatever the case (conservative)"),
        _once("bolt-spacing", "engine-bolts", "ec5", spacing_along(d, 0.0), _nearest_bolts(trial), PITCH),
    )  # fmt: skip


def plates(trial: Trial) -> tuple[CheckArray, CheckArray]:
    """Edge of the backing about its bolt, and pitch of the bolts in it. A washer is its own edge."""
    w = trial.hardware
    edge = np.where(w.round_, half_of(w.outside), half_of(np.minimum(w.width, w.height)))
    return (
        _once("plate-edge", "backing", "", practice_edge(w.d), edge, METAL),
        _once("plate-pitch", "backing", "", practice_pitch(w.d), _nearest_bolts(trial), METAL),
    )


def _bolts(trial: Trial) -> tuple[Array, Array]:
    h = trial.setup.holding
    return np.asarray(h.bolt_y), -np.asarray(h.bolt_z)


def _nearest(y: Array, down: Array, hole: Hole) -> Array:
    """From the middle of a hole to the nearest bolt's."""
    return np.asarray(np.min(np.asarray(distance(offset(y, hole.y), offset(down, hole.down))), axis=-1))


def openings(trial: Trial) -> tuple[CheckArray, ...]:
    """Each hole through the board, as an edge of its own: no nearer a bolt than a loaded edge may be."""
    y, down = _bolts(trial)
    floor = cross_banded_loaded_edge_floor(trial.hardware.d)
    out = []
    for i, hole in enumerate(trial.setup.job.board.openings, 1):
        rim = to_rim(_nearest(y, down, hole), hole.diameter)
        name = hole.what or f"hole {i}"
        out.append(_once(f"opening-{i}", "board", "ec5", floor, rim, EDGE, f"{name}: rim to the nearest bolt"))
    return tuple(out)


def obstructions(trial: Trial) -> tuple[CheckArray, ...]:
    """Each thing behind the board: clear of the nut's washer or plate about the nearest bolt.

    The backing is taken as a circle about the bolt of its larger half side (conservative for a plate's side).
    """
    y, down = _bolts(trial)
    w = trial.hardware
    reach = np.where(w.round_, half_of(w.outside), half_of(np.maximum(np.minimum(w.width, w.height), w.outside)))
    out = []
    for i, thing in enumerate(trial.setup.job.board.obstructions, 1):
        rim = to_rim(_nearest(y, down, thing), thing.diameter)
        name = thing.what or f"obstruction {i}"
        out.append(
            _once(f"obstruction-{i}", "assembly", "", trial.factor("assembly.clearance_mm"), clear_of_backing(rim, reach),
                  "room for plate and socket, common practice", f"{name}: room left beside the backing"),
        )  # fmt: skip
    return tuple(out)


def checks(trial: Trial) -> tuple[CheckArray, ...]:
    """Everything that is too near, or not."""
    return (*wood(trial), *plates(trial), *openings(trial), *obstructions(trial))
