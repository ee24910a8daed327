"""Metal parts: limits and turned-round formulas. Printed values stand in materials/published."""

import numpy as np
import pytest

from transom.standards import adm, aisc, d510, ec3, ec9, galvanic, iiw, shigley, wood_handbook


def test_bearing_takes_the_least_of_end_bolt_and_plate() -> None:
    assert ec3.bearing_alpha(0.6, 700.0, 275.0) == 0.6
    assert ec3.bearing_alpha(3.0, 700.0, 275.0) == 1.0
    assert ec3.bearing_alpha(3.0, 200.0, 400.0) == 0.5
    assert ec9.bearing_alpha(ec9.inner_bolt_alpha(29.25, 13.0), 700.0, 275.0) == pytest.approx(0.5)


def test_practice_in_metal_is_stricter_than_the_document_for_every_stocked_bolt() -> None:
    d = np.array([6.0, 8.0, 10.0, 12.0, 14.0, 16.0, 20.0, 24.0])
    d_0 = d + np.array([0.5, 1.0, 1.0, 1.0, 1.0, 2.0, 2.0, 2.0])
    assert np.all(ec3.practice_edge(d) >= ec3.least_edge(d_0))
    assert np.all(ec3.practice_pitch(d) >= ec3.least_pitch(d_0))
    np.testing.assert_allclose(ec3.least_edge(d_0), 1.2 * d_0)
    np.testing.assert_allclose(ec3.least_pitch(d_0), 2.2 * d_0)


def test_fillet_resistances_are_the_comparison_stress_at_its_limit() -> None:
    area = 4.0 * 100.0
    along = ec9.longitudinal_fillet_resistance(210.0, 4.0, 100.0) / area
    across = ec9.transverse_fillet_resistance(210.0, 4.0, 100.0) / area / np.sqrt(2)
    limit = ec9.weld_strength(210.0)
    assert ec9.fillet_stress(0.0, 0.0, along) == pytest.approx(limit)
    assert ec9.fillet_stress(across, across, 0.0) == pytest.approx(limit)


def test_tear_out_stops_counting_at_two_diameters() -> None:
    np.testing.assert_allclose(adm.bearing_strength(np.array([20.0, 25.4, 60.0]), 12.7, 6.0, 262.0),
                               np.array([20.0, 25.4, 25.4]) * 6.0 * 262.0)  # fmt: skip
    assert adm.allowable_strength(1950.0) == pytest.approx(1000.0)


def test_plate_at_its_required_thickness_stands_its_pressure() -> None:
    t = aisc.plate_thickness(25.0, 7.0, 215.0, 1.1)
    assert aisc.plate_pressure_resistance(25.0, t, 215.0, 1.1) == pytest.approx(7.0)
    assert aisc.elastic_plate_thickness(25.0, 7.0, 215.0, 1.1) == pytest.approx(np.sqrt(1.5) * t)


def test_shear_below_its_threshold_takes_no_tension_strength() -> None:
    assert aisc.tension_strength_with_shear(620.0, 372.0, 0.0) == 620.0


def test_torque_and_clamp_load_turn_round() -> None:
    K = np.array([0.12, 0.2, 0.3])
    F = shigley.clamp_load_at_torque(40e3, K, 12.0)
    np.testing.assert_allclose(shigley.torque(K, 12.0, F), 40e3)
    assert F[0] > F[-1]


def test_nut_factor_of_a_frictionless_thread_is_its_lead_alone() -> None:
    assert shigley.nut_factor(10.9, 12.0, 0.05, 0.0, 0.0) == pytest.approx(0.05 * 10.9 / 24.0)


def test_gross_stress_has_no_sign_and_meets_the_allowable_at_capacity() -> None:
    m = 1.25 * 0.75 * 287.28
    allowed = d510.allowable_stress(d510.gross_bending_stress(287.28, 18.26), 1.25, 0.75)
    np.testing.assert_allclose(d510.gross_stress(np.array([m, -m]), 18.26), allowed)


def test_wood_is_weaker_the_wetter_it_is_up_to_the_green_value() -> None:
    P = wood_handbook.at_moisture(85.49, 53.09, np.array([8.0, 12.0, 18.0, 24.0]), 24.0)
    assert np.all(np.diff(P) < 0)
    assert P[2] == pytest.approx(np.sqrt(85.49 * 53.09))


def test_anodic_difference_has_no_order() -> None:
    assert galvanic.anodic_difference(0.9, 0.5) == galvanic.anodic_difference(0.5, 0.9) == pytest.approx(0.4)


def test_bearing_share_is_the_least_of_place_bolt_and_one() -> None:
    """EN 1999-1-1, Table 8.5: far from any edge and in soft metal all of it counts, and no more."""
    assert ec9.bearing_alpha(1.8, 800.0, 275.0) == 1.0
    assert ec9.bearing_alpha(0.6, 800.0, 275.0) == 0.6
    assert ec9.bearing_alpha(1.8, 220.0, 275.0) == pytest.approx(0.8)


def test_a_life_that_goes_by_a_five_hundredth_an_hour_lasts_five_hundred() -> None:
    assert iiw.hours(0.002) == pytest.approx(500.0)
    assert iiw.damage(np.array([6.0, 60.0]), np.array([600.0, 3000.0])) == pytest.approx(0.03)
