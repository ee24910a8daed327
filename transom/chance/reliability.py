"""Load against strength in closed form, and what a count of samples says about a chance."""
# ruff: noqa: N803 - symbols as the sources print them

import math

from transom.formula import formula
from transom.maths import exp, log, sqrt
from transom.units import ONE, N

NORMAL = "first-order reliability, normal R and S"
WILSON = "Wilson 1927, score interval"
TWO_SIDED = 1.959963984540054  # of the normal distribution, 19 of 20 lie within so many standard deviations
ONE_SIDED = 1.6448536269514722  # 19 of 20 lie above the mean less so many


@formula(symbol="beta", source=NORMAL, known_by="read", typical={"mu_R": 200.0, "mu_S": 100.0})
def safety_index(mu_R: N, mu_S: N, s_R: N, s_S: N) -> ONE:
    """How many standard deviations the mean margin lies from nothing, strength and load normal."""
    return (mu_R - mu_S) / sqrt(s_R * s_R + s_S * s_S)


@formula(symbol="alpha", source=NORMAL, known_by="read")
def share_of_spread(s: N, s_R: N, s_S: N) -> ONE:
    """Share of one spread in both; its square is how much of the scatter it causes."""
    return s / sqrt(s_R * s_R + s_S * s_S)


@formula(symbol="x*", source=NORMAL, known_by="read")
def design_point(mu: N, alpha: ONE, beta: ONE, s: N) -> N:
    """Where load and strength most likely meet; alpha positive for a strength, negative for a load."""
    return mu - alpha * beta * s


@formula(symbol="gamma", source=NORMAL, known_by="read")
def factor_on_mean(at: N, mu: N) -> ONE:
    """Factor that takes the mean to the design point."""
    return at / mu


@formula(symbol="s_ln", source="lognormal distribution", evidence="published", known_by="derived",
         typical={"V": 0.2})  # fmt: skip
def log_spread(V: ONE) -> ONE:
    """Standard deviation of the logarithm, from standard deviation over mean."""
    return sqrt(log(1.0 + V * V))


@formula(symbol="beta", source="lognormal R and S, closed form", evidence="published", known_by="derived",
         typical={"mu_R": 2.0, "mu_S": 1.0, "V_R": 0.1, "V_S": 0.25})  # fmt: skip
def safety_index_lognormal(mu_R: N, mu_S: N, V_R: ONE, V_S: ONE) -> ONE:
    """The safety index where strength and load are lognormal, from their means and coefficients of variation."""
    r, s = 1.0 + V_R * V_R, 1.0 + V_S * V_S
    return log(mu_R / mu_S * sqrt(s / r)) / sqrt(log(r * s))


@formula(symbol="m", source="lognormal distribution, 5 % quantile", evidence="published", known_by="derived",
         typical={"s": 0.2, "q": ONE_SIDED})  # fmt: skip
def middle_over_low(s: ONE, q: ONE = ONE_SIDED) -> ONE:
    """Median over the low value that 19 of 20 exceed."""
    return exp(q * s)


@formula(symbol="m", source="lognormal distribution, mean 1", evidence="published", known_by="derived",
         typical={"s": 0.2})  # fmt: skip
def middle_over_mean(s: ONE) -> ONE:
    """Median over mean."""
    return exp(-0.5 * s * s)


@formula(symbol="s_ln", source="19 of 20 lie in the range seen", evidence="convention", known_by="derived",
         typical={"low": 0.9, "high": 1.1, "q": TWO_SIDED})  # fmt: skip
def spread_of_range(low: ONE, high: ONE, q: ONE = TWO_SIDED) -> ONE:
    """Standard deviation of the logarithm of what was seen between two ends."""
    return log(high / low) / (2.0 * q)


@formula(symbol="m", source="lognormal distribution", evidence="published", known_by="derived",
         typical={"middle": 1.2, "s": 0.2, "z": 0.7})  # fmt: skip
def scattered(middle: ONE, s: ONE, z: ONE) -> ONE:
    """What a number is multiplied by where it lies z standard deviations from its middle."""
    return middle * exp(s * z)


@formula(symbol="p_lo", source=WILSON, known_by="memory", typical={"k": 81.0, "n": 263.0, "q": TWO_SIDED})
def least_chance(k: ONE, n: ONE, q: ONE = TWO_SIDED) -> ONE:
    """Lower end of the interval for a chance that k of n samples met."""
    p = k / n
    return (p + q * q / (2.0 * n) - q * sqrt(p * (1.0 - p) / n + q * q / (4.0 * n * n))) / (1.0 + q * q / n)


@formula(symbol="p_hi", source=WILSON, known_by="memory", typical={"k": 81.0, "n": 263.0, "q": TWO_SIDED})
def most_chance(k: ONE, n: ONE, q: ONE = TWO_SIDED) -> ONE:
    """Upper end of the interval for a chance that k of n samples met."""
    p = k / n
    return (p + q * q / (2.0 * n) + q * sqrt(p * (1.0 - p) / n + q * q / (4.0 * n * n))) / (1.0 + q * q / n)


def chance_of(beta: float) -> float:
    """Chance of failure at a safety index: the normal distribution's tail."""
    return 0.5 * math.erfc(beta / math.sqrt(2.0))
