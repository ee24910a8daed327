"""Cards of the loads: each situation's wrench by hand, felt where it pulls hardest on an engine bolt.

Round engine of the 40 hp job: 136 kg (122.4 where it relieves), middle 220 aft and 150 up, propeller 663 down, steering axis 150
aft, tilt axis 40 aft and 20 up; thrust 2156 N tied up, 994 under way; the board leans 14 degrees, top aft. Level axes first, then
turned: basis 2 and 3.
"""

from collections.abc import Callable
from dataclasses import replace
from math import cos, radians, sin

from tests.checks.shop import MOUNT, setup_of
from tests.unsafe.cards import Card
from tests.unsafe.hand import lower, upper
from transom.checks.trial import Trial
from transom.judge.evaluate import trial_of
from transom.loads.cases import build_cases

G, M, LIGHT, T, WAY, LEAN, STOP = 9.80665, 136.0, 122.4, 2156.0, 994.0, radians(14), radians(40)
RESISTANCE = 0.9 * 689 * 91.5 / 1.25
Vector = tuple[float, float, float]


def at(case: str) -> Callable[[float], Trial]:
    """One case of the tool's own, its factored wrench so many times."""

    def trial(k: float) -> Trial:
        setup = setup_of()
        x = replace(setup.loads, thrust_N=T, thrust_under_way_N=WAY, mass_kg=M, mass_light_kg=LIGHT, x_cg=220.0, z_cg=150.0, dz_cg=100.0, z_prop=-663.0,
                    x_steer=150.0, x_tilt=40.0, z_tilt=20.0, steer_rad=STOP, torque_Nmm=0.0, lean_rad=LEAN, trailer=True, strut=False, service_g=3.0)  # fmt: skip
        setup, cases = replace(setup, loads=x), build_cases(x)
        one = cases.take([cases.names.index(case)])
        return trial_of(setup, replace(one, design=one.design * k), [MOUNT])

    return trial


def board(forces: list[tuple[Vector, Vector]], lean: float = LEAN) -> tuple[float, ...]:
    """Forces at points, level, as a wrench in the board's axes: M = r x F, then e_x (cos, 0, -sin), e_z (sin, 0, cos)."""
    F = [sum(f[i] for f, _ in forces) for i in range(3)]
    m = [
        sum(r[1] * f[2] - r[2] * f[1] for f, r in forces),
        sum(r[2] * f[0] - r[0] * f[2] for f, r in forces),
        sum(r[0] * f[1] - r[1] * f[0] for f, r in forces),
    ]
    c, s = cos(lean), sin(lean)
    return (F[0] * c - F[2] * s, F[1], F[0] * s + F[2] * c, m[0] * c - m[2] * s, m[1], m[0] * s + m[2] * c)


def pull(k: float, forces: list[tuple[Vector, Vector]], row: str, lean: float = LEAN) -> float:
    """Pull of the worse bolt over 0.9 f_ub A_s/1.25."""
    return k * (upper if row == "upper" else lower)(board(forces, lean)) / RESISTANCE


def ahead(
    k: float,
    gamma: float = 1.5,
    heavy: float = 1.35,
    deep: float = 663.0,
    aft: float = 220.0,
    lean: float = LEAN,
    mass: float = M,
) -> float:
    """1.5 T forward at the propeller, 1.35 of the weight down."""
    return pull(k, [((-gamma * T, 0, 0), (0, 0, -deep)), ((0, 0, -heavy * mass * G), (aft, 0, 150))], "upper", lean)


def astern(
    k: float,
    gamma: float = 1.5,
    share: float = 0.7,
    light: float = 0.9,
    mass: float = LIGHT,
    deep: float = 663.0,
    aft: float = 220.0,
    lean: float = LEAN,
) -> float:
    """0.7 of it aft, and the light engine's weight, 0.9, which relieves."""
    return pull(
        k, [((gamma * share * T, 0, 0), (0, 0, -deep)), ((0, 0, -light * mass * G), (aft, 0, 150))], "lower", lean
    )


def over(
    k: float, gamma: float = 1.5, axis: float = 150.0, side: float = 1.0, swung: bool = True, way: float = 1.0
) -> float:
    """Hard over to starboard by 40 degrees: thrust in the leg's plane through the steering axis, the middle swung with the leg."""
    f = (-gamma * T * cos(STOP), -side * gamma * T * sin(STOP), 0.0)
    x, y = (150 + 70 * cos(STOP), way * 70 * sin(STOP)) if swung else (220.0, 0.0)
    return pull(k, [(f, (axis, 0, -663)), ((0, 0, -1.35 * M * G), (x, y, 150))], "upper")


def wave(
    k: float, g: float = 3.0, gamma: float = 1.5, thrust: float = WAY, aft: float = 220.0, lean: float = LEAN
) -> float:
    """3 g down, gravity in it, 1.5; thrust under way."""
    return pull(k, [((-1.5 * thrust, 0, 0), (0, 0, -663)), ((0, 0, -gamma * g * M * G), (aft, 0, 150))], "upper", lean)


def turn(k: float, g: float = 1.0, out: float = 1.0, gamma: float = 1.5) -> float:
    """Under way at the stop, 1 g outward on the propeller's side, weight 1.35."""
    x, y = 150 + 70 * cos(STOP), 70 * sin(STOP)
    drive = ((-1.5 * WAY * cos(STOP), -1.5 * WAY * sin(STOP), 0.0), (150.0, 0.0, -663.0))
    return pull(
        k, [drive, ((0, -out * gamma * g * M * G, 0), (x, y, 150)), ((0, 0, -1.35 * M * G), (x, y, 150))], "upper"
    )


def strike(
    k: float, blow: float = 1.5, light: float = 0.9, mass: float = LIGHT, aft: float = 220.0, sign: float = 1.0
) -> float:
    """1.5 T aft on the gearcase, accidental; the light weight, 0.9, relieves."""
    return pull(k, [((sign * blow * T, 0, 0), (0, 0, -663)), ((0, 0, -light * mass * G), (aft, 0, 150))], "lower")


def road(
    k: float,
    down: float = 4.0,
    along: float = -0.8,
    phi: float = radians(20),
    forward: bool = True,
    high: float = 100.0,
    gamma: float = 1.5,
) -> float:
    """Tilted by 20 degrees about the tilt axis the powerhead swings forward; 4 g down and 0.8 g forward, or 0.5 aft; middle 100 higher."""
    rx, rz = 220.0 - 40, 150 + high - 20
    s = sin(phi) if forward else -sin(phi)
    x, z = 40 + rx * cos(phi) - rz * s, 20 + rx * s + rz * cos(phi)
    return pull(k, [((gamma * along * M * G, 0, -gamma * down * M * G), (x, 0, z))], "upper")


RISES = {
    "lean forgotten": {"lean": 0.0},
    "leans forward": {"lean": -LEAN},
    "engine ahead of the board": {"aft": -220.0},
}

CARDS = (
    Card("engine-bolts.tension.ec3", at("ahead"), ahead, RISES | {"factor forgotten": {"gamma": 1.0}, "weight as it relieves": {"heavy": 0.9, "mass": LIGHT}, "propeller at the pads' foot": {"deep": 330.0}}),
    Card("engine-bolts.tension.ec3", at("astern-light"), astern, {
        "factor forgotten": {"gamma": 1.0}, "half ahead's thrust": {"share": 0.5}, "heavy engine": {"mass": M, "light": 1.35}, "propeller at the pads' foot": {"deep": 330.0},
    }),
    Card("engine-bolts.tension.ec3", at("hard-over-starboard"), over, {"factor forgotten": {"gamma": 1.0}, "no side thrust": {"side": 0.0}, "side thrust at the board": {"axis": 0.0}}),
    Card("engine-bolts.tension.ec3", at("wave"), wave, RISES | {"one g": {"g": 1.0}, "factor forgotten": {"gamma": 1.0}, "gravity beside it taken off": {"g": 2.0}, "thrust forgotten": {"thrust": 0.0}}),
    Card("engine-bolts.tension.ec3", at("turn-starboard"), turn, {"inertia forgotten": {"g": 0.0}, "factor forgotten": {"gamma": 1.0}, "thrown inward": {"out": -1.0}}),
    Card("engine-bolts.tension.ec3", at("strike-light"), strike, {"as ahead's thrust": {"blow": 1.0}, "heavy weight": {"light": 1.35, "mass": M}, "blow from aft": {"sign": -1.0}, "engine twice as far aft": {"aft": 440.0}}),
    Card("engine-bolts.tension.ec3", at("road-down-rearward-20-high"), lambda k, **s: road(k, **({"along": 0.5} | s)), {"one g": {"down": 1.0}, "factor forgotten": {"gamma": 1.0}, "braked the other way": {"along": -0.5}}),
)  # fmt: skip
