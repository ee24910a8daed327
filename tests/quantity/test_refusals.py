"""What is refused, in which words, and that nothing else can come out of a text."""

import contextlib
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from transom.errors import TransomError
from transom.quantity import QuantityError, read, read_range
from transom.quantity.kinds import KINDS

NO_SUMS = "one value is due: no sums, products or powers; work it out and write the result"

REFUSED = [
    ("20,5 mm", "length", "no comma inside a number: 20.5 mm or 205 mm? Write the one you mean"),
    ("1,5 in", "length", "no comma inside a number: 1.5 in or 15 in? Write the one you mean"),
    ("1,440 lbf", "force", "no comma inside a number: 1.440 lbf or 1440 lbf? Write the one you mean"),
    ("1,234,567 N", "force", "no comma inside a number: 1234567 N? Write the one you mean"),
    ("20 5 in", "length", "two numbers side by side: 20.5 in or 205 in? Write the one you mean"),
    ("1\u00a0440 lbf", "force", "two numbers side by side: 1.440 lbf or 1440 lbf? Write the one you mean"),
    ("20 1 2 in", "length", "three numbers or more side by side; write one number, like 20-1/2 in"),
    ("20.5 5 in", "length", "two numbers side by side: 20.5 in or 5 in? Write the one you mean"),
    ("20 - 1/2 in", "length", "20-1/2 in, or from 20 to 1/2? Write the one you mean"),
    ("0-1/2 in", "length", "0-1/2 is no mixed number; write 1/2 alone"),
    ("11/2 in", "length", "a fraction is less than one, and 11/2 is not; write 5-1/2 or 1-1/2"),
    ("20 15/8 in", "length",
     "a fraction is less than one, and 15/8 is not; write the whole number and the fraction again"),
    ("1/0 in", "length", "1/0 divides by zero; write the fraction again"),
    ("3 0/0 in", "length", "0/0 divides by zero; write the fraction again"),
    ("20.5 1/2 in", "length", "a decimal and a fraction do not go together; write one or the other"),
    ("1/2.5 in", "length", "a decimal and a fraction do not go together; write one or the other"),
    ("1/2 1/4 in", "length", "one number holds one fraction; write the number again"),
    ("1/2/4 in", "length", "one number holds one fraction; write the number again"),
    ("1.2.3 in", "length", "a number has one decimal point; write the number again"),
    ("5. in", "length", "digits are due after the point; write the number again"),
    ("20 + 1/2 in", "length", NO_SUMS),
    ("2*3 in", "length", NO_SUMS),
    ("2 x 4 in", "length", NO_SUMS),
    ("2**3 in", "length", NO_SUMS),
    ("3^2 in", "length", NO_SUMS),
    ("75 N*m", "torque", NO_SUMS),
    ("1e400 in", "length", "no scientific notation; write the number out in full"),
    ("2e3 lb", "mass", "no scientific notation; write the number out in full"),
    ("0 0\ufefdin", "length", "two numbers side by side: 0.0\\ufefdin or 00\\ufefdin? Write the one you mean"),
    ("nan in", "length", "it is not a finite number; write a number and its unit"),
    ("inf mm", "length", "it is not a finite number; write a number and its unit"),
    ("-infinity mm", "length", "it is not a finite number; write a number and its unit"),
    ("twenty in", "length", "there is no number in it; write a number and its unit"),
    ("٣ in", "length", "there is no number in it; write a number and its unit"),
    ("", "length", 'nothing is written; write a number and its unit, or "?" if it was not measured'),
    ("?", "length", '"?" means not measured, and a value is due; measure it and write the value'),
    ("9999999999 mm", "length", "a number has up to 9 digits; write it shorter, or in a larger unit"),
    ("9" * 400 + " mm", "length", "it is longer than any quantity; write one number and its unit"),
    ("in 20", "length", "it is not one number and one unit; write the number first, then its unit"),
    ("20 in 5", "length", "it is not one number and one unit; write the number first, then its unit"),
    ("14° 30'", "angle", "it is not one number and one unit; write the number first, then its unit"),
    ("3' 4", "length", "the inches after feet need their mark; write it like 3 ft 4 in"),
    ("3' 14\"", "length", "inches after feet are less than 12; write it in inches alone"),
    ("3' 12\"", "length", "inches after feet are less than 12; write it in inches alone"),
    ("4/4 in", "length", "a fraction is less than one, and 4/4 is not; write 1"),
    ("101/2 in", "length", "a fraction is less than one, and 101/2 is not; write 50-1/2 or 10-1/2"),
    ("3-1/2 ft 4 in", "length", "feet before inches are a whole number; write it in inches alone"),
    ("40-60 hp", "power", "one value is due, not a range; write one value"),
    ("40 to 60 hp", "power", "one value is due, not a range; write one value"),
    ("20", "length", 'a number alone is refused, it needs its unit; write it like "20-1/2 in"'),
    ("14", "angle", 'a number alone is refused, it needs its unit; write it like "14 deg"'),
    ("-8 in", "length", "it may not be less than zero; write it without the minus sign"),
    ("-2 deg", "angle", "it may not be less than zero; write it without the minus sign"),
    ("-300 C", "temperature", "nothing is colder than -273.15 C; write the temperature again"),
    ("700 lb", "force", "lb is a weight, and a force is due; write lbf if a force is meant"),
    ("300 kg", "force", "kg is a weight, and a force is due; write kgf or N if a force is meant"),
    ("300 lbf", "mass", "lbf is a force, and a weight is due; write lb if a weight is meant"),
    ("300 kgf", "mass", "kgf is a force, and a weight is due; write kg if a weight is meant"),
    ("1300 N", "mass", "N is a force, and a weight is due; write kg if a weight is meant"),
    ("55 lb", "torque", "a torque needs the arm too, and lb names none; write lb-ft, lb-in or Nm"),
    ("7 kg-m", "torque", "kg-m is weight times a length; write kgf-m"),
    ("55 F", "power", "F is a unit of temperature, and a power is due; write it in one of: hp, PS, kW, W"),
    ("30 PS", "mass", "PS is a unit of power, and a weight is due; write it in one of: lb, kg, oz, g"),
    ("14°", "temperature", "° is a unit of angle, and a temperature is due; write it in one of: F, C"),
    ("30 petasiemens", "power", "petasiemens is no unit of power here; write it in one of: hp, PS, kW, W"),
    ("3 furlongs", "length", "furlongs is no unit of length here; write it in one of: in, ft, mm, cm, m, yd"),
    ("3-1/2 on 14", "angle", 'a number alone is refused, it needs its unit; write it like "20-1/2 in"'),
    ("3 in on 0 in", "angle",
     "the length that a lean is measured on is more than zero; write it as 3-1/2 in on 14 in"),
]  # fmt: skip


@pytest.mark.parametrize("text, kind, said", REFUSED, ids=[f"{k}:{t[:20]}" for t, k, _ in REFUSED])
def test_refusals_say_what_the_value_the_rule_and_the_next_step(text: str, kind: str, said: str) -> None:
    with pytest.raises(QuantityError) as caught:
        read(text, kind)
    fault = caught.value
    shown = f'{text[:57]}..."' if len(text) > 60 else text.replace("\u00a0", r"\xa0").replace("\ufefd", r"\ufefd") + '"'
    assert str(fault) == f'{KINDS[kind].says} "{shown}: {said}'
    assert (fault.what, fault.value) == (KINDS[kind].says, text)
    assert fault.rule in said
    assert fault.next_step.lower() in said.lower()
    assert len(str(fault).splitlines()) == 1


def test_a_refusal_is_a_fault_of_ours_and_a_value_error() -> None:
    assert issubclass(QuantityError, TransomError)
    assert issubclass(QuantityError, ValueError)


def test_an_angle_is_never_bare_even_where_a_unit_is_named() -> None:
    with pytest.raises(QuantityError, match="needs its unit"):
        read("14", "angle", bare="deg")


def test_a_text_of_100_characters_is_still_read_and_one_more_is_not() -> None:
    assert read("5 mm".rjust(100), "length") == 5.0
    with pytest.raises(QuantityError, match="longer than any quantity"):
        read("5 mm".rjust(101), "length")


def test_a_value_of_60_characters_is_shown_whole() -> None:
    for size, shown in ((60, "x" * 60), (61, "x" * 57 + "...")):
        with pytest.raises(QuantityError) as caught:
            read("x" * size, "length")
        assert f'"{shown}":' in str(caught.value)


def test_a_lean_may_be_on_a_short_length() -> None:
    assert read("0.01 mm on 0.01 mm", "angle") == pytest.approx(math.pi / 4)


def test_zero_where_it_is_not_allowed() -> None:
    with pytest.raises(QuantityError, match="may not be zero"):
        read("0 in", "length", zero=False)
    assert read("0 C", "temperature", zero=False) == 0.0


@pytest.mark.parametrize("value", [5, 5.0, True, None, ["5 in"]])
def test_what_is_not_text_is_refused(value: object) -> None:
    with pytest.raises(QuantityError, match="put the number and its unit in quotes"):
        read(value, "length")  # type: ignore[arg-type]


@pytest.mark.parametrize(
    "text, said",
    [
        ("60-40 hp", "the lower value comes first"),
        ("60 to 40 hp", "the lower value comes first"),
        ("40 to 60", "needs its unit"),
        ("40-60-80 hp", "not a range"),
        ("-40 to 60 hp", "less than zero"),
        ("40 to 60 lb", "lb is a unit of weight"),
        ("40 lb to 60 hp", "lb is a unit of weight"),
        ("?", "means not measured"),
        ("20 - 1/2 hp", "20-1/2 hp, or from 20 to 1/2"),
        ("0 - 1/2 hp", "0-1/2 hp, or from 0 to 1/2"),
        ("0-1/2 hp", "no mixed number"),
        ("4,0 to 60 hp", "no comma"),
    ],
)
def test_ranges_refused(text: str, said: str) -> None:
    with pytest.raises(QuantityError, match=said):
        read_range(text, "power")


@pytest.mark.parametrize(
    "text, kind, silently",
    [
        ("20 1/2 in", "length", 254.0),
        ("20,5 mm", "length", 205.0),
        ("1,5 in", "length", 381.0),
        ("3 ft 4 in", "length", 12.0),
        ("30 PS", "power", 3e16),
        ("20 5 in", "length", 2540.0),
        ("14", "angle", 14.0),
        ("2*3 in", "length", 152.4),
    ],
)
def test_misreadings_of_a_general_units_library_do_not_happen(text: str, kind: str, silently: float) -> None:
    """Each was measured with plain Pint 0.25: read without a word, and wrong."""
    with contextlib.suppress(QuantityError):
        assert read(text, kind) != pytest.approx(silently)


@pytest.mark.parametrize("text", ["3-4' 6\"", "3 to 4 ft 6 in", "1'-14\"", "4' to 3'", ".5-1/2 in", "1-3/2 in"])
def test_ranges_of_lengths_that_read_two_ways_are_refused(text: str) -> None:
    with pytest.raises(QuantityError):
        read_range(text, "length")


@pytest.mark.parametrize("text", ["20 in..", "20 . in", "20 -in.", "20- in", '20-"', "20 in.x", "- 20 in", "--20 in"])
def test_stray_marks_are_refused(text: str) -> None:
    with pytest.raises(QuantityError):
        read(text, "length", negative=True)


PIECES = st.sampled_from(
    [*"0123456789", *" .,-/+*^'\"°?()½¾e·", "\u00a0", "\u2019", "\u2013", "1/2", "20", " in", " ft", "mm",
     " to ", " on ", "lb", "N", "hp", "nan", "inf", "x", "1e9", "-", "deg", "F"]
)  # fmt: skip
GARBAGE = st.one_of(st.text(max_size=20), st.lists(PIECES, max_size=9).map("".join))


@settings(max_examples=600, deadline=None)
@given(GARBAGE, st.sampled_from(sorted(KINDS)), st.booleans())
def test_a_text_gives_a_finite_value_or_a_refusal(text: str, kind: str, negative: bool) -> None:
    with contextlib.suppress(QuantityError):
        value = read(text, kind, negative=negative)
        assert math.isfinite(value)
        assert value >= 0 or negative or kind == "temperature"
    with contextlib.suppress(QuantityError):
        low, high = read_range(text, kind)
        assert math.isfinite(low)
        assert low <= high < math.inf


@settings(max_examples=150, deadline=None)
@given(st.integers(0, 999999), st.integers(0, 999), st.sampled_from([",", " ", "  ", "\u00a0", "\u202f"]))
def test_a_number_in_two_parts_is_always_refused(first: int, second: int, between: str) -> None:
    with pytest.raises(QuantityError, match=r"side by side|no comma"):
        read(f"{first}{between}{second} mm", "length")


@pytest.mark.parametrize("text", ["9" * 100, "1" * 49 + "," + "1" * 49, "1/" * 50, "' " * 50, "in-" * 33, "x 1" * 33])
def test_long_texts_are_refused_without_delay(text: str) -> None:
    with pytest.raises(QuantityError):
        read(text, "length")
    with pytest.raises(QuantityError):
        read_range(text, "length")
