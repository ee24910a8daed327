"""What acts in each situation: thrust, torque reaction, weight, inertia, a strut.

Every variant is a case of its own: which way the boat turns, how far, the hand of the propeller, the tilt
and the height of the centre of gravity on the trailer, the weight heavy (it adds) or light (it relieves).
"""

from collections.abc import Iterable, Iterator
from itertools import product
from math import ceil, radians

import numpy as np
from numpy.typing import NDArray

from transom.frozen import dataclass
from transom.loads.actions import Action, Situation
from transom.loads.crossing import inertia_force, weight
from transom.loads.geometry import (
    arm,
    share_of,
    steered_x,
    steered_y,
    steering_angle,
    steps_to,
    thrust_x,
    thrust_y,
    tilted_x,
    tilted_z,
    torque_x,
    torque_y,
    turned_round,
)
from transom.loads.inputs import BracketLoads, EngineLoads, LoadInputs
from transom.loads.thrust import thrust_times
from transom.units import Array, Value

WIDEST_STEP = radians(20.0)  # between steering angles; halfway the thrust is 1 - cos(10 deg) = 1.5 % off
SIDES = {"starboard": 1.0, "port": -1.0}
HANDS = {"": 1.0, "-left-hand": -1.0}
WEIGHTS = {"": False, "-light": True}


@dataclass(frozen=True)
class Rows:
    """The cases of one engine under thrust, as columns of numbers (v,).

    Share of the stop (port negative), hand of the propeller (+1 right, -1 left, 0 left out), and whether
    the weight is the light one.
    """

    names: tuple[str, ...]
    share: Array
    hand: Array
    light: NDArray[np.bool_]


Row = tuple[str, float, float, bool]


def as_rows(rows: Iterable[Row]) -> Rows:
    """Columns from rows of name, share, hand, light."""
    names, share, hand, light = zip(*rows, strict=True)
    return Rows(names, np.array(share), np.array(hand), np.array(light))


def straight(of: str) -> tuple[Row, ...]:
    """Steered straight; the torque reaction belongs to the steered cases."""
    return tuple((f"{of}{w}", 0.0, 0.0, light) for w, light in WEIGHTS.items())


def sweep(of: str, stop: Value) -> Iterator[Row]:
    """Both sides, hands and weights, from the stop down in equal steps: a pull can peak short of the stop.

    Angles in names are whole degrees; with an array of stops they are those of the widest.
    """
    widest = float(np.max(stop))
    steps = max(1, ceil(round(float(steps_to(widest, WIDEST_STEP)), 6)))
    shares = [(k, float(share_of(k, steps))) for k in range(steps, 0, -1)]
    for (side, sign), (k, share), (hand, h), (w, light) in product(
        SIDES.items(), shares, HANDS.items(), WEIGHTS.items()
    ):
        at = "" if k == steps else f"-{whole_degrees(steering_angle(widest, share))}"
        yield f"{of}-{side}{at}{hand}{w}", float(np.copysign(share, sign)), h, light


def whole_degrees(angle: Value) -> int:
    """An angle (rad) as it stands in a name: the next whole degree."""
    return ceil(round(float(np.degrees(angle)), 6))


Point = tuple[Value, Value, Value]


def drive(engine: EngineLoads, T: Value, delta: Value, hand: Value, gamma: Value, name: str) -> Action:
    """Thrust T (ahead positive) of an engine steered by delta, and the reaction to its propeller's torque.

    The thrust lies in the engine's plane of symmetry and so passes through its steering axis.
    """
    return Action(
        name,
        (thrust_x(T, delta), thrust_y(T, delta), 0.0),
        (engine.x_steer, engine.y, engine.z_prop),
        gamma,
        (torque_x(engine.torque_Nmm, hand, delta), torque_y(engine.torque_Nmm, hand, delta)),
    )


def centre(engine: EngineLoads, delta: Value) -> Point:
    """Centre of gravity of an engine steered by delta: all of it swings with the leg."""
    return (
        steered_x(engine.x_steer, engine.x_cg, delta),
        steered_y(engine.x_steer, engine.x_cg, engine.y, delta),
        engine.z_cg,
    )


def tilted(engine: EngineLoads, x: Value, z: Value, phi: Value) -> Point:
    """Where a point (x, z) of an engine lies when it is tilted by phi."""
    r_x, r_z = arm(x, engine.x_tilt), arm(z, engine.z_tilt)
    return (
        tilted_x(engine.x_tilt, r_x, r_z, phi),
        engine.y,
        tilted_z(engine.z_tilt, r_x, r_z, phi),
    )


@dataclass(frozen=True)
class Hung:
    """What hangs in v cases: whose, all its mass, its mass where it may relieve (kg), its centre of gravity (mm)."""

    whose: str
    whole: Value
    mass: Value
    at: Point

    def down(self, n: Value, gamma: Value) -> Action:
        """Its inertia at n g straight down, gravity included."""
        return Action(f"{self.whose}inertia", (0.0, 0.0, inertia_force(self.mass, n, -1.0)), self.at, gamma)

    def weight(self, gamma: Value) -> Action:
        """Its weight, straight down."""
        return Action(f"{self.whose}weight", (0.0, 0.0, -weight(self.mass)), self.at, gamma)

    def sideways(self, n: Value, sense: Value, gamma: Value) -> Action:
        """Its inertia at n g sideways: it adds, so the whole mass counts, whatever the weight does."""
        force = inertia_force(self.whole, n, sense)
        return Action(f"{self.whose}inertia", (0.0, force, 0.0), self.at, gamma)


@dataclass(frozen=True)
class Scene:
    """The engine that drives, the one that idles beside it if any, and the numbers they share."""

    x: LoadInputs
    prefix: str
    driver: EngineLoads
    idle: EngineLoads | None

    def hung(self, rows: Rows, delta: Value) -> tuple[Hung, ...]:
        """Every engine, and a setback bracket; an idle engine is down where its weight adds, up where it relieves."""
        names = ("kicker-", "") if self.prefix else ("", "kicker-")
        found = [Hung(names[0], self.driver.mass_kg, mass_of(self.driver, rows.light), centre(self.driver, delta))]
        if self.idle:
            up = tilted(self.idle, self.idle.x_cg, self.idle.z_cg, self.x.tilt_to_rad)
            down = centre(self.idle, 0.0)
            at = tuple(np.where(rows.light, u, d) for u, d in zip(up, down, strict=True))
            found.append(Hung(names[1], self.idle.mass_kg, mass_of(self.idle, rows.light), (at[0], at[1], at[2])))
        if self.x.bracket:
            b = self.x.bracket
            found.append(Hung("bracket-", b.mass_kg, mass_of(b, rows.light), (b.x_cg, 0.0, b.z_cg)))
        return tuple(found)

    def angles(self, rows: Rows) -> Value:
        """Steering angle of each case."""
        return steering_angle(self.driver.steer_rad, rows.share)

    def weight_gamma(self, rows: Rows) -> Value:
        """Factor on weight: where it adds, and where it relieves."""
        return np.where(rows.light, self.x.gamma_weight_light, self.x.gamma_weight)


def mass_of(engine: EngineLoads | BracketLoads, light: NDArray[np.bool_]) -> Value:
    """Mass of an engine or of a bracket in each case, kg."""
    return np.where(light, engine.mass_light_kg, engine.mass_kg)


def ahead(scene: Scene) -> Situation:
    """Bollard thrust straight ahead, and weight."""
    return driven(scene, "ahead", as_rows(straight(f"{scene.prefix}ahead")), scene.driver.thrust_N)


def hard_over(scene: Scene) -> Situation:
    """Bollard thrust with the steering over, to either side and with either hand of propeller, and weight."""
    rows = as_rows(sweep(f"{scene.prefix}hard-over", scene.driver.steer_rad))
    return driven(scene, "hard-over", rows, scene.driver.thrust_N)


def astern(scene: Scene) -> Situation:
    """Reverse thrust, straight and with the steering over, and weight; a full-turn engine is turned round."""
    name, engine = f"{scene.prefix}astern", scene.driver
    rows = as_rows((*straight(name), *sweep(name, engine.steer_rad)))
    T = thrust_times(engine.thrust_N, engine.astern_ratio)
    return driven(scene, "astern", rows, T if engine.full_turn else -T, round_about=engine.full_turn)


def driven(scene: Scene, of: str, rows: Rows, T: Value, round_about: bool = False) -> Situation:
    """A thrust along the leg, and weight."""
    delta = scene.angles(rows)
    leg = turned_round(delta) if round_about else delta
    gamma = scene.weight_gamma(rows)
    actions = (
        drive(scene.driver, T, leg, rows.hand, scene.x.gamma_F, "thrust"),
        *(h.weight(gamma) for h in scene.hung(rows, leg)),
    )
    return Situation(f"{scene.prefix}{of}", rows.names, "short", actions, scene.x.gamma_F, gamma)


def wave(scene: Scene) -> Situation:
    """Thrust under way and the engine's weight in a sea; where weight relieves, a light engine's and 0.9."""
    x, rows = scene.x, as_rows(straight("wave"))
    gamma = np.where(rows.light, x.gamma_weight_light, x.gamma_F)
    actions = (
        drive(scene.driver, x.thrust_under_way_N, 0.0, 0.0, x.gamma_F, "thrust"),
        *(h.down(x.service_g, gamma) for h in scene.hung(rows, 0.0)),
    )
    return Situation("wave", rows.names, "instantaneous", actions, x.gamma_F, gamma)


def turn(scene: Scene) -> Situation:
    """Thrust under way with the steering over, inertia outward (the propeller's side), and weight."""
    x, rows = scene.x, as_rows(sweep("turn", scene.driver.steer_rad))
    delta, gamma = scene.angles(rows), scene.weight_gamma(rows)
    hung = scene.hung(rows, delta)
    actions = (
        drive(scene.driver, x.thrust_under_way_N, delta, rows.hand, x.gamma_F, "thrust"),
        *(h.sideways(x.turn_g, -np.sign(rows.share), x.gamma_F) for h in hung),
        *(h.weight(gamma) for h in hung),
    )
    return Situation("turn", rows.names, "instantaneous", actions, x.gamma_F, gamma)


def strike(scene: Scene) -> Situation:
    """A blow that pushes the gearcase aft, and weight; accidental."""
    x, rows = scene.x, as_rows(straight(f"{scene.prefix}strike"))
    blow = thrust_times(scene.driver.thrust_N, x.strike_ratio)
    gamma = np.where(rows.light, x.gamma_strike_weight_light, x.gamma_strike)
    actions = (
        drive(scene.driver, -blow, 0.0, 0.0, x.gamma_strike, "strike"),
        *(h.weight(gamma) for h in scene.hung(rows, 0.0)),
    )
    return Situation(f"{scene.prefix}strike", rows.names, "accidental", actions, x.gamma_strike, gamma)
