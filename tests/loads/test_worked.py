"""Steps across between kg, m, s and N, mm, and what a default stands for, worked by hand."""

from math import pi, sqrt

import pytest

from tests.loads.engines import forty
from transom.loads import crossing, geometry, height, inertia, thrust
from transom.loads.cases import fault_of
from transom.loads.inputs import OwnCase
from transom.loads.powering import federal_horsepower
from transom.loads.road import rows_of
from transom.loads.situations import straight, sweep


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


@pytest.mark.parametrize("a, far", [(5.0, 5.0), (10.0, 0.0), (15.0, 0.0), (20.0, 0.0), (26.0, 6.0)])
def test_beyond_a_band_either_way(a: float, far: float) -> None:
    assert height.beyond(a, 10.0, 20.0) == pytest.approx(far)


@pytest.mark.parametrize("band", [(0.0, 10.0), (-10.0, 0.0)])
def test_both_ends_of_the_starting_band_are_within_it(band: tuple[float, float]) -> None:
    """Plate level with the bottom by the lowest hole."""
    h = height.height(bottom=508.0, shaft=508.0, below_plate=190.0, diameter=355.6, band=band)
    assert h.start.hole == 1
    assert h.within


def test_without_a_setback_nothing_is_added() -> None:
    given = {"bottom": 508.0, "shaft": 508.0, "below_plate": 190.0, "diameter": 355.6}
    assert height.height(**given, band=(-5.0, 5.0)).low == -5.0  # type: ignore[arg-type]
    assert height.height(**given, band=(-5.0, 5.0), setback=100.0).low == 5.0  # type: ignore[arg-type]


def test_straight_cases_have_no_torque_and_no_stop() -> None:
    assert straight("ahead") == (("ahead", 0.0, 0.0, False), ("ahead-light", 0.0, 0.0, True))


@pytest.mark.parametrize("times, good", [(0.0, False), (-1.0, False), (0.01, True)])
def test_an_own_case_is_some_times_its_like(times: float, good: bool) -> None:
    fault = fault_of(OwnCase("surf", "wave", times, "r"), "surf", {"wave"})
    assert (fault == "") is good


def test_the_table_of_small_boats_holds_up_to_its_last_factor() -> None:
    """52.5 itself is in the table, 15 hp; by the rule of other bottoms it would be 0.8 x 52.5 - 25 = 17, so 20."""
    assert federal_horsepower(52.5 * 304.8, 304.8, remote=False, flat=False) == 15.0
    assert federal_horsepower(53.0 * 304.8, 304.8, remote=False, flat=False) == 20.0


def test_thrust_in_round_figures() -> None:
    """Disc 1 m2: T^3 = FM^2 2 rho A P^2; 1000 kg/m3 and 2 W: 8000."""
    assert thrust.disc_area(2.0) == pytest.approx(pi)
    assert thrust.thrust_bound(2.0, 1.0, 1000.0) == pytest.approx(20.0)
    assert thrust.disc_thrust(2.0, 1.0, 1000.0, 0.5) == pytest.approx(2000 ** (1 / 3))
    assert thrust.disc_power(20.0, 1.0, 1000.0, 1.0) == pytest.approx(2.0)
    assert thrust.rated_torque(4 * pi, 2.0) == pytest.approx(1.0)
    assert thrust.thrust_at_torque(30.0, 0.25, 0.4, 0.04) == pytest.approx(1200.0)
    assert thrust.characteristic_thrust(1000.0, 800.0) == pytest.approx(960.0)
    assert thrust.characteristic_thrust(900.0, 800.0) == pytest.approx(900.0)
    assert thrust.thrust_under_way(20_000.0, 10.0, 0.6, 3000.0) == pytest.approx(1200.0)
    assert thrust.thrust_under_way(20_000.0, 1.0, 0.6, 3000.0) == pytest.approx(3000.0)
    assert thrust.figure_of_merit(0.5, 0.05) == pytest.approx(0.5 * sqrt(0.5 / 2 / pi**3) / 0.05)
    assert thrust.slip(9.0, 12.0) == pytest.approx(0.25)


def test_steered_and_tilted_by_a_right_angle() -> None:
    """Steered hard over, what lay 100 aft of the axis lies 100 to starboard; tilted up, aft turns up and up forward."""
    turn = pi / 2
    assert geometry.steered_x(150.0, 250.0, turn) == pytest.approx(150.0)
    assert geometry.steered_y(150.0, 250.0, 20.0, turn) == pytest.approx(120.0)
    assert geometry.thrust_y(1000.0, turn) == pytest.approx(-1000.0)
    assert geometry.thrust_x(1000.0, 0.0) == pytest.approx(-1000.0)
    assert geometry.torque_x(10.0, -1.0, 0.0) == pytest.approx(-10.0)
    assert geometry.torque_y(10.0, -1.0, turn) == pytest.approx(-10.0)
    assert geometry.tilted_x(40.0, 100.0, 30.0, turn) == pytest.approx(10.0)
    assert geometry.tilted_z(20.0, 100.0, 30.0, turn) == pytest.approx(120.0)
    assert geometry.turned_round(0.25) == pytest.approx(pi - 0.25)
    assert geometry.tilt_angle(1.0, 0.5) == 0.5
    assert geometry.tilt_angle(0.25, 0.5) == 0.25


def test_acceleration_of_the_boat_rule_is_capped() -> None:
    """Up to 3 g the first value decides, above it the smaller of both, never more than 7 g."""
    assert inertia.iso_acceleration(3.0, 1.0) == 3.0
    assert inertia.iso_acceleration(3.5, 1.0) == 1.0
    assert inertia.iso_acceleration(9.0, 8.0) == 7.0
    assert inertia.iso_second_acceleration(10 * 1852 / 3600, 1000.0) == pytest.approx(5 * 1000**-0.17)
    assert inertia.service_acceleration(2.0) == 3.0
    assert inertia.manoeuvring_speed(9.0) == pytest.approx(21 * 1852 / 3600)


@pytest.mark.parametrize("stop, steps", [(19.0, 1), (20.0, 1), (21.0, 2), (40.0, 2), (41.0, 3), (90.0, 5)])
def test_steering_is_swept_in_steps_of_twenty_degrees_at_most(stop: float, steps: int) -> None:
    """Both sides, two hands and two weights of each step."""
    rows = list(sweep("hard-over", stop * pi / 180))
    assert len(rows) == 8 * steps
    assert max(abs(r[1]) for r in rows) == 1.0
    assert {r[2] for r in rows} == {1.0, -1.0}


def test_heights_on_the_road_lie_as_far_below_as_above() -> None:
    x = forty(dz_cg=100.0)
    rows = rows_of(x)
    by_end = {n.rsplit("-", 1)[1]: float(h) for n, h in zip(rows.names, rows.height, strict=True)}
    assert by_end == {"low": -1.0, "mid": 0.0, "high": 1.0}
    assert {float(h) for h in rows_of(forty(dz_cg=0.0)).height} == {0.0}
    assert len(rows_of(forty(dz_cg=0.5)).names) == len(rows.names)
