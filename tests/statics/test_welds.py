"""Weld groups as lines. Printed values stand in materials/published."""

import numpy as np
import pytest

from transom.statics.welds import (
    greatest_shear_per_length,
    leg,
    parent_metal_strength_per_length,
    ring_second_moment,
    throat,
    throat_normal_stress,
    throat_shear_stress,
    weld_forces,
    weld_group,
)

PAIR = weld_group(np.array([0.0, 0.0]), np.array([25.0, -25.0]), np.array([50.0, 50.0]), np.array([25.0, -25.0]))
UPRIGHT = weld_group(np.array([-50.0, 50.0]), np.array([-200.0] * 2), np.array([-50.0, 50.0]), np.array([200.0] * 2))
GROUPS = [PAIR, UPRIGHT]


def test_shigley_10th_ed_problem_9_17() -> None:
    """Two welds 50 long, 50 apart, F at 150 beyond their ends, leg 5: 23.1 F (F in kN), 6.06 kN at 140 MPa (from memory)."""
    assert pytest.approx(83333.3, abs=0.05) == PAIR.J
    force = weld_forces(np.array([0.0, 0.0, -1000.0, -1000.0 * 200.0, 0.0, 0.0]), PAIR).largest
    stress = force / 5.0 / 0.707
    assert stress == pytest.approx(23.1, abs=0.05)
    assert 140.0 / stress == pytest.approx(6.06, abs=0.006)


def test_bhandari_8_13_from_the_load() -> None:
    """50 kN at 300 mm from two upright welds of 400: 62.5 direct, 281.25 bending N/mm; throat 2.198406 mm at 70 MPa."""
    f = weld_forces(np.array([0.0, 0.0, -50e3, 0.0, 50e3 * 300.0, 0.0]), UPRIGHT)
    assert np.max(np.abs(f.out)) == pytest.approx(281.25)
    assert np.abs(f.up) == pytest.approx(62.5)
    assert greatest_shear_per_length(281.25, 62.5) / 70.0 == pytest.approx(2.198406, abs=5e-7)
    assert f.largest / 70.0 == pytest.approx(4.116, abs=5e-4)


@pytest.mark.parametrize("group", GROUPS)
def test_forces_along_the_lines_add_up_to_the_load(group: object) -> None:
    """Straight between the ends, so that Simpson's rule on each line is exact."""
    wrench = np.array([300.0, -500.0, 900.0, 4e4, -3e4, 7e4])
    f = weld_forces(wrench, group)
    k = len(group.ends_y) // 2
    y, z = group.ends_y + group.y_c, group.ends_z + group.z_c
    length = np.hypot(y[k:] - y[:k], z[k:] - z[:k])

    def along(a: np.ndarray) -> float:
        middle = (a[:k] + a[k:]) / 2
        return float(np.sum(length * (a[:k] + 4 * middle + a[k:]) / 6))

    def moment(a: np.ndarray, r: np.ndarray) -> float:
        both = (a[:k] + a[k:]) / 2 * (r[:k] + r[k:]) / 2
        return float(np.sum(length * (a[:k] * r[:k] + 4 * both + a[k:] * r[k:]) / 6))

    found = [along(f.out), along(f.across), along(f.up), moment(f.up, y) - moment(f.across, z),
             moment(f.out, z), -moment(f.out, y)]  # fmt: skip
    assert found == pytest.approx(list(wrench), rel=1e-9)


def test_a_polygon_comes_to_the_ring() -> None:
    a = np.linspace(0, 2 * np.pi, 721)
    y, z = 40 * np.cos(a), 40 * np.sin(a)
    assert weld_group(y[:-1], z[:-1], y[1:], z[1:]).I_y == pytest.approx(ring_second_moment(40.0), rel=1e-4)


def test_throat_stresses_of_one_leg_are_equal() -> None:
    assert throat_normal_stress(100.0, 0.0, 4.0) == throat_shear_stress(100.0, 0.0, 4.0)
    assert leg(throat(5.0)) == pytest.approx(5.0)


def test_parent_metal_counts_the_leg() -> None:
    assert parent_metal_strength_per_length(54.8, 6.0) == pytest.approx(54.8 * 6 / 1.25)


def test_what_is_no_group_is_refused() -> None:
    one = np.array([0.0])
    with pytest.raises(ValueError, match="without length"):
        weld_group(one, one, one, one)
    line = weld_group(one, one, one, np.array([100.0]))
    with pytest.raises(ValueError, match="one line"):
        weld_forces(np.zeros(6), line)


def test_every_wrench_has_its_own_largest_force() -> None:
    """Two at once: each as if alone."""
    both = np.array([[0.0, 0.0, -1000.0, -200_000.0, 0.0, 0.0], [500.0, 300.0, 0.0, 0.0, 5e4, -2e4]])
    found = weld_forces(both, PAIR).largest
    assert found.shape == (2,)
    assert found.tolist() == pytest.approx([float(weld_forces(w, PAIR).largest) for w in both])
