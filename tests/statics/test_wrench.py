"""Wrenches against the cross product and a rotation matrix, and a lean by signs."""

import numpy as np
import pytest

from transom.statics.wrench import about, board_actions, turned

WRENCH = np.array([-3234.0, 120.0, -1335.0, 5e4, 2.438e6, -3e4])


def test_moving_a_wrench_is_the_cross_product() -> None:
    r = np.array([40.0, -150.0, 20.0])
    moved = about(WRENCH, *r)
    np.testing.assert_allclose(moved[3:], WRENCH[3:] - np.cross(r, WRENCH[:3]))
    np.testing.assert_allclose(about(moved, *-r), WRENCH)


def test_turning_is_a_rotation_about_the_y_axis() -> None:
    theta = 0.25
    R = np.array([[np.cos(theta), 0, -np.sin(theta)], [0, 1, 0], [np.sin(theta), 0, np.cos(theta)]])
    both = turned(np.stack([WRENCH, 2 * WRENCH]), theta)
    np.testing.assert_allclose(both[0], np.concatenate([R @ WRENCH[:3], R @ WRENCH[3:]]))
    np.testing.assert_allclose(both[1], 2 * both[0])
    np.testing.assert_allclose(turned(turned(WRENCH, theta), -theta), WRENCH)


def test_lean_makes_weight_pull_off_the_board_and_thrust_press_down_on_it() -> None:
    theta = np.radians(14)
    weight = turned(np.array([0, 0, -1000.0, 0, 0, 0]), theta)
    thrust = turned(np.array([-1000.0, 0, 0, 0, 0, 0]), theta)
    np.testing.assert_allclose(weight[[0, 2]], [1000 * np.sin(theta), -1000 * np.cos(theta)])
    np.testing.assert_allclose(thrust[[0, 2]], [-1000 * np.cos(theta), -1000 * np.sin(theta)])


def test_mid_thickness_is_the_wrench_about_a_point_half_a_board_forward() -> None:
    t = np.array([[30.0], [50.0]])
    a = board_actions(WRENCH[None, :], t)
    for i, thickness in enumerate(t[:, 0]):
        there = about(WRENCH, -thickness / 2, 0.0, 0.0)
        assert a.M[i, 0] == pytest.approx(there[4])
        assert a.M_z[i, 0] == pytest.approx(there[5])
    assert a.N[0] == 3234.0
    assert a.M.shape == (2, 1)


@pytest.mark.parametrize("v", [2, 6])
def test_many_wrenches_are_moved_each_as_if_alone(v: int) -> None:
    many = np.random.default_rng(3).normal(size=(v, 6))
    moved = about(many, 10.0, -20.0, 30.0)
    assert moved.shape == (v, 6)
    for one, found in zip(many, moved, strict=True):
        assert found == pytest.approx(np.concatenate([one[:3], one[3:] - np.cross([10.0, -20.0, 30.0], one[:3])]))
