"""Points and directions of an engine steered and tilted, in level axes, and the turn into the board's.

Level axes from the datum (centreline, aft face, top edge of the board): x aft, y starboard, z up. The
steering angle delta is positive when the boat turns to starboard: what lies aft of the steering axis, the
propeller with it, swings to starboard and the thrust points to port.
"""

from transom.formula import formula
from transom.maths import PI, cos, minimum, sin, total
from transom.units import MM, N_MM, N_MMS, NS, ONE, ONES, RAD, N

TURN = "statics, rotation about a vertical axis"
TILT = "statics, rotation about the tilt axis"
MOMENT = "statics, M = r x F"


@formula(symbol="delta", source="sweep of the steering", known_by="derived")
def steering_angle(stop: RAD, share: ONE) -> RAD:
    """Steering angle at a share of the stop; a negative share turns the boat to port."""
    return stop * share


@formula(symbol="k", source="sweep of the steering", known_by="derived")
def steps_to(stop: RAD, step: RAD) -> ONE:
    """How many steps reach the stop, not yet rounded up."""
    return stop / step


@formula(symbol="k/n", source="sweep of the steering", known_by="derived")
def share_of(k: ONE, steps: ONE) -> ONE:
    """Share of the stop that k of so many equal steps reach."""
    return k / steps


@formula(symbol="delta'", source="geometry", known_by="derived")
def turned_round(delta: RAD) -> RAD:
    """Angle of an engine that is turned round to push astern, delta short of straight back."""
    return PI - delta


@formula(symbol="phi", source="sweep of the tilt", known_by="derived")
def tilt_angle(step: RAD, tilt_to: RAD) -> RAD:
    """Tilt of a step of the sweep, which ends at full tilt."""
    return minimum(step, tilt_to)


@formula(symbol="x", source=TURN, known_by="derived")
def steered_x(x_s: MM, x: MM, delta: RAD) -> MM:
    """Distance aft of a point of the engine when it is steered about the axis at x_s."""
    return x_s + (x - x_s) * cos(delta)


@formula(symbol="y", source=TURN, known_by="derived")
def steered_y(x_s: MM, x: MM, y_0: MM, delta: RAD) -> MM:
    """Distance to starboard of a point of an engine on the line y_0, steered about the axis at x_s."""
    return y_0 + (x - x_s) * sin(delta)


@formula(symbol="T_x", source=TURN, known_by="derived")
def thrust_x(T: N, delta: RAD) -> N:
    """Aft component of a thrust that pushes the boat ahead when positive."""
    return -T * cos(delta)


@formula(symbol="T_y", source=TURN, known_by="derived")
def thrust_y(T: N, delta: RAD) -> N:
    """Starboard component of a thrust along an engine that is steered by delta."""
    return -T * sin(delta)


@formula(symbol="Q_x", source=TURN, known_by="derived", typical={"hand": 1.0})
def torque_x(Q: N_MM, hand: ONE, delta: RAD) -> N_MM:
    """Torque reaction about the aft axis: positive for a right-hand propeller (hand +1), negative for -1."""
    return hand * Q * cos(delta)


@formula(symbol="Q_y", source=TURN, known_by="derived", typical={"hand": 1.0})
def torque_y(Q: N_MM, hand: ONE, delta: RAD) -> N_MM:
    """Torque reaction about the starboard axis, of a propeller shaft steered by delta."""
    return hand * Q * sin(delta)


@formula(symbol="r", source="geometry", known_by="derived")
def arm(x: MM, x_0: MM) -> MM:
    """Distance of a point from an axis, along one direction."""
    return x - x_0


@formula(symbol="z", source="the height is known only within +- dz", known_by="derived")
def height(z: MM, dz: MM, sense: ONE) -> MM:
    """Height of a point that may lie dz above (sense +1) or below (-1) where it is taken to be."""
    return z + sense * dz


@formula(symbol="x'", source=TILT, known_by="derived")
def tilted_x(x_t: MM, r_x: MM, r_z: MM, phi: RAD) -> MM:
    """Distance aft of a point (r_x, r_z) from the tilt axis; raised, its head swings forward."""
    return x_t + r_x * cos(phi) - r_z * sin(phi)


@formula(symbol="z'", source=TILT, known_by="derived")
def tilted_z(z_t: MM, r_x: MM, r_z: MM, phi: RAD) -> MM:
    """Height of a point (r_x, r_z) from the tilt axis when the engine is tilted by phi."""
    return z_t + r_x * sin(phi) + r_z * cos(phi)


@formula(symbol="M_x", source=MOMENT, known_by="derived")
def moment_x(y: MM, z: MM, F_y: N, F_z: N, C: N_MM) -> N_MM:
    """Moment about the aft axis of a force at (y, z), and a couple C."""
    return y * F_z - z * F_y + C


@formula(symbol="M_y", source=MOMENT, known_by="derived")
def moment_y(x: MM, z: MM, F_x: N, F_z: N, C: N_MM) -> N_MM:
    """Moment about the starboard axis of a force at (x, z), and a couple C; positive pulls the top aft."""
    return z * F_x - x * F_z + C


@formula(symbol="M_z", source=MOMENT, known_by="derived")
def moment_z(x: MM, y: MM, F_x: N, F_y: N) -> N_MM:
    """Moment about the upward axis of a force at (x, y)."""
    return x * F_y - y * F_x


@formula(symbol="F", source="statics; partial factors of EN 1990, 6.4.3", known_by="derived")
def resultant_force(gamma: ONES, F: NS) -> N:
    """Sum of the forces that act together, each times its factor; over the last axis."""
    return total(gamma * F)


@formula(symbol="M", source="statics; partial factors of EN 1990, 6.4.3", known_by="derived")
def resultant_moment(gamma: ONES, M: N_MMS) -> N_MM:
    """Sum of the moments that act together, each times its factor; over the last axis."""
    return total(gamma * M)


@formula(symbol="F", source="the shop's own case", evidence="stated", known_by="derived",
         typical={"times": 1.2})  # fmt: skip
def scaled_force(times: ONE, F: N) -> N:
    """A force of the shop's own case: so many times that of the case it is like."""
    return times * F


@formula(symbol="C", source="the shop's own case", evidence="stated", known_by="derived",
         typical={"times": 1.2})  # fmt: skip
def scaled_couple(times: ONE, C: N_MM) -> N_MM:
    """A couple of the shop's own case: so many times that of the case it is like."""
    return times * C
