"""What a propeller pushes with: the physical bound, the usual disc, the B-series at rated torque.

Power, speed, density and torque in W, m/s, 1/s, kg/m^3 and N*m; thrust in N.
"""

import numpy as np

from transom.catalogue import b_series
from transom.catalogue.lookup import Polynomial
from transom.formula import formula
from transom.frozen import dataclass
from transom.maths import PI, cbrt, minimum, sqrt, total
from transom.units import (
    KG_PER_M3,
    M2,
    M_PER_S,
    N_M,
    ONE,
    ONES,
    PER_S,
    WATT,
    M,
    N,
    Value,
)

DISC = "actuator-disc momentum theory at bollard"
B_SERIES = "Oosterveld and van Oossanen, Int. Shipbuilding Progress 22, 1975"
PROPELLER = "definition of K_T and K_Q at J = 0"
CONVENTION = "convention of the tool"
SIZES = {"P": 29828.0, "D": 0.28, "A": 0.06, "rho": 1025.0, "n": 44.0, "Q": 108.0, "V": 12.0, "eta": 0.6}


@formula(symbol="A", source="geometry", known_by="derived", typical=SIZES)
def disc_area(D: M) -> M2:
    """Area a propeller of diameter D sweeps."""
    return PI / 4 * D**2


@formula(symbol="T", source=DISC, known_by="derived", typical=SIZES)
def disc_thrust(P: WATT, A: M2, rho: KG_PER_M3, FM: ONE) -> N:
    """Bollard thrust, FM^(2/3) (2 rho A)^(1/3) P^(2/3), of a propeller of figure of merit FM."""
    return cbrt(FM**2 * 2 * rho * A * P**2)


@formula(symbol="T_max", source=DISC, known_by="derived", typical=SIZES)
def thrust_bound(P: WATT, A: M2, rho: KG_PER_M3) -> N:
    """Bollard thrust that no propeller of this size exceeds with this power: figure of merit one."""
    return cbrt(2 * rho * A * P**2)


@formula(symbol="P", source=DISC, known_by="derived", typical={**SIZES, "T": 512.0})
def disc_power(T: N, A: M2, rho: KG_PER_M3, FM: ONE) -> WATT:
    """Power that a propeller of figure of merit FM takes for a bollard thrust T."""
    return T * sqrt(T / (2 * rho * A)) / FM


@formula(symbol="K", source=B_SERIES, typical={"J": 0.4, "PD": 1.1, "AeA0": 0.65, "Z": 3.0})
def series_coefficient(J: ONES, PD: ONES, AeA0: ONES, Z: ONES, C: ONES, s: ONES, t: ONES, u: ONES, v: ONES) -> ONE:
    """Thrust or torque coefficient of a B-series propeller from the terms of its polynomial.

    The propeller's own numbers stand against the terms on the last axis, (..., 1) or floats.
    Range: 2 to 7 blades, area ratio 0.30 to 1.05, pitch ratio 0.5 to 1.4.
    """
    return total(C * J**s * PD**t * AeA0**u * Z**v)


@formula(symbol="P/D", source="definition", known_by="derived", typical=SIZES)
def pitch_ratio(pitch: M, D: M) -> ONE:
    """Pitch over diameter."""
    return pitch / D


@formula(symbol="n", source="definition", known_by="derived", typical={"n_e": 92.0, "gear": 2.0})
def propeller_speed(n_e: PER_S, gear: ONE) -> PER_S:
    """Revolutions a second of the propeller, from those of the engine and the gear ratio."""
    return n_e / gear


@formula(symbol="Q", source="mechanics, P = 2 pi n Q", known_by="derived", typical=SIZES)
def rated_torque(P: WATT, n: PER_S) -> N_M:
    """Torque of the propeller shaft at rated power; the engine's mount feels as much, the other way round."""
    return P / (2 * PI * n)


@formula(symbol="T_B", source=PROPELLER, known_by="derived", typical={**SIZES, "K_T": 0.5, "K_Q": 0.09})
def thrust_at_torque(Q: N_M, D: M, K_T: ONE, K_Q: ONE) -> N:
    """Bollard thrust of a propeller that takes the torque Q, whatever the speed it then turns at."""
    return K_T / K_Q * Q / D


@formula(symbol="FM", source=PROPELLER, known_by="derived", typical={"K_T": 0.5, "K_Q": 0.09})
def figure_of_merit(K_T: ONE, K_Q: ONE) -> ONE:
    """Ideal over real power at bollard."""
    return K_T * sqrt(K_T / (2 * PI**3)) / K_Q


@formula(symbol="T_k", source=CONVENTION, evidence="convention", known_by="derived", typical={"peak": 1.2})
def characteristic_thrust(T_disc: N, T_B: N, peak: ONE = 1.2) -> N:
    """The smaller of the usual disc's thrust and the B-series' at peak torque, `peak` times the rated."""
    return minimum(T_disc, peak * T_B)


@formula(symbol="T_V", source="definition of propulsive efficiency", known_by="derived",
         typical={**SIZES, "T_0": 3234.0})  # fmt: skip
def thrust_under_way(P: WATT, V: M_PER_S, eta: ONE, T_0: N) -> N:
    """Thrust at the speed V, never above the bollard thrust T_0."""
    return minimum(eta * P / V, T_0)


@formula(symbol="T", source=CONVENTION, evidence="convention", known_by="derived", typical={"ratio": 0.7})
def thrust_times(T: N, ratio: ONE) -> N:
    """A thrust in proportion to the one ahead: astern, or the blow of a strike."""
    return T * ratio


@formula(symbol="V_p", source="definition", known_by="derived", typical={"n": 50.0, "pitch": 0.33})
def pitch_speed(n: PER_S, pitch: M) -> M_PER_S:
    """Speed at which a propeller would screw through the water without slip."""
    return n * pitch


@formula(symbol="s", source="definition", known_by="derived", typical={"V": 12.0, "V_p": 15.0})
def slip(V: M_PER_S, V_p: M_PER_S) -> ONE:
    """Share of the pitch speed that is lost."""
    return 1 - V / V_p


@dataclass(frozen=True)
class Bollard:
    """Bollard thrust and how it came about; N, N*m, 1/s."""

    n: Value
    Q: Value
    K_T: Value
    K_Q: Value
    FM_series: Value
    disc: Value
    series: Value
    bound: Value
    characteristic: Value


def coefficient(terms: Polynomial, J: Value, PD: Value, AeA0: Value, Z: Value) -> Value:
    """A B-series coefficient of the terms given, for floats or arrays (n,)."""
    J, PD, AeA0, Z = (np.asarray(x, dtype=float)[..., None] for x in (J, PD, AeA0, Z))
    return series_coefficient(J, PD, AeA0, Z, terms.C, terms.s, terms.t, terms.u, terms.v)


def thrust_coefficient(J: Value, PD: Value, AeA0: Value, Z: Value) -> Value:
    """K_T of a B-series propeller from the shipped table."""
    return coefficient(b_series().KT, J, PD, AeA0, Z)


def torque_coefficient(J: Value, PD: Value, AeA0: Value, Z: Value) -> Value:
    """K_Q of a B-series propeller from the shipped table."""
    return coefficient(b_series().KQ, J, PD, AeA0, Z)


def bollard(
    P: Value, D: Value, pitch: Value, Z: Value, AeA0: Value, gear: Value, n_e: Value,
    rho: Value, FM: Value, peak: Value,
) -> Bollard:  # fmt: skip
    """Characteristic bollard thrust: the smaller of the disc at FM and `peak` times the B-series.

    Args:
        P: rated power, W.
        D: diameter of the propeller, m.
        pitch: its pitch, m.
        Z: its number of blades.
        AeA0: its expanded-area ratio.
        gear: engine turns for each of the propeller's.
        n_e: engine speed at rated power, 1/s.
        rho: density of the water, kg/m^3.
        FM: figure of merit of the usual disc.
        peak: peak over rated torque of the engine.
    """
    A, PD, n = disc_area(D), pitch_ratio(pitch, D), propeller_speed(n_e, gear)
    K_T, K_Q = thrust_coefficient(0.0, PD, AeA0, Z), torque_coefficient(0.0, PD, AeA0, Z)
    Q = rated_torque(P, n)
    disc, series = disc_thrust(P, A, rho, FM), thrust_at_torque(Q, D, K_T, K_Q)
    return Bollard(
        n=n, Q=Q, K_T=K_T, K_Q=K_Q, FM_series=figure_of_merit(K_T, K_Q), disc=disc, series=series,
        bound=thrust_bound(P, A, rho), characteristic=characteristic_thrust(disc, series, peak),
    )  # fmt: skip
