"""Budynas & Nisbett, Shigley's Mechanical Engineering Design: torque and clamp load of bolts.

Preload is never credited in a joint of wood; the torque is found only so that the bolt and the wood
under it survive the tightening.
"""

from transom.formula import formula
from transom.maths import PI, cos
from transom.units import MM, N_MM, ONE, RAD, N

_BOLT = {"K": 0.2, "d": 12.0}


@formula(symbol="T", source="Shigley 9e, eq 8-27", known_by="read", typical=_BOLT)
def torque(K: ONE, d: MM, F_i: N) -> N_MM:
    """Torque that brings a bolt of nominal diameter d to the clamp load F_i with the nut factor K."""
    return K * d * F_i


@formula(symbol="F_i", source="Shigley 9e, eq 8-27", known_by="read", typical={**_BOLT, "T": 40000.0})
def clamp_load_at_torque(T: N_MM, K: ONE, d: MM) -> N:
    """Clamp load that the torque T brings; the smallest K of a range gives the largest load."""
    return T / (K * d)


@formula(symbol="K", source="Shigley 9e, eq 8-26", known_by="memory",
         typical={"d_m": 10.9, "d": 12.0, "tan_lambda": 0.05, "f": 0.15, "f_c": 0.15,
                  "alpha": 0.5236})  # fmt: skip
def nut_factor(d_m: MM, d: MM, tan_lambda: ONE, f: ONE, f_c: ONE, alpha: RAD = PI / 6) -> ONE:
    """Nut factor from thread friction f, collar friction f_c and the half angle alpha of the thread."""
    thread = (tan_lambda + f / cos(alpha)) / (1 - f * tan_lambda / cos(alpha))
    return d_m / (2 * d) * thread + 0.625 * f_c
