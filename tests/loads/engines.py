"""Engines the load tests share; invented, of the size of the check values."""

from math import radians
from typing import Any

from transom.loads.inputs import EngineLoads, LoadInputs

G_N = 9.80665


def forty(**changes: Any) -> LoadInputs:
    """40 hp on a 20 in shaft: weight 1335 N, T 3234 N, z_p -663, x_cg 220, 12 m/s at an efficiency of 0.6."""
    numbers: dict[str, Any] = {
        "power_W": 29828.0, "thrust_N": 3234.0, "thrust_under_way_N": 0.6 * 29828.0 / 12.0,
        "astern_ratio": 0.7, "steer_rad": radians(35.0), "torque_Nmm": 107.7e3,
        "mass_kg": 1335.0 / G_N, "mass_light_kg": 0.9 * 1335.0 / G_N, "x_cg": 220.0, "z_cg": 150.0,
        "dz_cg": 100.0, "z_prop": -663.0, "x_steer": 150.0, "x_tilt": 40.0, "z_tilt": 20.0,
        "lean_rad": 0.0, "service_g": 3.0, "turn_g": 1.0, "road_down_g": 4.0, "road_up_g": 2.0,
        "road_forward_g": 0.8, "road_rearward_g": 0.5, "road_sideways_g": 0.5,
        "tilt_from_rad": radians(20.0), "tilt_to_rad": radians(75.0), "strut": False, "trailer": True,
        "strike_ratio": 1.5, "gamma_F": 1.5, "gamma_weight": 1.35, "gamma_weight_light": 0.9,
        "gamma_strike": 1.0, "gamma_strike_weight_light": 0.9, "full_turn": False, "own": (), "kicker": None,
    }  # fmt: skip
    return LoadInputs(**(numbers | changes))


def kicker(**changes: Any) -> EngineLoads:
    """A kicker of 6 kW, 300 mm to port of the centreline, turned round to go astern."""
    numbers: dict[str, Any] = {
        "thrust_N": 900.0, "astern_ratio": 1.0, "steer_rad": radians(90.0), "torque_Nmm": 20e3,
        "mass_kg": 40.0, "mass_light_kg": 36.0, "x_cg": 160.0, "z_cg": 120.0, "z_prop": -640.0,
        "x_steer": 110.0, "x_tilt": 40.0, "z_tilt": 20.0, "y": -300.0, "full_turn": True,
    }  # fmt: skip
    return EngineLoads(**(numbers | changes))
