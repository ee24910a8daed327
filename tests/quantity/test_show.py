"""How results read: the rounding of a shop, and that what is shown reads back.

The rounding rules are common practice in the trade: thickness to 1/32 in, positions to 1/16 in, what must
not be less rounds up and what must not be more rounds down.
"""

import math
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from transom.quantity import read, registry, show

IN = 25.4


@pytest.mark.parametrize(
    "mm, step, us",
    [
        (520.7, "1/32", "20-1/2 in"),
        (37.30625, "1/32", "1-15/32 in"),
        (19.05, "1/32", "3/4 in"),
        (609.6, "1/32", "24 in"),
        (0.0, "1/32", "0 in"),
        (0.3, "1/32", "0 in"),
        (-209.55, "1/16", "-8-1/4 in"),
        (-6.35, "1/16", "-1/4 in"),
        (163.5, "1/16", "6-7/16 in"),
        (25.6, "1/64", "1-1/64 in"),
        (12.7, "1", "1 in"),
    ],
)
def test_inches_and_fractions(mm: float, step: str, us: str) -> None:
    assert show.length(mm, "us", step=step) == us
    assert show.length(mm, "us", step=step, unit=False) == us.removesuffix(" in")


def test_si_lengths() -> None:
    assert show.length(37.3, "si") == "37.3 mm"
    assert show.length(18, "si") == "18 mm"
    assert show.length(37.31, "si", towards="up") == "37.4 mm"
    assert show.length(37.39, "si", towards="down") == "37.3 mm"
    assert show.length(163.6, "si", step_mm="0.5") == "163.5 mm"


def test_minima_round_up_and_maxima_down() -> None:
    assert show.length(1.49 * IN, "us", towards="up") == "1-1/2 in"
    assert show.length(1.49 * IN, "us", towards="down") == "1-15/32 in"
    assert show.length(-1.49 * IN, "us", towards="up") == "-1-15/32 in"
    assert show.mass(300.2 * 0.45359237, "us", towards="up") == "301 lb"
    assert show.mass(300.8 * 0.45359237, "us", towards="down") == "300 lb"
    assert show.force(1441 * 4.4482216152605, "us", towards="up") == "1,450 lbf"
    assert show.percent(0.821, towards="up") == "83 %"


def test_measured_thickness_is_in_decimals() -> None:
    assert show.measured(3.1051, "si") == "3.11 mm"
    assert show.measured(3.1949, "si") == "3.19 mm"
    assert show.measured(3.175, "us") == "0.125 in"
    assert show.measured(18.288, "us") == "0.72 in"
    assert show.measured(25.4, "us") == "1.00 in"
    assert show.measured(3.175, "si") == "3.18 mm"
    assert show.measured(18, "si") == "18 mm"
    assert show.measured(2.6601, "us", towards="up") == "0.105 in"
    assert show.measured(2.6601, "us", towards="down", unit=False) == "0.104"


@pytest.mark.parametrize(
    "shown, us, si",
    [
        (lambda u: show.mass(136.0777, u), "300 lb", "136 kg"),
        (lambda u: show.force(6410.0, u), "1,440 lbf", "6.41 kN"),
        (lambda u: show.force(1000.0, u), "225 lbf", "1 kN"),
        (lambda u: show.force(1014.9, u), "228 lbf", "1.01 kN"),
        (lambda u: show.force(453.4, u), "102 lbf", "453 N"),
        (lambda u: show.force(12.0, u), "3 lbf", "12 N"),
        (lambda u: show.force(0.0, u), "0 lbf", "0 N"),
        (lambda u: show.force(-6410.0, u), "-1,440 lbf", "-6.41 kN"),
        (lambda u: show.moment(3.54e6, u), "31,300 lb-in", "3.54 kN m"),
        (lambda u: show.moment(74.57e3, u), "660 lb-in", "74.6 N m"),
        (lambda u: show.torque(74570.0, u), "55 lb-ft", "75 N m"),
        (lambda u: show.torque(6101.2, u), "4.5 lb-ft", "6.1 N m"),
        (lambda u: show.power(29828.0, u), "40 hp", "29.8 kW"),
        (lambda u: show.power(7382.4, u), "9.9 hp", "7.4 kW"),
        (lambda u: show.stress(20.3, u), "2,940 psi", "20.3 MPa"),
        (lambda u: show.speed(9.83488, u), "22 mph", "35 km/h"),
        (lambda u: show.speed(2.5, u), "5.6 mph", "9 km/h"),
        (lambda u: show.temperature(14.444, u), "58 F", "14 C"),
        (lambda u: show.area(2919.0, u), "4.52 sq in", "2,920 mm2"),
    ],
)
def test_both_systems(shown: Callable[[str], str], us: str, si: str) -> None:
    assert (shown("us"), shown("si")) == (us, si)


def test_angles_turning_and_shares() -> None:
    assert show.angle(math.radians(14)) == "14 deg"
    assert show.angle(math.atan(0.25)) == "14 deg"
    assert show.angle(0.2, unit=False) == "11.5"
    assert show.rotation(5500 / 60) == "5500 rpm"
    assert show.percent(0.82) == "82 %"


def test_what_is_over_the_limit_never_shows_as_100_percent() -> None:
    assert show.percent(1.0) == "100 %"
    assert show.percent(math.nextafter(1.0, 2.0)) == "101 %"
    assert show.percent(1.004, towards="down") == "101 %"
    assert show.percent(0.996) == "100 %"


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_what_is_not_finite_is_never_shown(value: float) -> None:
    for shown in (show.length, show.measured, show.mass, show.force, show.moment, show.torque, show.area):
        for units in ("us", "si"):
            with pytest.raises(ValueError, match="cannot be shown"):
                shown(value, units)
    with pytest.raises(ValueError, match="cannot be shown"):
        show.percent(value)


def test_unknown_systems_and_directions_are_refused() -> None:
    with pytest.raises(ValueError, match="metric"):
        show.length(1.0, "metric")
    with pytest.raises(ValueError, match="sideways"):
        show.length(IN, "us", towards="sideways")


def test_the_factors_are_the_registry_s() -> None:
    for ours, unit, working in [
        (show.INCH, "inch", "mm"),
        (show.POUND, "pound", "kg"),
        (show.POUND_FORCE, "pound_force", "N"),
        (show.HORSEPOWER, "horsepower", "W"),
        (show.PSI, "psi", "MPa"),
        (show.MPH, "mph", "m/s"),
        (show.KPH, "kph", "m/s"),
    ]:
        assert float(ours) == pytest.approx(registry().Quantity(1.0, unit).to(working).magnitude, rel=1e-14)


def test_every_64th_of_three_inches_reads_back() -> None:
    for n in range(-3 * 64, 3 * 64 + 1):
        mm = n * 25.4 / 64
        shown = show.length(mm, "us", step="1/64")
        assert read(shown, "length", negative=True) == pytest.approx(mm, rel=1e-14, abs=1e-12)


@settings(max_examples=200, deadline=None)
@given(st.integers(0, 64 * 400))
def test_mixed_numbers_read_back(n: int) -> None:
    mm = n * 25.4 / 64
    for towards in ("nearest", "up", "down"):
        assert read(show.length(mm, "us", step="1/64", towards=towards), "length") == pytest.approx(mm, rel=1e-14)


KINDS: list[tuple[str, Callable[[float, str], str], float]] = [
    ("length", show.length, 1.0),
    ("length", show.measured, 1.0),
    ("mass", show.mass, 1.0),
    ("force", lambda v, u: show.force(v, u, grouped=False), 100.0),
    ("torque", lambda v, u: show.moment(v, u, grouped=False), 1e5),
    ("torque", show.torque, 1e4),
    ("power", show.power, 1e3),
    ("stress", lambda v, u: show.stress(v, u, grouped=False), 1.0),
    ("speed", show.speed, 0.2),
    ("temperature", show.temperature, 1.0),
    ("area", lambda v, u: show.area(v, u, grouped=False), 100.0),
    ("rotation", lambda v, u: show.rotation(v), 1.0),
    ("angle", lambda v, u: show.angle(v), 0.01),
]


@pytest.mark.parametrize("kind, shown, size", KINDS)
@settings(max_examples=40, deadline=None)
@given(value=st.floats(10, 300), units=st.sampled_from(["us", "si"]))
def test_what_is_shown_reads_and_shows_the_same_again(
    kind: str, shown: Callable[[float, str], str], size: float, value: float, units: str
) -> None:
    once = shown(value * size, units)
    back = read(once, kind)
    assert shown(back, units) == once
    assert back == pytest.approx(value * size, rel=0.06)


@settings(max_examples=150, deadline=None)
@given(st.floats(0.0, 3000.0), st.sampled_from(["us", "si"]), st.sampled_from(["1/16", "1/32", "1/64"]))
def test_up_is_never_less_and_down_never_more(mm: float, units: str, step: str) -> None:
    up = read(show.length(mm, units, step=step, towards="up"), "length")
    down = read(show.length(mm, units, step=step, towards="down"), "length")
    slack = 2e-6
    assert down - slack <= mm <= up + slack
    assert up - down <= 25.4 / 16 + 1e-9
