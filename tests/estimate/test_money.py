"""Money: a half cent up, sums to the cent, amounts as people say and write them."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from transom.estimate.money import about, cents, exact, in_words, shown, up_to
from transom.estimate.volume import liters

AMOUNTS = st.decimals(0, 10**7, places=2)


@pytest.mark.parametrize(
    ("amount", "said"), [("1.005", "1.01"), ("1.0049", "1.00"), ("2.675", "2.68"), ("0.125", "0.13")]
)
def test_a_half_cent_goes_up(amount: str, said: str) -> None:
    assert str(cents(Decimal(amount))) == said


def test_a_number_is_the_decimal_that_was_typed() -> None:
    assert exact(0.1) * 3 == Decimal("0.3")
    assert exact(149.95) == Decimal("149.95")


@pytest.mark.parametrize(("amount", "words"), [
    ("0", "zero and 00/100 dollars"), ("13.07", "thirteen and 07/100 dollars"), ("21", "twenty-one and 00/100 dollars"),
    ("100.10", "one hundred and 10/100 dollars"),
    ("2775.40", "two thousand seven hundred seventy-five and 40/100 dollars"),
    ("1000021", "one million twenty-one and 00/100 dollars"),
])  # fmt: skip
def test_amounts_written_out(amount: str, words: str) -> None:
    assert in_words(Decimal(amount), "dollars") == words


ONES = {w: i for i, w in enumerate(
    ["zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"])}  # fmt: skip
TENS = {
    w: 10 * i for i, w in enumerate(["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"], 2)
}
SIZES = {"thousand": 1000, "million": 10**6, "billion": 10**9}


def read_back(words: str) -> Decimal:
    """The amount that words stand for, by a reader of this test's own."""
    whole, part = words.removesuffix(" dollars").split(" and ")
    total = group = 0
    for word in whole.replace("-", " ").split():
        if word in SIZES:
            total, group = total + group * SIZES[word], 0
        elif word == "hundred":
            group *= 100
        else:
            group += ONES[word] if word in ONES else TENS[word]
    return Decimal(total + group) + Decimal(part.split("/")[0]) / 100


@given(st.decimals(0, 10**12 - 1, places=2))
def test_words_read_back_to_the_amount(amount: Decimal) -> None:
    assert read_back(in_words(amount, "dollars")) == amount


def test_what_cannot_be_written_out_is_refused() -> None:
    for amount in (Decimal(-1), Decimal(10**12)):
        with pytest.raises(ValueError, match="written out"):
            in_words(amount, "dollars")


@given(AMOUNTS)
def test_shown_keeps_every_cent(amount: Decimal) -> None:
    assert Decimal(shown(amount, "$").replace("$", "").replace(",", "")) == amount


@given(AMOUNTS)
def test_what_is_said_aloud_is_near_and_never_nothing(amount: Decimal) -> None:
    said = Decimal(about(amount).replace(",", ""))
    assert abs(said - amount) <= 50
    assert (said > 0) == (amount > 0)


@given(AMOUNTS)
def test_a_call_before_amount_is_at_or_above(amount: Decimal) -> None:
    assert 0 <= up_to(amount) - amount < 25
    assert up_to(amount) % 25 == 0


@pytest.mark.parametrize(("text", "expected"), [
    ("1 gal", 3.785411784), ("1 qt", 0.946352946), ("1-1/2 qt", 1.419529419), ("900 ml", 0.9), ("1 L", 1.0), ("0.5 l", 0.5),
    ("12 fl oz", 0.35488235475),
])  # fmt: skip
def test_what_a_kit_holds(text: str, expected: float) -> None:
    assert liters(text) == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize(
    "text", ["", "gal", "1", "0 l", "1,5 l", "-1 l", "1/0 gal", "1 lb", "nan l", "1e3 l", "9" * 7 + " gal"]
)
def test_what_is_no_volume(text: str) -> None:
    assert liters(text) is None
