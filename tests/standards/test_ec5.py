"""EN 1995-1-1: what must hold whatever the numbers are. Printed values stand in materials/published."""

import numpy as np
import pytest

from transom.standards import ec5, ec5_lateral, ec5_spacing

PLYWOOD = {"f_h_k": 44.528, "t_1": 42.0, "d": 12.0, "M_y_Rk": 134304.0}


def test_plate_is_thin_to_half_a_diameter_and_thick_from_one() -> None:
    t_p = np.array([2.0, 6.0, 7.5, 9.0, 12.0, 20.0])
    F = ec5_lateral.one_plate(**PLYWOOD, t_p=t_p)
    thin = ec5_lateral.least(ec5_lateral.thin_plate_modes(**PLYWOOD))
    thick = ec5_lateral.least(ec5_lateral.thick_plate_modes(**PLYWOOD))
    np.testing.assert_allclose(F[:2], thin)
    np.testing.assert_allclose(F[4:], thick)
    np.testing.assert_allclose(F[2:4], thin + (thick - thin) * np.array([0.25, 0.5]))


def test_rope_effect_is_a_quarter_of_the_pull_and_at_most_a_quarter_of_the_mode() -> None:
    assert ec5_lateral.rope_effect(8000.0, 4000.0) == 1000.0
    assert ec5_lateral.rope_effect(8000.0, 1e9) == 2000.0


def test_no_pull_no_rope_effect_and_a_pull_never_more_than_a_quarter() -> None:
    bare = ec5_lateral.one_plate(**PLYWOOD, t_p=10.0)
    assert ec5_lateral.one_plate(**PLYWOOD, t_p=10.0, F_ax_Rk=0.0) == bare
    assert bare < ec5_lateral.one_plate(**PLYWOOD, t_p=10.0, F_ax_Rk=1e9) <= 1.25 * bare


def johansen(f_1: float, t_1: float, f_2: float, t_2: float, d: float, M: float) -> float:
    """Least of the moments about the joint: where each member crushes, and where the bolt yields in one or in both."""
    p_1, p_2 = f_1 * d, f_2 * d  # N/mm
    both = max(np.roots([1 / p_1 + 1 / p_2, 2 * (t_1 + t_2), -(p_1 * t_1**2 + p_2 * t_2**2)]))
    one = [max(np.roots([1 / p + 2 / q, 2 * t, -(p * t**2 + 4 * M)])) for p, t, q in ((p_1, t_1, p_2), (p_2, t_2, p_1))]
    two = np.sqrt(4 * M / (1 / p_1 + 1 / p_2))
    return float(min(p_1 * t_1, p_2 * t_2, both, 1.05 * min(one), 1.15 * two))


@pytest.mark.parametrize("seed", range(20))
def test_the_order_of_two_wooden_members_does_not_matter(seed: int) -> None:
    rng = np.random.default_rng(seed)
    f_1, f_2 = rng.uniform(10, 60, 2)
    t_1, t_2 = rng.uniform(12, 90, 2)
    d = rng.uniform(6, 20)
    M = ec5.yield_moment(rng.uniform(360, 800), d)
    there = ec5_lateral.wood_single(f_1, f_2, t_1, t_2, d, M)
    back = ec5_lateral.wood_single(f_2, f_1, t_2, t_1, d, M)
    assert there == pytest.approx(back, rel=1e-12)
    assert there == pytest.approx(johansen(f_1, t_1, f_2, t_2, d, M), rel=1e-9)


def test_double_shear_of_a_thick_middle_is_single_shear_of_the_side_for_each_plane() -> None:
    sides = {"f_h_1_k": 25.0, "f_h_2_k": 25.0, "t_1": 30.0, "t_2": 500.0, "d": 12.0, "M_y_Rk": 76745.0}
    assert ec5_lateral.wood_double(**sides) == pytest.approx(ec5_lateral.wood_single(**sides), rel=1e-12)
    # One hinge: 1.05 x 9000/3 (sqrt(4 + 12 x 76,745/(300 x 30^2)) - 1)
    assert ec5_lateral.wood_double(**sides) == pytest.approx(5425.23, abs=0.01)


def test_a_number_that_is_missing_is_not_skipped() -> None:
    assert np.isnan(ec5_lateral.one_plate(44.5, 42.0, 12.0, np.nan, t_p=6.0))
    assert np.isnan(ec5_lateral.least({"a": 1.0, "b": np.nan}))


def test_candidates_and_cases_broadcast() -> None:
    F = ec5_lateral.one_plate(44.5, np.array([[30.0], [42.0], [60.0]]), 12.0, 134304.0, np.full((1, 5), 10.0))
    assert F.shape == (3, 5)
    assert np.all(np.diff(F[:, 0]) >= 0)


def test_embedment_turns_from_along_to_across_the_grain() -> None:
    along = ec5.embedment_along(12.0, 350.0)
    assert ec5.embedment_at_angle(along, 1.53, 0.0) == along
    assert ec5.embedment_at_angle(along, 1.53, np.pi / 2) == pytest.approx(along / 1.53)


def test_interactions_are_one_at_either_limit_and_their_roots_follow_the_load() -> None:
    assert ec5.axial_lateral_interaction(5000.0, 5000.0, 0.0, 4000.0) == 1.0
    assert ec5.axial_lateral_interaction(0.0, 5000.0, 4000.0, 4000.0) == 1.0
    assert ec5.axial_lateral_utilisation(3000.0, 5000.0, 3200.0, 4000.0) == pytest.approx(1.0)
    u = ec5.veneer_utilisation(6.0, 12.0, 0.5, 2.0)
    assert ec5.veneer_utilisation(12.0, 12.0, 1.0, 2.0) == pytest.approx(2 * u)
    assert u**2 == pytest.approx(ec5.veneer_interaction(6.0, 12.0, 0.5, 2.0))


def test_a_loaded_edge_below_four_diameters_costs_its_share_and_nothing_above() -> None:
    k = ec5_spacing.cross_banded_edge_factor(np.array([42.0, 45.0, 48.0, 90.0]), 12.0)
    np.testing.assert_allclose(k, [0.875, 0.9375, 1.0, 1.0])


def test_a_row_counts_in_full_across_the_grain_and_never_for_more_than_its_bolts() -> None:
    assert ec5_spacing.effective_number(3.0, 1e4, 12.0) == 3.0
    n_ef = ec5_spacing.effective_number(3.0, 60.0, 12.0)
    assert ec5_spacing.effective_number_at_angle(3.0, n_ef, 0.0) == n_ef
    assert ec5_spacing.effective_number_at_angle(3.0, n_ef, np.pi / 2) == pytest.approx(3.0)


def test_spacing_takes_an_obtuse_angle_as_its_acute_one() -> None:
    for rule in (ec5_spacing.spacing_along, ec5_spacing.unloaded_end, ec5_spacing.loaded_edge):
        assert rule(12.0, np.radians(150.0)) == pytest.approx(rule(12.0, np.radians(30.0)))
        assert rule(12.0, np.radians(-30.0)) == pytest.approx(rule(12.0, np.radians(30.0)))
        assert rule(12.0, np.radians(30.0)) >= 3 * 12.0


def test_pull_and_sideways_add_as_squares() -> None:
    """(8.28): half of either is a quarter each; three tenths beside six are 0.45, its root 0.67."""
    assert ec5.axial_lateral_interaction(500.0, 1000.0, 200.0, 400.0) == pytest.approx(0.5)
    assert ec5.axial_lateral_interaction(300.0, 1000.0, 240.0, 400.0) == pytest.approx(0.09 + 0.36)
    assert ec5.axial_lateral_utilisation(300.0, 1000.0, 240.0, 400.0) == pytest.approx(0.45**0.5)
