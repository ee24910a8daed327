"""What a shop types, and the value of each to the last digit.

Expected values are worked from the exact definitions of inch, pound, pound-force and metric horsepower
(NIST SP 811 (2008), appendix B), by hand or as fractions, never by the reader under test.
"""

import math
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from transom.quantity import QuantityError, is_unmeasured, read, read_range
from transom.quantity.kinds import KINDS, plain

HP = 745.6998715822702  # 550 x 0.3048 x 4.4482216152605
LB_FT = 1355.8179483314004  # 304.8 x 4.4482216152605

SHOP = [
    ("20 1/2 in", "length", 520.7),
    ('20-1/2"', "length", 520.7),
    ("3' 4\"", "length", 1016.0),
    ("3 ft 4-1/2 in", "length", 1028.7),
    ("½ in", "length", 12.7),
    ("1 ½ in", "length", 38.1),
    (".72 in", "length", 18.288),
    ("18mm", "length", 18.0),
    ("260 lbs", "mass", 117.9340162),
    ("118 kgs", "mass", 118.0),
    ("40HP", "power", 40 * HP),
    ("30 PS", "power", 22064.9625),
    ("30 kw", "power", 30000.0),
    ("55 lb-ft", "torque", 55 * LB_FT),
    ("55 ft-lbs", "torque", 55 * LB_FT),
    ("75 Nm", "torque", 75000.0),
    ("75 N-m", "torque", 75000.0),
    ("58 F", "temperature", 130 / 9),
    ("14°", "angle", math.radians(14)),
    ("3-1/2 in on 14 in", "angle", math.atan(0.25)),
]

VARIANTS = [
    ("20\u00a01/2\u00a0in", "length", 520.7),
    ("20\u20131/2 in", "length", 520.7),
    ("20-1/2-in", "length", 520.7),
    ("20 1\u20442 in", "length", 520.7),
    ("20½in.", "length", 520.7),
    ("20-½ in", "length", 520.7),
    ("1½ in", "length", 38.1),
    ("15/16 INCH", "length", 23.8125),
    ("20 inches", "length", 508.0),
    ("20\u2033", "length", 508.0),
    ("20\u201d", "length", 508.0),
    ("20''", "length", 508.0),
    ("3\u2019 4\u201d", "length", 1016.0),
    ("3\u2032-4\u2033", "length", 1016.0),
    ("3'4 1/2\"", "length", 1028.7),
    ("3'-0 1/2\"", "length", 927.1),
    ("3ft4in", "length", 1016.0),
    ("3 FT. 4 IN.", "length", 1016.0),
    ("3.5'", "length", 1066.8),
    ("0.125 in", "length", 3.175),
    ("18 MM", "length", 18.0),
    ("1.2 m", "length", 1200.0),
    ("+8 in", "length", 203.2),
    ("  18 mm  ", "length", 18.0),
    ("12 oz", "mass", 0.3401942775),
    ("118 Kg", "mass", 118.0),
    ("700 lbf", "force", 3113.75513068235),
    ("6.41 kN", "force", 6410.0),
    ("9.9 hp", "power", 9.9 * HP),
    ("55 ft. lbs.", "torque", 55 * LB_FT),
    ("55 lbf·ft", "torque", 55 * LB_FT),
    ("55 ft lb", "torque", 55 * LB_FT),
    ("12 in-lb", "torque", LB_FT),
    ("75 N m", "torque", 75000.0),
    ("75 N·m", "torque", 75000.0),
    ("2 kgf-m", "torque", 19613.3),
    ("22 MPH", "speed", 9.83488),
    ("36 km/h", "speed", 10.0),
    ("9 kn", "speed", 4.63),
    ("9 kts", "speed", 4.63),
    ("10 m/s", "speed", 10.0),
    ("5500 rpm", "rotation", 5500 / 60),
    ("14 deg", "angle", math.radians(14)),
    ("14º", "angle", math.radians(14)),
    ("0.25 rad", "angle", 0.25),
    ("3-1/2 on 14 in", "angle", math.atan(0.25)),
    ("1 in on 1 ft", "angle", math.atan(1 / 12)),
    ("14 °C", "temperature", 14.0),
    ("-40 F", "temperature", -40.0),
    ("32 deg F", "temperature", 0.0),
    ("20.3 MPa", "stress", 20.3),
    ("20.3 N/mm²", "stress", 20.3),
    ("1000 psi", "stress", 6.894757293168361),
    ("35 ksi", "stress", 241.31650526089263),
    ("10 kg/m^2", "area_density", 10.0),
    ("4 sq in", "area", 2580.64),
]


@pytest.mark.parametrize("text, kind, expected", SHOP + VARIANTS)
def test_what_a_shop_types(text: str, kind: str, expected: float) -> None:
    assert read(text, kind) == pytest.approx(expected, rel=1e-12, abs=1e-11)


@pytest.mark.parametrize("text, expected", [("20-1/2", 520.7), ("20", 508.0), ("18 mm", 18.0)])
def test_a_bare_number_takes_the_unit_that_the_question_names(text: str, expected: float) -> None:
    assert read(text, "length", bare="in") == expected


def test_the_bare_unit_is_one_of_the_kind() -> None:
    with pytest.raises(ValueError, match="no unit of length"):
        read("20", "length", bare="lb")


def test_signs_where_they_are_allowed() -> None:
    assert read("-8 in", "length", negative=True) == -203.2
    assert read("\u22128-1/2 in", "length", negative=True) == -215.9
    assert read("-3' 4\"", "length", negative=True) == -1016.0
    assert math.copysign(1, read("-0 in", "length")) == 1.0
    assert read("-2 deg", "angle", negative=True) == pytest.approx(-math.pi / 90, rel=1e-15)
    assert read("0 in", "length") == 0.0


@pytest.mark.parametrize(
    "text, kind, low, high",
    [
        ("40 to 60 hp", "power", 40 * HP, 60 * HP),
        ("40-60 hp", "power", 40 * HP, 60 * HP),
        ("40\u201360HP", "power", 40 * HP, 60 * HP),
        ("40 hp - 60 kW", "power", 40 * HP, 60000.0),
        ("40 hp", "power", 40 * HP, 40 * HP),
        ("9.9-15 hp", "power", 9.9 * HP, 15 * HP),
        ("1-1/4 to 2-3/4 in", "length", 31.75, 69.85),
        ("1-1/2-2 in", "length", 38.1, 50.8),
        ("1/2-3/4 in", "length", 12.7, 19.05),
        ("2-1/2 in", "length", 63.5, 63.5),
    ],
)
def test_ranges(text: str, kind: str, low: float, high: float) -> None:
    assert read_range(text, kind) == pytest.approx((low, high), rel=1e-12)


def test_a_range_may_be_bare_where_a_unit_is_named() -> None:
    assert read_range("40-60", "power", bare="kW") == (40000.0, 60000.0)


@pytest.mark.parametrize("text", ["?", " ? "])
def test_a_question_mark_is_not_measured(text: str) -> None:
    assert is_unmeasured(text)


@pytest.mark.parametrize("text", ["", "? in", "20 in"])
def test_anything_else_is_not_a_question_mark(text: str) -> None:
    assert not is_unmeasured(text)


def test_case_alone_never_tells_two_units_of_a_kind_apart() -> None:
    for kind in KINDS.values():
        ways = [plain(way) for spellings in kind.units.values() for way in spellings]
        assert len(ways) == len(set(ways)), kind.says


@pytest.mark.parametrize("kind", KINDS)
def test_every_spelling_reads_and_the_example_too(kind: str) -> None:
    # 300 is a value that every kind allows: no temperature below absolute zero, no sign.
    assert read(KINDS[kind].example, kind) > 0
    for spellings in KINDS[kind].units.values():
        values = {read(f"300 {way}", kind) for way in spellings}
        assert len(values) == 1
        assert values == {read(f"300{way.upper()}", kind) for way in spellings}


@st.composite
def written(draw: st.DrawFn) -> tuple[str, Fraction]:
    """A number as somebody may write it, and what it is."""
    whole = draw(st.integers(1, 999))
    under = draw(st.sampled_from([2, 3, 4, 8, 16, 32, 64]))
    over = draw(st.integers(1, under - 1))
    tenths = draw(st.integers(0, 999))
    return draw(
        st.sampled_from(
            [
                (str(whole), Fraction(whole)),
                (f"{over}/{under}", Fraction(over, under)),
                (f"{whole} {over}/{under}", whole + Fraction(over, under)),
                (f"{whole}-{over}/{under}", whole + Fraction(over, under)),
                (f"{whole}.{tenths:03d}", whole + Fraction(tenths, 1000)),
                (f".{tenths:03d}", Fraction(tenths, 1000)),
            ]
        )
    )


@settings(max_examples=150, deadline=None)
@given(written(), st.sampled_from(["in", '"', " in", " inches", "-in", "\u00a0IN."]))
def test_a_number_is_read_exactly(number: tuple[str, Fraction], unit: str) -> None:
    text, value = number
    assert read(text + unit, "length") == float(value * Fraction("25.4"))


@settings(max_examples=100, deadline=None)
@given(written(), st.integers(1, 40), st.sampled_from(["' ", " ft ", "'", "'-", " feet "]))
def test_feet_and_inches_are_added(number: tuple[str, Fraction], feet: int, mark: str) -> None:
    text, inches = number
    if inches < 12:
        assert read(f'{feet}{mark}{text}"', "length") == float((12 * feet + inches) * Fraction("25.4"))
    else:
        with pytest.raises(QuantityError, match="less than 12"):
            read(f'{feet}{mark}{text}"', "length")
