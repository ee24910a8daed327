"""Steps across between kg, m, s and N, mm, and what a default stands for, worked by hand."""

import pytest

from transom.loads import crossing, inertia


def test_steps_across_are_a_thousand_and_standard_gravity() -> None:
    assert crossing.torque_in_n_mm(100.0) == pytest.approx(1e5)
    assert crossing.length_in_m(1500.0) == pytest.approx(1.5)
    assert crossing.weight(100.0) == pytest.approx(980.665)
    assert crossing.inertia_force(100.0, 3.0, -1.0) == pytest.approx(-2941.995)


@pytest.mark.parametrize(
    "r_x, F_x, r_s, share",
    [
        (165.0, 0.0, 330.0, 500.0),  # half way out
        (0.5, 0.0, 1.05, 500.0 / 1.05),  # a strut that stands 1.05 aft still holds
        (0.5, 0.0, 1.0, 0.0),  # at 1 mm it stands at the axis
        (660.0, 0.0, 330.0, 1000.0),  # never more than the load
    ],
)
def test_strut_by_moments_about_the_tilt_axis(r_x: float, F_x: float, r_s: float, share: float) -> None:
    assert inertia.strut_force(1000.0, F_x, r_x, 0.0, r_s) == pytest.approx(share)


def test_an_engine_thrown_forward_presses_less_on_its_strut() -> None:
    """1000 N at 165 aft, and 500 N forward (-x) at 130 above the axis: 165,000 - 65,000 over 330."""
    assert inertia.strut_force(1000.0, -500.0, 165.0, 130.0, 330.0) == pytest.approx(100_000 / 330)
    assert inertia.strut_force(1000.0, 500.0, 165.0, 130.0, 330.0) == pytest.approx(500.0)
    assert inertia.strut_force(1000.0, -5000.0, 165.0, 130.0, 330.0) == 0.0
