"""Where kg, m, s, W and N*m become N, mm and N*mm, and back. Nowhere else in the loads.

N, mm, kg, s is not a coherent set; formulas with mass, density, power or speed therefore stay in
kg, m, s, W, N and N*m, and their lengths and torques cross here.
"""

from transom.formula import formula
from transom.units import KG, M_PER_S2, MM, MM_PER_M, N_M, N_MM, ONE, M, N

PREFIX = "SI prefix, 1 m = 1000 mm"


@formula(symbol="W", source="ISO 80000-4, weight; standard gravity of ISO 80000-3", known_by="memory",
         typical={"m": 136.0, "g_n": 9.80665})  # fmt: skip
def weight(m: KG, g_n: M_PER_S2 = 9.80665) -> N:
    """Weight of a mass; newtons are coherent with kg and with mm alike."""
    return m * g_n


@formula(symbol="F", source="d'Alembert", known_by="derived",
         typical={"m": 136.0, "n": 3.0, "sense": -1.0, "g_n": 9.80665})  # fmt: skip
def inertia_force(m: KG, n: ONE, sense: ONE, g_n: M_PER_S2 = 9.80665) -> N:
    """Force of a mass at n g along an axis; sense is +1 or -1 along it, or 0."""
    return m * n * sense * g_n


@formula(symbol="Q", source=PREFIX, known_by="derived", typical={"Q": 100.0, "per_m": 1000.0})
def torque_in_n_mm(Q: N_M, per_m: MM_PER_M = 1000.0) -> N_MM:
    """A torque in N*m, in N*mm."""
    return Q * per_m


@formula(symbol="l", source=PREFIX, known_by="derived", typical={"per_m": 1000.0})
def length_in_m(length: MM, per_m: MM_PER_M = 1000.0) -> M:
    """A length in mm, in m."""
    return length / per_m
