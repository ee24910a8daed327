"""The engine on the trailer: inertia over the sweep of tilt, and the strut that may carry its share."""

from itertools import product
from math import ceil

import numpy as np

from transom.frozen import dataclass
from transom.loads.actions import Action, Situation
from transom.loads.crossing import inertia_force
from transom.loads.geometry import arm, height, tilt_angle
from transom.loads.inertia import strut_force
from transom.loads.inputs import LoadInputs
from transom.loads.situations import Point, tilted
from transom.units import Array, Value

TILT_STEP = 10  # degrees; halfway between two steps a pull is 1 - cos(5 deg) = 0.4 % off at most
VERTICAL = {"down": -1.0, "up": 1.0}
ALONG = {"forward": -1.0, "rearward": 1.0, "starboard": 0.0, "port": 0.0}
ACROSS = {"forward": 0.0, "rearward": 0.0, "starboard": 1.0, "port": -1.0}
HEIGHTS = {"-low": -1.0, "-mid": 0.0, "-high": 1.0}


@dataclass(frozen=True)
class RoadRows:
    """The cases on the trailer, as columns of numbers (v,)."""

    names: tuple[str, ...]
    up: Array
    along: Array
    across: Array
    tilt: Array
    height: Array


def tilt_steps(x: LoadInputs) -> tuple[int, ...]:
    """Whole degrees of tilt from the least to the full one; arrays of tilts share the widest sweep."""
    least, full = (np.degrees(v) for v in (np.min(x.tilt_from_rad), np.max(x.tilt_to_rad)))
    last = ceil(round(float(full), 6))
    return (*range(round(float(least)), last, TILT_STEP), last)


def rows_of(x: LoadInputs) -> RoadRows:
    """Down or up with each direction, every tilt, and every height the centre of gravity may have."""
    heights = HEIGHTS if np.any(np.asarray(x.dz_cg) > 0) else {"": 0.0}
    rows = [
        (f"road-{v}-{d}-{tilt}{h}", VERTICAL[v], ALONG[d], ACROSS[d], np.radians(tilt), heights[h])
        for v, d, tilt, h in product(VERTICAL, ALONG, tilt_steps(x), heights)
    ]
    names, *numbers = zip(*rows, strict=True)
    return RoadRows(names, *(np.array(n, dtype=float) for n in numbers))


def inertia(x: LoadInputs, m: Value, rows: RoadRows, at: Point, whose: str) -> Action:
    """Inertia of a mass m (kg) at its centre of gravity; gravity is inside the vertical part."""
    force = (
        inertia_force(m, np.where(rows.along < 0, x.road_forward_g, x.road_rearward_g), rows.along),
        inertia_force(m, x.road_sideways_g, rows.across),
        inertia_force(m, np.where(rows.up < 0, x.road_down_g, x.road_up_g), rows.up),
    )
    return Action(f"{whose}inertia", force, at, x.gamma_F)


def strut(x: LoadInputs, pressing: Action, rows: RoadRows, phi: Value) -> Action:
    """What an upright strut under the propeller shaft carries of the downward inertia."""
    foot = tilted(x.engine, x.x_steer, x.z_prop, phi)
    F_x, _, F_z = pressing.force
    X, _, Z = pressing.point
    share = strut_force(np.abs(F_z), F_x, arm(X, x.x_tilt), arm(Z, x.z_tilt), arm(foot[0], x.x_tilt))
    return Action("strut", (0.0, 0.0, np.where(rows.up < 0, share, 0.0)), foot, x.gamma_F)


def road(x: LoadInputs) -> Situation:
    """Every case on the trailer; no thrust, and no light engine, since everything grows with its mass."""
    rows = rows_of(x)
    phi = tilt_angle(np.maximum(rows.tilt, x.tilt_from_rad), x.tilt_to_rad)
    main = inertia(x, x.mass_kg, rows, tilted(x.engine, x.x_cg, height(x.z_cg, x.dz_cg, rows.height), phi), "")
    actions = [main, strut(x, main, rows, phi)] if x.strut else [main]
    if x.kicker:
        at = tilted(x.kicker, x.kicker.x_cg, x.kicker.z_cg, phi)
        actions.append(inertia(x, x.kicker.mass_kg, rows, at, "kicker-"))
    if x.bracket:
        actions.append(inertia(x, x.bracket.mass_kg, rows, (x.bracket.x_cg, 0.0, x.bracket.z_cg), "bracket-"))
    return Situation("road", rows.names, "instantaneous", tuple(actions), x.gamma_F, x.gamma_F)
