"""Published reliability cases: in closed form, and by the sampler within its own error."""

import math
from collections.abc import Callable

import numpy as np
import pytest

from transom.chance.reliability import (
    chance_of,
    least_chance,
    log_spread,
    middle_over_low,
    middle_over_mean,
    most_chance,
    safety_index,
    scattered,
)
from transom.chance.sampling import Sums, draws
from transom.units import Array

N = 1_000_000
RARE = 3.29  # 999 of 1,000 such runs lie in the interval


def over(fails: Callable[[Array], Array], seed: int = 1) -> int:
    return sum(int(np.sum(fails(z))) for z in draws(N, 2, seed))


def test_normal_strength_and_load_in_closed_form() -> None:
    """R N(200, 10), S N(100, 20): failure probability printed as 3.872108e-06."""
    beta = float(safety_index(200.0, 100.0, 10.0, 20.0))
    assert chance_of(beta) == pytest.approx(3.872108e-06, abs=0.5e-12)


def normal(z: Array) -> Array:
    """R N(200, 20), S N(150, 10)."""
    return np.asarray(200.0 + 20.0 * z[:, 0] < 150.0 + 10.0 * z[:, 1])


def lognormal(z: Array) -> Array:
    """R and S lognormal, means 2 and 1, V 0.10 and 0.25."""
    mean, V = (2.0, 1.0), (0.10, 0.25)
    R, S = (
        m * float(middle_over_mean(float(log_spread(v)))) * np.asarray(scattered(1.0, float(log_spread(v)), z[:, i]))
        for i, (m, v) in enumerate(zip(mean, V, strict=True))
    )
    return np.asarray(R < S)


@pytest.mark.parametrize(("fails", "printed"), [(normal, 0.0126737), (lognormal, 3.42004e-3)])
def test_the_sampler_finds_the_published_chance(fails: Callable[[Array], Array], printed: float) -> None:
    k = over(fails)
    low, high = float(least_chance(k, N, RARE)), float(most_chance(k, N, RARE))
    assert low < printed < high
    assert high - low < 0.15 * printed  # a chance a tenth off would be seen


def test_the_interval_holds_the_true_chance_19_times_in_20() -> None:
    p, n, runs = 0.02, 500, 4000
    k = np.random.default_rng(3).binomial(n, p, runs)
    held = (np.asarray(least_chance(k, n)) <= p) & (p <= np.asarray(most_chance(k, n)))
    assert 0.94 < held.mean() < 0.98


def test_a_low_value_is_exceeded_by_19_of_20() -> None:
    s = float(log_spread(0.16))
    z = np.random.default_rng(4).standard_normal(400_000)
    strengths = np.asarray(scattered(float(middle_over_low(s)), s, z))
    assert np.mean(strengths > 1.0) == pytest.approx(0.95, abs=0.002)
    assert np.std(strengths) / np.mean(strengths) == pytest.approx(0.16, abs=0.002)


def test_shares_are_those_of_a_known_sum() -> None:
    sums = Sums.none(1, 3)
    for z in draws(100_000, 3, 5):
        sums = sums.with_chunk(z, np.exp(0.3 * z[:, 0] + 0.4 * z[:, 1])[None])
    assert sums.shares(0) == pytest.approx([0.36, 0.64, 0.0], abs=0.01)
    assert int(sums.over[0]) == pytest.approx(50_000, abs=700)


def test_what_is_no_number_is_over() -> None:
    u = np.array([[math.nan, math.inf, 1.0, 0.5, 1.0000001]])
    assert Sums.none(1, 1).with_chunk(np.zeros((5, 1)), u).over[0] == 3
