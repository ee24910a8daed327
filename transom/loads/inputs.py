"""What the load cases are built from: numbers only, in working units, each a float or an array (n,).

Nothing has a default here: the caller fills what the job does not state, and lists it as an assumption.
"""

from dataclasses import fields, replace
from typing import Any

import numpy as np

from transom.frozen import dataclass
from transom.units import Value


@dataclass(frozen=True)
class EngineLoads:
    """One engine: points in level axes from the datum (mm), leg vertical and straight; forces in N.

    `thrust_N` is the characteristic bollard thrust, `torque_Nmm` the reaction about the propeller shaft,
    `steer_rad` the stop. A `full_turn` engine is turned round to go astern, and its weight with it.
    `y` is the line the engine stands on; its weight, when it relieves, is that of `mass_light_kg`.
    """

    thrust_N: Value
    astern_ratio: Value
    steer_rad: Value
    torque_Nmm: Value
    mass_kg: Value
    mass_light_kg: Value
    x_cg: Value
    z_cg: Value
    z_prop: Value
    x_steer: Value
    x_tilt: Value
    z_tilt: Value
    y: Value
    full_turn: bool


@dataclass(frozen=True)
class BracketLoads:
    """A setback bracket: its own mass (kg) and where it lies in level axes from the datum, mm; it neither
    steers nor tilts. Where its weight relieves, it is that of `mass_light_kg`."""

    mass_kg: Value
    mass_light_kg: Value
    x_cg: Value
    z_cg: Value


@dataclass(frozen=True)
class OwnCase:
    """The shop's own case: `times` the thrust and the inertia of the cases it is `like`, and why.

    `like` is a case ("hard-over-starboard", its light-engine companion with it) or a situation ("road").
    Dead weight is not multiplied; gravity inside a stated g is, with the g.
    """

    name: str
    like: str
    times: float
    reason: str


@dataclass(frozen=True)
class LoadInputs:
    """Everything the load cases are built from; arrays (n,) give cases (n, v, 6).

    Lengths in mm in level axes from the datum (x aft, z up: `z_prop` is negative); `dz_cg` is how far the
    centre of gravity may lie above or below `z_cg`, zero where it was stated. The g values are counted as
    basis for a force on the mount: `service_g` down, gravity included, `road_down_g` and `road_up_g` net
    of gravity. Weight adds with `gamma_weight`, or relieves as `mass_light_kg` with `gamma_weight_light`.
    """

    power_W: Value
    thrust_N: Value
    thrust_under_way_N: Value
    astern_ratio: Value
    steer_rad: Value
    torque_Nmm: Value
    mass_kg: Value
    mass_light_kg: Value
    x_cg: Value
    z_cg: Value
    dz_cg: Value
    z_prop: Value
    x_steer: Value
    x_tilt: Value
    z_tilt: Value
    lean_rad: Value
    service_g: Value
    turn_g: Value
    road_down_g: Value
    road_up_g: Value
    road_forward_g: Value
    road_rearward_g: Value
    road_sideways_g: Value
    tilt_from_rad: Value
    tilt_to_rad: Value
    strut: bool
    trailer: bool
    strike_ratio: Value
    gamma_F: Value
    gamma_weight: Value
    gamma_weight_light: Value
    gamma_strike: Value
    gamma_strike_weight_light: Value
    full_turn: bool
    own: tuple[OwnCase, ...]
    kicker: EngineLoads | None
    bracket: BracketLoads | None = None  # engine points lie aft of the datum by its setback already

    @property
    def engine(self) -> EngineLoads:
        """The engine itself, on the centreline."""
        return EngineLoads(**{f.name: getattr(self, f.name) for f in fields(EngineLoads) if f.name != "y"}, y=0.0)

    @property
    def engines(self) -> tuple[EngineLoads, ...]:
        """What hangs on the board: the engine, and the kicker where there is one."""
        return (self.engine, self.kicker) if self.kicker else (self.engine,)


POSITIVE = (
    "thrust_N", "thrust_under_way_N", "mass_kg", "mass_light_kg", "gamma_F", "gamma_weight",
    "gamma_weight_light", "gamma_strike", "gamma_strike_weight_light", "strike_ratio", "service_g",
)  # fmt: skip
NOT_NUMBERS = {"own", "kicker", "bracket", "strut", "trailer", "full_turn"}


def _numbers(record: LoadInputs | EngineLoads | BracketLoads) -> dict[str, Value]:
    return {f.name: getattr(record, f.name) for f in fields(record) if f.name not in NOT_NUMBERS}


def _every_number(inputs: LoadInputs) -> dict[str, Value]:
    kicker = _numbers(inputs.kicker) if inputs.kicker else {}
    bracket = _numbers(inputs.bracket) if inputs.bracket else {}
    return (
        _numbers(inputs)
        | {f"kicker.{k}": v for k, v in kicker.items()}
        | {f"bracket.{k}": v for k, v in bracket.items()}
    )


def checked(inputs: LoadInputs) -> LoadInputs:
    """The same inputs, refused where they cannot be loads: jobs are validated, so this is a program's slip.

    Raises:
        ValueError: a number that is not finite, a thrust, mass, ratio or factor that is not positive, a
            propeller that is not below the datum, arrays that are not all (n,).
    """
    numbers = _every_number(inputs)
    bad = [k for k, v in numbers.items() if not np.all(np.isfinite(v))]
    bad += [k for k in POSITIVE if not np.all(np.asarray(numbers[k]) > 0)]
    bad += [k for k in ("z_prop", "kicker.z_prop") if not np.all(np.asarray(numbers.get(k, -1.0)) < 0)]
    if bad:
        raise ValueError(f"not usable as loads: {', '.join(bad)}")
    lengths = {np.shape(v) for v in numbers.values()} - {()}
    if len(lengths) > 1 or any(len(shape) != 1 for shape in lengths):
        raise ValueError(f"arrays of one length (n,) are needed, not {sorted(lengths)}")
    return inputs


def columns(inputs: LoadInputs) -> LoadInputs:
    """The same numbers with arrays as columns (n, 1), to stand against rows of cases (v,)."""
    kicker = replace(inputs.kicker, **_columns(inputs.kicker)) if inputs.kicker else None
    bracket = replace(inputs.bracket, **_columns(inputs.bracket)) if inputs.bracket else None
    return replace(inputs, kicker=kicker, bracket=bracket, **_columns(inputs))


def _columns(record: LoadInputs | EngineLoads | BracketLoads) -> dict[str, Any]:
    return {k: np.asarray(v)[:, None] for k, v in _numbers(record).items() if np.ndim(v)}
