"""How high the engine hangs: one boat by hand, setback, bounds."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from transom.loads.height import Height, height

BAND = (-25.4, 25.4)


def of(**changes: float) -> Height:
    given_ = {"bottom": 508.0, "shaft": 508.0, "below_plate": 190.0, "diameter": 355.6} | changes
    return height(**given_, band=BAND)  # type: ignore[arg-type]


def test_a_class_boat_by_hand() -> None:
    """20 in shaft on a 20 in boat: level by the lowest hole, 3/4 in higher by each; a 14 in propeller whose shaft is
    190 mm below the plate has its top tip 190 - 177.8 = 12.2 mm below the bottom, and 6.85 mm above it one hole up."""
    h = of()
    assert [r.plate_above for r in h.rows] == pytest.approx([0.0, 19.05, 38.1, 57.15, 76.2])
    assert [r.shaft_below for r in h.rows[:2]] == pytest.approx([190.0, 170.95])
    assert [r.tip_below for r in h.rows[:2]] == pytest.approx([12.2, -6.85])
    assert h.start.hole == 1
    assert h.within


def test_a_longer_shaft_starts_higher() -> None:
    """25 in shaft on a boat 22 in deep at the board: 76.2 below by hole 1, 1 in below is reached three holes up, and
    one more is the first within."""
    long = of(bottom=558.8, shaft=635.0)
    assert long.rows[0].plate_above == pytest.approx(-76.2)
    assert long.start.hole == 4
    assert long.start.plate_above == pytest.approx(-19.05)


def test_setback_raises_the_band_and_a_bracket_the_engine() -> None:
    h = height(bottom=508.0, shaft=508.0, below_plate=190.0, diameter=355.6, band=BAND, setback=254.0, up=50.8)
    assert (h.low, h.high) == pytest.approx((0.0, 50.8))
    assert h.rows[0].plate_above == pytest.approx(50.8)


def test_out_of_the_band_is_said() -> None:
    assert not of(bottom=700.0).within
    assert of(bottom=700.0).start.hole == 1
    assert not of(bottom=300.0).within
    assert of(bottom=300.0).start.hole == 5


@given(st.floats(200, 1200), st.sampled_from((381.0, 508.0, 635.0, 762.0)), st.floats(0, 760), st.floats(-200, 300))
def test_every_hole_raises_all_alike(bottom: float, shaft: float, setback: float, up: float) -> None:
    h = height(bottom=bottom, shaft=shaft, below_plate=180.0, diameter=350.0, band=BAND, setback=setback, up=up)
    for a, b in zip(h.rows, h.rows[1:], strict=False):
        assert b.plate_above - a.plate_above == pytest.approx(19.05)
        assert a.tip_below - b.tip_below == pytest.approx(19.05)
    assert h.start in h.rows
    inside = [r for r in h.rows if h.low <= r.plate_above <= h.high]
    assert h.within is bool(inside)
    assert not inside or h.start == inside[0]
