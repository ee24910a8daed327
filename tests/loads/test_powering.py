"""33 CFR 183.53, Table 183.53 (read): the small boats of the table, and the start-in-gear threshold."""

import pytest

from transom.loads import powering
from transom.loads.powering import federal_horsepower

FOOT = 304.8


@pytest.mark.parametrize(
    "factor, hp",
    [(30, 3.0), (35, 3.0), (36, 5.0), (39, 5.0), (40, 7.5), (42, 7.5), (43, 10.0), (45, 10.0), (46, 15.0), (52, 15.0)],
)
def test_table_of_small_factors(factor: float, hp: float) -> None:
    assert federal_horsepower(factor / 4 * FOOT, 4 * FOOT, remote=True, flat=False) == hp


@pytest.mark.parametrize("factor, hp", [(30, 3.0), (36, 3.0), (40, 5.0), (43, 7.5), (46, 10.0)])
def test_a_flat_bottom_is_one_increment_lower(factor: float, hp: float) -> None:
    assert federal_horsepower(factor / 4 * FOOT, 4 * FOOT, remote=False, flat=True) == hp


def test_a_multiple_of_five_is_not_raised() -> None:
    assert federal_horsepower(25 * FOOT, 4 * FOOT, remote=True, flat=False) == 110.0  # 2 x 100 - 90


def test_a_horsepower_is_550_feet_and_pounds_a_second() -> None:
    assert pytest.approx(550 * 0.3048 * 0.45359237 * 9.80665, rel=1e-12) == powering.HORSEPOWER
