"""The strut's statics, and limits of the acceleration formulas."""

import numpy as np
import pytest

from transom.loads.inertia import (
    iso_acceleration,
    manoeuvring_speed,
    savitsky_brown_acceleration,
    savitsky_brown_bow_acceleration,
    service_acceleration,
    strut_force,
)


def test_moments_about_the_tilt_axis_balance() -> None:
    F_s = strut_force(5340.0, 0.0, 125.0, 180.0, 337.0)
    assert F_s * 337.0 == pytest.approx(5340.0 * 125.0)


def test_a_strut_is_never_pulled_never_overrated_and_stands_aft_of_the_axis() -> None:
    assert strut_force(5340.0, 0.0, -80.0, 200.0, 600.0) == 0.0  # the head has passed over the axis
    assert strut_force(5340.0, 0.0, 400.0, 200.0, 300.0) == 5340.0
    assert strut_force(5340.0, 0.0, 125.0, 180.0, -20.0) == 0.0


def test_braking_lifts_the_engine_off_its_strut_and_nothing_presses_it_down() -> None:
    still = strut_force(5340.0, 0.0, 125.0, 180.0, 337.0)
    braking = strut_force(5340.0, -1068.0, 125.0, 180.0, 337.0)
    assert braking * 337.0 == pytest.approx(5340.0 * 125.0 - 1068.0 * 180.0)
    assert strut_force(5340.0, 667.0, 125.0, 180.0, 337.0) == still
    assert strut_force(5340.0, -1068.0, 125.0, -50.0, 337.0) == still


def test_the_second_factor_only_lowers_the_first_and_only_above_three() -> None:
    n_1, n_2 = np.array([2.0, 2.0, 5.0, 5.0, 20.0]), np.array([1.0, 9.0, 4.0, 9.0, 9.0])
    np.testing.assert_allclose(iso_acceleration(n_1, n_2), [2.0, 2.0, 4.0, 5.0, 7.0])


def test_gravity_comes_on_top() -> None:
    assert service_acceleration(2.5) == 3.5


def test_savitsky_and_brown_in_their_own_feet_and_knots() -> None:
    """0.0104 (H/b + 0.084) (tau/4) (5/3 - beta/30) (V/sqrt L)^2 (L/b)/C: 80 ft by 24, waves of 4.6, 25 knots, trim 4 and
    deadrise 15 degrees, C 0.21; at the bow times 1 + 3.8 (L/b - 2.25)/(V/sqrt L)."""
    L, b, H, V = 80 * 0.3048, 24 * 0.3048, 4.6 * 0.3048, 25 * 1852 / 3600
    n = 0.0104 * (4.6 / 24 + 0.084) * (4 / 4) * (5 / 3 - 15 / 30) * 25**2 / 80 * (80 / 24) / 0.21
    assert savitsky_brown_acceleration(H, b, L, np.radians(15), np.radians(4), V, 0.21) == pytest.approx(n)
    bow = n * (1 + 3.8 * (80 / 24 - 2.25) / (25 / np.sqrt(80)))
    assert savitsky_brown_bow_acceleration(n, b, L, V) == pytest.approx(bow)


def test_manoeuvring_speed_is_seven_knots_times_the_root_of_the_length() -> None:
    assert manoeuvring_speed(9.0) == pytest.approx(21 * 1852 / 3600)
