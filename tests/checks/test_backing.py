"""Washers and plates on wood against figures worked with a pocket calculator: EN 1995-1-1:2004 8.5.2, 10.4.3."""

from dataclasses import replace
from math import pi, sqrt

import numpy as np
import pytest

from tests.checks.shop import AHEAD, BOLTS, MOUNT, alone, on_board, plate, row, setup_of, trial, with_bolts
from transom.checks.hardware import hardware
from transom.checks.trial import Trial
from transom.job.records import Backing, Hole, Layer, Mount
from transom.standards.ec5 import least_washer_side, least_washer_thickness

T = 5251.4  # N, upper bolt ahead with prying; worked in test_board.py
CRUSH = "backing.wood-crushing-upper-bolts.ec5"


def washer(name: str, thread: str = "1/2-13", grade: str = "F593C") -> Mount:
    return with_bolts(thread=thread, grade=grade, forward=Backing(washer=name))


def test_plate_for_a_pair() -> None:
    """p_d = 3 x 2.24 x 0.7/1.2 = 3.92; reach 19.05/2 + 6.35 sqrt(240/(2 x 3.92 x 1.1)) = 9.525 + 33.50 = 43.02.

    Inner 43.02 (towards the other bolt), outer (381 - 327)/2 = 27, up and down 38.1, hole 13.5:
    70.02 x 76.2 - 143.1 = 5192.7 mm^2; x 3.92 = 20,355 N.
    """
    one = row(trial(), CRUSH, "ahead")
    assert one.demand == pytest.approx(T, rel=1e-4)
    assert one.resistance == pytest.approx(20355, rel=1e-3)


def test_thin_plate_spreads_less() -> None:
    """3.175 mm: under 0.3 x 12.7 = 3.81, so f_c,90 once: 1.3067 MPa; reach 9.525 + 3.175 sqrt(240/2.8747) = 38.53.

    Inner 38.53, outer 27, 76.2 high: 65.53 x 76.2 - 143.1 = 4850 mm^2; x 1.3067 = 6337 N.
    """
    assert row(trial(mount=plate(3.175)), CRUSH, "ahead").resistance == pytest.approx(6337, rel=1e-3)


def test_plate_per_bolt() -> None:
    """76.2 square, reach to its own edge 38.1 on each side: 76.2^2 - 143.1 = 5663 mm^2; x 3.92 = 22,200 N."""
    one = row(trial(mount=plate(width=76.2, per="bolt")), CRUSH, "ahead")
    assert one.resistance == pytest.approx(22200, rel=1e-3)


def test_plate_for_all_is_one_piece() -> None:
    """381 x 280 for all: up (280 - 203.2)/2 = 38.4, down to reach 43.02: 70.02 x 81.42 - 143.1 = 5558; x 3.92 = 21,787."""
    of = trial(mount=plate(height=280.0, per="all"))
    assert row(of, CRUSH, "ahead").resistance == pytest.approx(21787, rel=1e-3)
    assert row(of, "backing.plate-room").passes


def test_wide_washer_too_thin_counts_once() -> None:
    """1/2 wide: 44.45 across but 2.54 thick, under 3.81: 1.3067 MPa on its stiff part.

    Reach 2.54 sqrt(205/(2 x 1.3067 x 1.1)) = 21.45 beyond 19.05: 61.9, so all of it:
    pi/4 (44.45^2 - 13.49^2) = 1408.9 mm^2; x 1.3067 = 1841 N: a third of the pull.
    """
    one = row(trial(mount=washer("1/2 wide")), CRUSH, "ahead")
    assert one.resistance == pytest.approx(1841, rel=1e-3)
    assert not one.passes


def test_thick_washer_counts_three_times() -> None:
    """M12 extra large: 44 >= 36 and 4 >= 3.6: 3.92 MPa; reach 18 + 2 x 4 sqrt(205/8.624) = 57.0, so 44.

    pi/4 (44^2 - 13.5^2) = 1377.4 mm^2; x 3.92 = 5399 N.
    """
    one = row(trial(mount=washer("M12 extra large", "M12", "A4-70")), CRUSH, "ahead")
    assert one.resistance == pytest.approx(5399, rel=1e-3)


def test_narrow_washer_counts_once_by_its_side() -> None:
    """M20 normal: 37 across, under 60: f_c,90 once whatever its thickness. pi/4 (37^2 - 21^2) = 728.8 x 1.3067 = 952."""
    one = row(trial(mount=washer("M20 normal", "M20", "A4-70")), CRUSH, "ahead")
    assert one.resistance == pytest.approx(952.4, rel=2e-3)


def test_lower_row_takes_its_own_tension() -> None:
    """Astern 3946.5 N a lower bolt; 43.02 both ways: 86.05 x 76.2 - 143.1 = 6413.6 mm^2; x 3.92 = 25,141 N."""
    of = trial()
    one = row(of, "backing.wood-crushing-lower-bolts.ec5", "astern")
    assert one.demand == pytest.approx(3946.5, rel=1e-4)
    assert one.resistance == pytest.approx(25141, rel=1e-3)
    assert row(of, CRUSH, "astern").demand == 0.0


def test_own_bending() -> None:
    """p = 5251.4/5192.7 = 1.0113 over 43.02 - 9.525 = 33.50: 567.4 N mm/mm; 6.35^2 x 240/(4 x 1.1) = 2199.4.

    Over two bolts it bends as the board does: 69,600 x 6.35^3/(5806.6 x 36.52^3) = 0.06301 of the board's moment.
    """
    one = row(trial(), "backing.plate-bending-upper-bolts.dg1", "ahead")
    followed = 0.06301 * float(trial().strips.Mx[0, 0])
    assert followed == pytest.approx(115, abs=1)
    assert one.demand == pytest.approx(567.4 + followed, rel=1e-3)
    assert one.resistance == pytest.approx(2199.4, rel=1e-4)


def test_a_plate_on_one_bolt_follows_nothing_and_one_over_four_follows_the_worse_way() -> None:
    by_per = {per: plate(width=381.0, height=300.0 if per == "all" else 76.2, per=per) for per in ("bolt", "all")}
    single, whole = (trial(mount=m) for m in by_per.values())
    for of, share in ((single, 0.0), (whole, 1.0)):
        one = row(of, "backing.plate-bending-upper-bolts.dg1", "ahead")
        p = of.upper_patch
        reach = max(float(np.ravel(v)[0]) for v in (p.inner, p.outer, p.up, p.down)) - 19.05 / 2
        pressure = float(of.upper_tension[0, 0]) / float(np.ravel(p.area)[0]) * reach**2 / 2
        s, k = of.strips, 69600 * 6.35**3 / 36.52**3
        followed = max(k * abs(float(s.Mx[0, 0])) / 5806.6, k * abs(float(s.My[0, 0])) / 6210.0)
        assert one.demand == pytest.approx(pressure + share * followed, rel=1e-3)


def test_two_plies_of_alloy_differ_by_their_yield() -> None:
    """5052-H32, 160 MPa: 6.35^2 x 160/4.4 = 1466.3; reach 6.35 sqrt(160/8.624) = 27.35."""
    soft = with_bolts(forward=Backing("", "5052-H32", 6.35, 381.0, 76.2, "pair"))
    of = trial(mount=soft)
    assert row(of, "backing.plate-bending-upper-bolts.dg1", "ahead").resistance == pytest.approx(1466.3, rel=1e-4)
    assert of.upper_patch.overhang[0, 0] == pytest.approx(6.35 * sqrt(160 / 8.624), rel=1e-4)


def test_a_plate_too_short_to_reach_its_bolts_fails() -> None:
    """A pair's plate 330 long ends 1.5 mm past bolts 327 apart; 1.5 d = 19.05 is asked."""
    one = row(trial(mount=plate(width=330.0)), "backing.plate-edge")
    assert one.resistance == pytest.approx(1.5)
    assert not one.passes
    assert row(trial(mount=plate(width=300.0)), "backing.plate-edge").resistance == 0.0
    assert not row(trial(mount=plate(width=300.0)), "backing.plate-edge").passes


def test_a_plate_for_all_too_low_to_reach_its_bolts_fails() -> None:
    """220 high about rows 203.2 apart: 8.4 mm past them."""
    one = row(trial(mount=plate(height=220.0, per="all")), "backing.plate-edge")
    assert one.resistance == pytest.approx(8.4)
    assert not one.passes


@pytest.mark.parametrize(
    "width, height, per, share",
    [
        (381.0, 76.2, "pair", 38.1 / 47.6),
        (381.0, 100.0, "pair", 50.0 / 47.6),  # over the top edge
        (381.0, 210.0, "pair", 105.0 / 47.6),
        (620.0, 76.2, "pair", 146.5 / 141.5),  # past the board's sides: 310 - 163.5 of 305 - 163.5
        (260.0, 76.2, "bolt", 130.0 / 125.4),  # two plates of the lower row on one another
        (381.0, 310.0, "all", 53.4 / 47.6),
    ],
)
def test_plates_keep_to_the_board_and_off_each_other(width: float, height: float, per: str, share: float) -> None:
    one = row(trial(mount=plate(6.35, width, height, per)), "backing.plate-room")
    assert one.demand == pytest.approx(share, rel=1e-6)
    assert one.passes == (share <= 1)


def test_rows_close_together_leave_no_room_for_two_plates() -> None:
    """Rows 70 apart: 38.1 of 35 mm."""
    of = trial(setup=setup_of(engine__bracket__rows_apart=70.0))
    assert row(of, "backing.plate-room").demand == pytest.approx(38.1 / 35.0)


def test_plate_over_a_notch_fails() -> None:
    """Notch 400 wide, 15 deep: 32.6 mm of wood above the upper bolts for 38.1 of plate."""
    one = row(trial(on_board(notch_width=400.0, notch_depth=15.0)), "backing.plate-room")
    assert one.demand == pytest.approx(38.1 / 32.6)


def test_an_opening_under_the_plate_bears_nothing() -> None:
    """A 20 mm hole at y 110, 47.6 down: 53.5 inside the bolt, rim 43.5: clear of the reach of 43.02 but near.

    At y 115 the rim is 38.5 away: pi/4 x 400 = 314.2 mm^2 less: 4878.5 x 3.92 = 19,124.
    """
    near, under = (trial(on_board(openings=(Hole(y, 47.6, 20.0),))) for y in (110.0, 115.0))
    assert row(near, CRUSH, "ahead").resistance == pytest.approx(20355, rel=1e-3)
    assert row(under, CRUSH, "ahead").resistance == pytest.approx((5192.7 - pi * 100) * 3.92, rel=1e-3)


def test_okoume_crushes_sooner() -> None:
    """f_c,90,k 1.6: p_d 2.8, reach 9.525 + 6.35 sqrt(240/6.16) = 49.16: inner 49.16, outer 27: 76.16 x 76.2 - 143.1
    = 5660 mm^2 x 2.8 = 15,849 N."""
    of = trial(mount=Mount((Layer("okoume 18 mm", "across"),) * 2, BOLTS))
    assert row(of, CRUSH, "ahead").resistance == pytest.approx(15849, rel=1e-3)


def test_limit_is_where_the_calculator_says() -> None:
    """20,355/5251.4 = 3.876 times the load: just below passes, just above fails."""
    assert row(trial(loads=alone(AHEAD, times=3.86)), CRUSH, "only").passes
    assert not row(trial(loads=alone(AHEAD, times=3.89)), CRUSH, "only").passes


def test_a_bigger_washer_is_never_worse() -> None:
    u = [
        row(trial(mount=plate(width=side, height=side, per="bolt")), CRUSH, "ahead").utilisation
        for side in (40.0, 50.8, 63.5, 76.2, 88.9, 95.0)
    ]
    assert u == sorted(u, reverse=True)
    assert u[0] > u[-1] > 0
    assert MOUNT.engine_bolts is not None


def test_a_washer_just_wide_and_thick_enough_spreads() -> None:
    """EN 1995-1-1, 10.4.3: 3 d across and 0.3 d thick at least; at both three times the strength, a hair under either once."""
    of = trial(mount=with_bolts(forward=Backing(washer="1/2 wide")), loads=alone(AHEAD))
    side, thick = least_washer_side(of.hardware.d), least_washer_thickness(of.hardware.d)
    for across, t, times in ((1.0, 1.0, 3.0), (0.999, 1.0, 1.0), (1.0, 0.999, 1.0)):
        wide = {"outside": across * side, "height": across * side, "t": t * thick}
        one = Trial(of.setup, of.cases, of.stacks, replace(of.hardware, **wide))
        assert float(one.crush_under_backing[0, 0]) == pytest.approx(times * 2.24 * 0.7 / 1.2)


@pytest.mark.parametrize("per, n", [("bolt", 4), ("pair", 2), ("all", 1)])
def test_mass_of_the_plates(per: str, n: int) -> None:
    """381 x 76.2 x 6.35 mm of 6061, 2,700 kg/m3: 0.498 kg each."""
    found = hardware([plate(per=per).engine_bolts])  # type: ignore[list-item]
    assert float(found.mass[0, 0]) == pytest.approx(n * 0.381 * 0.0762 * 0.00635 * 2700.0, rel=1e-6)


def test_a_plate_narrower_than_three_diameters_spreads_nothing() -> None:
    """30 wide under 38.1, however high: f_c,90 once, 2.24 x 0.7/1.2, as of one lying down."""
    for width, height in ((30.0, 76.2), (76.2, 30.0)):
        of = trial(mount=plate(width=width, height=height, per="bolt"), loads=alone(AHEAD))
        assert float(of.crush_under_backing[0, 0]) == pytest.approx(2.24 * 0.7 / 1.2)
