"""Few cases asked by a plate tell the worst of all."""

import math

import numpy as np
import pytest

from transom.sizing.led import worst_of_led
from transom.units import Array


def asked_of(plate: Array, asked: list[list[int]]) -> float:
    """The worst of a plate's utilisations by what is expected of four cases; notes which were asked."""

    def ask(rows: list[int]) -> Array:
        asked.append(rows)
        return plate[rows]

    return worst_of_led(np.array([0.5, 0.8, 0.95, 1.0]), ask)


def test_only_those_near_the_worst_are_asked_where_the_plate_is_as_expected() -> None:
    asked: list[list[int]] = []
    assert asked_of(np.array([9.0, 9.0, 0.9, 0.98]), asked) == 0.98
    assert asked == [[2, 3]]


def test_where_those_asked_lie_apart_another_that_may_be_worse_is_asked_too() -> None:
    asked: list[list[int]] = []
    # 1.2 times what was expected of one and 1.0 of the other: 0.8 may come to 0.8 * 1.2**2, 0.5 not to 1.14; but as 0.8
    # comes to more than that, 0.5 may too.
    assert asked_of(np.array([0.6, 1.3, 1.14, 1.0]), asked) == 1.3
    assert asked == [[2, 3], [1, 2, 3], [0, 1, 2, 3]]


@pytest.mark.parametrize("missing", [math.inf, math.nan])
def test_what_is_missing_never_passes(missing: float) -> None:
    assert not asked_of(np.array([0.1, 0.1, 0.1, missing]), []) <= 1.0
