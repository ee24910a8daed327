"""Accelerations of a boat afloat and on its trailer, and the strut that carries an engine on the road."""

from transom.formula import formula
from transom.maths import PI, exp, log, maximum, minimum, positive, sqrt, where
from transom.units import KG, M_PER_S, MM, ONE, RAD, M, N

KNOT = 1852.0 / 3600.0
FOOT = 0.3048
DEGREE = PI / 180.0
ISO_12215_5 = "ISO 12215-5:2008, 7.2 and 7.3"
SAVITSKY_BROWN = "Savitsky and Brown, Marine Technology 13(4), 1976, 381-400"
HULL = {"LWL": 6.0, "B_C": 2.2, "beta": 0.262, "V": 12.0, "m_LDC": 2000.0, "m_1": 1.0, "V_1": KNOT,
        "beta_1": DEGREE, "B_1": 1.0, "n_1": 8.0, "n_2": 4.0}  # fmt: skip


@formula(symbol="n_1", source=f"{ISO_12215_5} (1)", typical=HULL)
def iso_first_acceleration(
    LWL: M, B_C: M, beta: RAD, V: M_PER_S, m_LDC: KG,
    V_1: M_PER_S = KNOT, beta_1: RAD = DEGREE, B_1: M = 1.0, m_1: KG = 1.0,
) -> ONE:  # fmt: skip
    """Dynamic load factor of a planing monohull in g, from its length, beam, deadrise, speed and mass."""
    hull = 0.32 * (LWL / (10 * B_C) + 0.084) * (50 - beta / beta_1)
    return hull * (V / V_1) ** 2 * (B_C / B_1) ** 2 / (m_LDC / m_1)


@formula(symbol="n_2", source=f"{ISO_12215_5} (2)", typical=HULL)
def iso_second_acceleration(V: M_PER_S, m_LDC: KG, V_1: M_PER_S = KNOT, m_1: KG = 1.0) -> ONE:
    """Dynamic load factor in g that replaces the first where it is above 3 and larger."""
    return 0.5 * (V / V_1) * exp(-0.17 * log(m_LDC / m_1))


@formula(symbol="n_CG", source=ISO_12215_5, typical=HULL)
def iso_acceleration(n_1: ONE, n_2: ONE) -> ONE:
    """Dynamic load factor in g at the centre of gravity of a planing monohull; never above 7."""
    return minimum(where(n_1 <= 3, n_1, minimum(n_1, n_2)), 7.0)


def planing_acceleration(LWL: M, B_C: M, beta: RAD, V: M_PER_S, m_LDC: KG) -> ONE:
    """Dynamic load factor n_CG in g, calm-water gravity not included; for a planing monohull only."""
    first = iso_first_acceleration(LWL, B_C, beta, V, m_LDC)
    return iso_acceleration(first, iso_second_acceleration(V, m_LDC))


@formula(symbol="n", source=f"basis of the tool: gravity and {ISO_12215_5}", evidence="convention",
         known_by="derived", typical=HULL)  # fmt: skip
def service_acceleration(n_CG: ONE, gravity: ONE = 1.0) -> ONE:
    """What the engine weighs in a sea, gravity included, in g."""
    return gravity + n_CG


@formula(symbol="n_cg", source=SAVITSKY_BROWN,
         typical={"H_13": 1.4, "b": 7.3, "L": 24.0, "beta": 0.262, "tau": 0.07, "V": 13.0, "C_delta": 0.3,
                  "V_1": KNOT, "L_1": FOOT, "degree": DEGREE})  # fmt: skip
def savitsky_brown_acceleration(
    H_13: M, b: M, L: M, beta: RAD, tau: RAD, V: M_PER_S, C_delta: ONE,
    V_1: M_PER_S = KNOT, L_1: M = FOOT, degree: RAD = DEGREE,
) -> ONE:  # fmt: skip
    """Mean impact acceleration in g of a planing monohull in irregular head seas.

    Range: 3 <= L/b <= 5, trim 3 to 7 deg, deadrise 10 to 30 deg, 0.2 <= H/b <= 0.7, 2 <= V/sqrt(L) <= 6
    in knots and feet.
    """
    hull = (H_13 / b + 0.084) * (tau / degree / 4) * (5 / 3 - beta / degree / 30)
    return 0.0104 * hull * (V / V_1) ** 2 / (L / L_1) * (L / b) / C_delta


@formula(symbol="n_bow", source=SAVITSKY_BROWN,
         typical={"n_cg": 0.3, "b": 7.3, "L": 24.0, "V": 13.0, "V_1": KNOT, "L_1": FOOT})  # fmt: skip
def savitsky_brown_bow_acceleration(n_cg: ONE, b: M, L: M, V: M_PER_S, V_1: M_PER_S = KNOT, L_1: M = FOOT) -> ONE:
    """Mean impact acceleration in g at the bow."""
    return n_cg * (1 + 3.8 * (L / b - 2.25) / (V / V_1 / sqrt(L / L_1)))


@formula(symbol="v_man", source="ISO 11592-1, Annex A", known_by="transcribed",
         typical={"L_H": 6.0, "v_1": KNOT, "L_1": 1.0})  # fmt: skip
def manoeuvring_speed(L_H: M, v_1: M_PER_S = KNOT, L_1: M = 1.0) -> M_PER_S:
    """Speed from which a boat's manoeuvring has to be tried."""
    return 7 * v_1 * sqrt(L_H / L_1)


@formula(symbol="F_s", source="statics: moments about the tilt axis", evidence="convention",
         known_by="derived",
         typical={"F_down": 4000.0, "F_x": -800.0, "r_x": 150.0, "r_z": 130.0, "r_s": 330.0})  # fmt: skip
def strut_force(F_down: N, F_x: N, r_x: MM, r_z: MM, r_s: MM, least_arm: MM = 1.0) -> N:
    """Upward force of an upright strut under an engine that hangs by its tilt axis.

    The engine is taken as hinged at the tilt axis, so moments about it give the strut's share of the
    downward inertia F_down at (r_x, r_z) from the axis; the strut stands r_s aft of it. Bounds: never
    negative (it cannot pull), never more than F_down, nothing where it does not stand aft of the axis.
    A fore-and-aft inertia F_x that lifts the engine off the strut is counted; one that presses it down
    is not, so the share is never overrated.
    """
    pressing = F_down * r_x - positive(-r_z * F_x)
    return where(r_s > least_arm, minimum(positive(pressing) / maximum(r_s, least_arm), F_down), 0 * F_down)
