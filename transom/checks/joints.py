"""A bolt through wood and a thin metal wall, whichever joint it is in: what each part of it carries."""

import numpy as np

from transom.formula import formula
from transom.maths import PI, maximum, minimum, positive, sqrt
from transom.setup.records import Bolting, Factors
from transom.standards import adm, ec9
from transom.standards.ec3 import punching_resistance
from transom.standards.ec5 import least_washer_side, least_washer_thickness, round_net_area
from transom.statics.plates import effective_overhang
from transom.units import MM, MM2, MPA, ONE, Array, N, Value

PUNCH = "EN 1993-1-8:2005, Table 3.4, as EN 1999-1-1 Table 8.5; under a washer over 45 degrees from the nut"


@formula(symbol="d_m", source="pressure spreads at 45 degrees through a washer, never past its edge",
         evidence="common practice", known_by="memory")  # fmt: skip
def pressed_diameter(outside: MM, flats: MM, t_w: MM) -> MM:
    """Diameter over which a nut presses through its washer."""
    return minimum(outside, flats + 2 * t_w)


@formula(symbol="D_w", source="a washer works as far from the nut as it is stiff", evidence="convention",
         known_by="derived")  # fmt: skip
def stiff_diameter(outside: MM, flats: MM, m: MM) -> MM:
    """Diameter of a washer that works: its own, or as far as it is stiff."""
    return minimum(outside, flats + 2 * m)


@formula(symbol="sigma_b", source="EN 1995-1-1:2004, 8.5.2(2)", typical={"multiple": 3.0})
def spread_strength(f_c_90: MPA, multiple: ONE) -> MPA:
    """Pressure the face bears: once its strength, or three times where the washer is large and thick enough."""
    return multiple * f_c_90


@formula(symbol="R_d", source="EN 1995-1-1:2004, 8.5.2(2)")
def bearing_force(sigma_b: MPA, A: MM2) -> N:
    """Pull that crushes the wood under a washer."""
    return sigma_b * A


@formula(symbol="A_off", source="a segment is at most pi/4 of the rectangle round it", evidence="published",
         known_by="derived", typical={"D": 50.0, "e": 19.0})  # fmt: skip
def cut_off(D: MM, e: MM) -> MM2:
    """Area of a circle that lies past a line at e from its middle; never less than it is."""
    return PI / 2.0 * positive(D / 2.0 - e) * sqrt(positive(D * D / 4.0 - e * e))


@formula(
    symbol="A_net", source="what lies past the board's edge bears nothing", evidence="published", known_by="derived"
)
def area_on_board(A: MM2, past_edge: MM2) -> MM2:
    """Area of a washer that has wood under it."""
    return positive(A - past_edge)


@formula(symbol="D_w", source="washers side by side share no wood", evidence="published", known_by="derived")
def up_to_next(D: MM, pitch: MM) -> MM:
    """Diameter of a washer that has wood of its own."""
    return minimum(D, pitch)


def washer_on_wood(b: Bolting, f_c_90_d: Value, gamma_M1: float, f_y: float, edge: Value, pitch: Value) -> Array:
    """Pull that crushes the wood under the bolts' washers, N; a plate washer counts as the circle in it.

    `edge` is from the bolt to the board's edge, `pitch` to the next bolt, mm: what lies beyond bears nothing.
    """
    good = (b.washer >= least_washer_side(b.d)) & (b.washer_t >= least_washer_thickness(b.d))
    sigma = spread_strength(f_c_90_d, np.where(good, 3.0, 1.0))
    stiff = stiff_diameter(b.washer, b.flats, effective_overhang(b.washer_t, f_y, sigma, gamma_M1))
    D = up_to_next(stiff, pitch)
    return np.asarray(bearing_force(sigma, area_on_board(round_net_area(D, b.hole), cut_off(D, edge))))


def punching(b: Bolting, t: Value, f_u: Value, gamma_M2: float) -> Array:
    """Pull at which a nut with its washer punches through a wall t thick, N."""
    return np.asarray(punching_resistance(pressed_diameter(b.washer, b.flats, b.washer_t), t, f_u, gamma_M2))


def pull_over(b: Bolting, t: Value, f_u: Value, phi: float) -> Array:
    """Pull at which a thin wall tears over the washer, design value, N."""
    D = pressed_diameter(b.washer, b.flats, b.washer_t)
    return np.asarray(adm.design_strength(adm.pull_over_strength(t, f_u, maximum(D, b.hole), b.hole), phi))


def wall_bearing(b: Bolting, t: Value, f_u: Value, edge: Value, pitch: Value, factors: Factors) -> Array:
    """Force along a wall at which a bolt bears or tears out, EN 1999-1-1 Table 8.5, N."""
    alpha_d = minimum(ec9.end_bolt_alpha(edge, b.hole), ec9.inner_bolt_alpha(pitch, b.hole))
    alpha = ec9.bearing_alpha(positive(alpha_d), b.f_ub, f_u)
    k_1 = positive(minimum(ec9.edge_bolt_k(edge, b.hole), ec9.inner_bolt_k(pitch, b.hole)))
    return np.asarray(ec9.bearing_resistance(k_1, alpha, f_u, b.d, t, factors.gamma_M2))
