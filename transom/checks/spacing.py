"""How near bolts are to edges, to each other and to holes: wood by EN 1995-1-1, plates by shop rule."""

import numpy as np

from transom.checks.check import check
from transom.checks.patch import half_of
from transom.checks.places import clear_of_backings, edge_of, least_spacing, rim_of
from transom.checks.trial import Trial
from transom.formula import formula
from transom.maths import maximum, minimum
from transom.result import ONCE, CheckArray
from transom.standards.ec3 import practice_edge, practice_pitch
from transom.standards.ec5_spacing import cross_banded_loaded_edge_floor, spacing_along
from transom.units import MM, ONE, Array, Value

EDGE = "EN 1995-1-1:2004, Table 8.4, loaded edge 4 d; cross-banded plywood from 3.5 d with less resistance (convention)"
PITCH = "EN 1995-1-1:2004, Table 8.4, a1 at its largest, 5 d"
EVIDENCE = {EDGE: "convention", PITCH: "published"}
METAL = "1.5 d to an edge and 3 d between holes, common practice; above the floors of EN 1993-1-8 Table 3.3"


@formula(symbol="e", source="edge of a plate about its bolts", evidence="published", known_by="derived")
def least_reach(inner: MM, outer: MM, up: MM, down: MM) -> MM:
    """From a bolt's middle to the nearest edge of its plate."""
    return minimum(minimum(inner, outer), minimum(up, down))


@formula(symbol="l/e", source="a plate against the wood it lies on", evidence="published", known_by="derived")
def share_of_room(reach: MM, room: MM, least: MM = 1e-3) -> ONE:
    """How much of the room on one side a plate takes; over one it hangs off the board or lies on its neighbor."""
    return reach / maximum(room, least)


def _once(
    trial: Trial, what: str, part: str, rule: str, demand: Value, limit: Value, source: str, note: str = "",
    unit: str = "mm",
) -> CheckArray:  # fmt: skip
    return check(trial, what, rule, demand, np.maximum(limit, 0.0), source, unit, part=part, cases=(ONCE,), note=note,
                 evidence=EVIDENCE.get(source, "common practice"),
                 known_by="transcribed" if source in EVIDENCE else "memory")  # fmt: skip


def wood(trial: Trial) -> tuple[CheckArray, CheckArray]:
    """Edge and spacing of the engine bolts in the board, worst angle of the load."""
    d = trial.hardware.d
    return (
        _once(trial, "edge-distance", "engine-bolts", "ec5", cross_banded_loaded_edge_floor(d), edge_of(trial), EDGE,
              "nearest edge, taken as loaded whatever the case (conservative)"),
        _once(trial, "bolt-spacing", "engine-bolts", "ec5", spacing_along(d, 0.0), least_spacing(trial), PITCH),
    )  # fmt: skip


def plates(trial: Trial) -> tuple[CheckArray, ...]:
    """Edge of the backing about its bolts, pitch of the bolts in it, and whether it lies on the board alone.

    A washer is its own edge.
    """
    d = trial.hardware.d
    reaches = [trial.extents(upper=upper) for upper in (True, False)]
    edge = np.min(np.broadcast_arrays(*(least_reach(*reach) for reach in reaches)), axis=0)
    return (
        _once(trial, "plate-edge", "backing", "", practice_edge(d), edge, METAL),
        _once(trial, "plate-pitch", "backing", "", practice_pitch(d), least_spacing(trial), METAL),
        _once(trial, "plate-room", "backing", "", _room_taken(trial), BY_TAPE, "the tape: plate against board and its neighbor",
              "hangs off the board, over the notch, or on the next plate", unit=""),
    )  # fmt: skip


@formula(symbol="y_o", source="outermost edge of washer or plate", evidence="published", known_by="derived")
def outermost(y: MM, half: MM) -> MM:
    """How far from the center line a washer or plate on a bolt at y reaches."""
    return y + half


@formula(symbol="y_f", source="inner edge of flange or upright", evidence="published", known_by="derived")
def clear_inside(span: MM, inset: MM) -> MM:
    """From the center line to the inner edge of what the board lies on."""
    return span / 2.0 - inset


@formula(symbol="z_o", source="lowest edge of washer or plate", evidence="published", known_by="derived")
def lowermost(z: MM, down: MM) -> MM:
    """How deep a washer or plate on a bolt at depth z reaches."""
    return z + down


@formula(symbol="z_f", source="upper edge of a pod's bottom flange", evidence="published", known_by="derived")
def clear_above(z_bottom: MM, inset: MM) -> MM:
    """From the top edge to the upper edge of the bottom flange."""
    return z_bottom - inset


def between_frame(trial: Trial) -> CheckArray:
    """Washers and plates inside lie between the flanges or uprights, and above a pod's bottom flange, which are on the
    same face: the nearer of the two."""
    w, p, place = trial.hardware, trial.setup.holding.pattern, trial.setup.place
    own = half_of(np.where(w.round_, w.outside, w.width))
    reach = np.where(w.per > 0, own, outermost(np.maximum(p.y_u, p.y_l), own))
    room = np.maximum(np.asarray(clear_inside(place.span, place.inset)), LEAST_ROOM)
    if place.kind == "pod":
        down = np.asarray(lowermost(p.z_l, trial.extents(upper=False)[3]))
        above = np.maximum(np.asarray(clear_above(place.z_bottom, place.inset)), LEAST_ROOM)
        lower = np.asarray(share_of_room(down, above)) > np.asarray(share_of_room(reach, room))
        reach, room = np.where(lower, down, reach), np.where(lower, above, room)
    return _once(trial, "plate-between-frame", "backing", "", reach, room,
                 "the tape: plate against flange or upright", "outermost edge of the backing to the inner edge of the frame")  # fmt: skip


LEAST_ROOM = 1e-3  # mm; where nothing is left inside the frame
# Of the room, what no tape tells: bolts 1-7/8 in down stand in the tables as 47.6 mm, and a plate that comes up 47.63 is flush.
BY_TAPE = 1.0015


def _room_taken(trial: Trial) -> Array:
    """The largest share of its room that a plate takes on any side that it does not share, (n, 1)."""
    per, shares = trial.hardware.per, []
    for upper in (True, False):
        reach, room = trial.extents(upper=upper), trial.edges(upper=upper)
        inner, outer, up, down = map(share_of_room, reach, (room.inner, room.outer, room.up, room.down))
        up, down = (up, np.where(per > 1, 0.0, down)) if upper else (np.where(per > 1, 0.0, up), down)
        shares += [np.where(per > 0, 0.0, inner), outer, up, down]
    return np.asarray(np.max(np.broadcast_arrays(*shares), axis=0))


def openings(trial: Trial) -> tuple[CheckArray, ...]:
    """Each hole through the board, as an edge of its own: no nearer a bolt than a loaded edge may be."""
    floor = cross_banded_loaded_edge_floor(trial.hardware.d)
    out = []
    for i, hole in enumerate(trial.setup.job.board.openings, 1):
        rim = rim_of(trial, hole)
        name = hole.what or f"hole {i}"
        out.append(_once(trial, f"opening-{i}", "board", "ec5", floor, rim, EDGE, f"{name}: rim to the nearest bolt"))
    return tuple(out)


def obstructions(trial: Trial) -> tuple[CheckArray, ...]:
    """Each thing behind the board: clear of every plate and washer there."""
    out = []
    for i, thing in enumerate(trial.setup.job.board.obstructions, 1):
        name = thing.what or f"obstruction {i}"
        out.append(
            _once(trial, f"obstruction-{i}", "assembly", "", trial.factor("assembly.clearance_mm"),
                  clear_of_backings(trial, thing), "room for plate and socket, common practice",
                  f"{name}: room left beside the backing"),
        )  # fmt: skip
    return tuple(out)


def checks(trial: Trial) -> tuple[CheckArray, ...]:
    """Everything that is too near, or not."""
    return (*wood(trial), *plates(trial), between_frame(trial), *openings(trial), *obstructions(trial))
