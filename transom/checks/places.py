"""Where bolts, plates, holes and edges lie to one another, every bolt of the pattern on its own."""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from transom.checks import wood_about
from transom.checks.patch import half_of
from transom.checks.trial import Trial
from transom.formula import formula
from transom.job.records import Hole
from transom.maths import absolute, maximum, minimum, positive, sqrt
from transom.units import MM, Array, Value

TOUCHING = 1e-3  # mm; stands for no distance at all where something is divided by it


@formula(symbol="e", source="nearest edge of the board", evidence="published", known_by="derived")
def nearest_edge(top: MM, side: MM, bottom: MM) -> MM:
    """Smallest distance from a bolt's middle to an edge of the board."""
    return minimum(minimum(top, side), bottom)


@formula(symbol="e", source="distance to the board's edge", evidence="published", known_by="derived")
def side_edge(W: MM, y: MM) -> MM:
    """Distance from a bolt at y, on either side, to the nearer side edge."""
    return W / 2.0 - absolute(y)


@formula(symbol="e", source="distance to the board's edge", evidence="published", known_by="derived")
def bottom_edge(H: MM, z: MM) -> MM:
    """Distance from a bolt at depth z to the bottom edge."""
    return H - z


@formula(symbol="s", source="offset of two bolts", evidence="published", known_by="derived")
def offset(y_1: MM, y_2: MM) -> MM:
    """How far two bolts are out of line."""
    return absolute(y_1 - y_2)


@formula(symbol="r", source="Pythagoras", evidence="published", known_by="derived")
def distance(dy: MM, dz: MM) -> MM:
    """Distance between two points of the board."""
    return sqrt(dy * dy + dz * dz)


@formula(symbol="c", source="clear of a round hole", evidence="published", known_by="derived",
         typical={"r": 90.0, "D": 25.0})  # fmt: skip
def to_rim(r: MM, D: MM) -> MM:
    """From a point to the rim of an opening."""
    return r - D / 2.0


@formula(symbol="s", source="how far a point lies past a rectangle's side", evidence="published", known_by="derived")
def past(x: MM, ahead: MM, behind: MM) -> MM:
    """Distance of x outside the stretch from -behind to +ahead; zero within it."""
    return positive(x - ahead) + positive(-x - behind)


@formula(symbol="x", source="position from a point", evidence="published", known_by="derived")
def seen_from(x: MM, origin: MM) -> MM:
    """Position measured from a point."""
    return x - origin


def bolts(trial: Trial) -> tuple[Array, Array]:
    """Across and down of every engine bolt, (b,) or (n, 1, b)."""
    h = trial.setup.holding
    return np.asarray(h.bolt_y), -np.asarray(h.bolt_z)


def edge_of(trial: Trial) -> Array:
    """Smallest edge distance of any engine bolt, mm; the top notch and cut corners, as rectangles, are edges too."""
    y, down = bolts(trial)
    place = trial.setup.place
    W, H = (np.asarray(x)[..., None] for x in (place.width, place.height))
    edge = nearest_edge(down, side_edge(W, y), bottom_edge(H, down))
    if place.notch_width and place.notch_depth:
        half = half_of(place.notch_width)
        edge = minimum(edge, distance(past(y, half, half), past(down, place.notch_depth, 0.0)))
    side, at = np.abs(y), replace(place, width=W, height=H)
    for corner in (wood_about.top_corner(at, side, down), wood_about.bottom_corner(at, side, down)):
        if corner is not None:
            edge = minimum(edge, distance(corner.aside, corner.away))
    return np.asarray(np.min(edge, axis=-1))


def rim_of(trial: Trial, hole: Hole) -> Array:
    """From the middle of the nearest bolt to the rim of a hole, mm."""
    y, down = bolts(trial)
    nearest = np.min(np.asarray(distance(offset(y, hole.y), offset(down, hole.down))), axis=-1)
    return np.asarray(to_rim(nearest, hole.diameter))


def edge_or_rim(trial: Trial) -> Array:
    """Smallest distance of any bolt to an edge or to the rim of an opening, never below a thousandth of a millimeter."""
    least = edge_of(trial)
    for hole in trial.setup.job.board.openings:
        least = np.asarray(minimum(least, rim_of(trial, hole)))
    return np.asarray(maximum(least, TOUCHING))


def least_spacing(trial: Trial) -> Array:
    """Smallest distance between any two engine bolts, mm."""
    y, down = bolts(trial)
    i, j = np.triu_indices(y.shape[-1], 1)
    apart = distance(offset(y[..., i], y[..., j]), offset(down[..., i], down[..., j]))
    return np.asarray(np.min(np.asarray(apart), axis=-1))


Box = tuple[Value, Value, Value, Value, Value, Value]


def backings(trial: Trial) -> Iterator[Box]:
    """Every plate or washer as rectangles: across, down, and how far they reach to port, starboard, up, down.

    A plate over several bolts comes in pieces that meet; a washer as the square about it (conservative).
    """
    p, w = trial.setup.holding.pattern, trial.hardware
    for upper, y, z in ((True, p.y_u, p.z_u), (False, p.y_l, p.z_l)):
        inner, outer, up, down = trial.extents(upper=upper)
        yield y, z, inner, outer, up, down
        yield -np.asarray(y), z, outer, inner, up, down
    own_x, own_z = (np.where(w.per > 0, 0.0, half_of(side)) for side in (w.width, w.height))
    y_all, down_all = bolts(trial)
    for i in range(y_all.shape[-1]):
        yield y_all[..., i], down_all[..., i], own_x, own_x, own_z, own_z


def clear_of_backings(trial: Trial, thing: Hole) -> Array:
    """Room between a round thing and the nearest plate or washer, mm; negative where they meet."""
    rooms = [
        to_rim(
            distance(past(seen_from(thing.y, y), starboard, port), past(seen_from(thing.down, z), below, above)),
            thing.diameter,
        )
        for y, z, port, starboard, above, below in backings(trial)
    ]
    return np.asarray(np.min(np.broadcast_arrays(*rooms), axis=0))
