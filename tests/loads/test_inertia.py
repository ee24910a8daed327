"""The strut's statics, and limits of the acceleration formulas."""

import numpy as np
import pytest

from transom.loads.inertia import iso_acceleration, service_acceleration, strut_force


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
