"""NDS 2018 and AWC TR12: two independent forms of one theory, limits and floors."""

import numpy as np
import pytest

from transom.standards import nds, nds_geometry, nds_groups, tr12
from transom.standards.nds import INCH


def members(seed: int) -> dict[str, float]:
    rng = np.random.default_rng(seed)
    return {
        "F_em": rng.uniform(15, 80), "F_es": rng.uniform(15, 600), "F_yb": rng.uniform(200, 600),
        "l_m": rng.uniform(12, 120), "l_s": rng.uniform(5, 80), "D": rng.uniform(6.4, 25), "K_theta": 1.1,
    }  # fmt: skip


@pytest.mark.parametrize("seed", range(20))
def test_dowel_equations_without_a_gap_are_the_yield_limits_mode_by_mode(seed: int) -> None:
    table, dowel = nds.single_shear_modes(**members(seed)), tr12.single_shear_modes(**members(seed), g=0.0)
    for mode, Z in table.items():
        assert dowel[mode] == pytest.approx(Z, rel=1e-12), mode


@pytest.mark.parametrize("seed", range(20))
def test_a_gap_never_helps(seed: int) -> None:
    Z = tr12.single_shear(**members(seed), g=np.array([0.0, 1.0, 3.0, 10.0, 300.0]))
    assert np.all(np.diff(Z) <= 0)
    assert Z[-1] < Z[0]


@pytest.mark.parametrize("seed", range(20))
def test_the_order_of_two_members_does_not_matter(seed: int) -> None:
    m = members(seed)
    back = m | {"F_em": m["F_es"], "F_es": m["F_em"], "l_m": m["l_s"], "l_s": m["l_m"]}
    assert nds.single_shear(**m) == pytest.approx(nds.single_shear(**back), rel=1e-12)
    assert nds.single_shear(**back) == pytest.approx(tr12.single_shear(**m, g=0.0), rel=1e-9)


def test_bearing_at_an_angle_runs_from_along_to_across() -> None:
    F = nds.bearing_at_angle(38.6, 21.7, np.radians([0.0, 45.0, 90.0]))
    np.testing.assert_allclose(F, [38.6, 2 * 38.6 * 21.7 / (38.6 + 21.7), 21.7])


@pytest.mark.parametrize("D", [0.25, 0.375, 0.5, 0.625, 0.75, 1.0])
def test_a_distance_on_its_floor_is_permitted_and_just_below_it_is_not(D: float) -> None:
    full, floor = nds_geometry.end_distance(D * INCH), nds_geometry.end_distance(D * INCH, 3.5)
    assert nds_geometry.geometry_factor(3.5 * D * INCH, full, floor) == pytest.approx(0.5)
    assert nds_geometry.geometry_factor(3.5 * D * INCH - 0.01, full, floor) == 0.0
    assert nds_geometry.geometry_factor(10 * D * INCH, full, floor) == 1.0


def test_edge_distance_grows_with_row_spacing_only_for_slender_bolts() -> None:
    assert nds_geometry.edge_along(12.7, 70.0, 60.0) == pytest.approx(19.05)
    assert nds_geometry.edge_along(12.7, 80.0, 60.0) == pytest.approx(30.0)
    assert nds_geometry.edge_along(12.7, 80.0, 20.0) == pytest.approx(19.05)


def test_one_bolt_carries_its_whole_load_and_more_bolts_a_smaller_share() -> None:
    C_g = nds_groups.row_action_factor(12.7, 50.0, 5e7, 3e7, np.arange(1.0, 9.0))
    assert C_g[0] == pytest.approx(1.0, rel=1e-12)
    assert np.all(np.diff(C_g) < 0)
    assert np.all(C_g > 0)


def test_rigid_members_share_evenly() -> None:
    assert nds_groups.row_action_factor(12.7, 50.0, 1e13, 1e13, 4.0) == pytest.approx(1.0, abs=1e-3)


def test_adjustments_multiply() -> None:
    assert nds.adjusted_value(1000.0, 1.6, 0.7, 0.7, 0.9, 0.5) == pytest.approx(352.8)
