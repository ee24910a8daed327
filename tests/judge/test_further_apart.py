"""The flag on pencil and careful method further apart than usual: of each part's own worst check, and of no other."""

import math

import pytest

from transom.judge.cautions import _of_checks
from transom.result import Check

FLAG = "Further apart than usual"


def both(part: str, what: str, careful: float, pencil: float) -> list[Check]:
    """A check by either method, shares of the limit."""
    one = Check(part, what, "ec5", "ahead", "plate", careful, 1.0, "", "", "published", "read")
    other = Check(part, what, "ec5", "ahead", "hand", pencil, 1.0, "", "", "published", "read", "", True)
    return [one, other]


def flags(*checks: list[Check]) -> list[str]:
    return [c for c in _of_checks([c for pair in checks for c in pair]) if FLAG in c]


def test_the_worst_check_of_a_part_is_flagged_with_both_figures() -> None:
    (flag,) = flags(both("board", "bending", 0.9, 2.0), both("board", "plies-sliding-pads", 0.8, 0.9))
    assert flag.startswith("board, bending: pencil 200 %, careful 90 %.")


def test_one_that_decides_nothing_is_not() -> None:
    assert flags(both("board", "bending", 0.9, 1.0), both("board", "plies-sliding-pads", 0.8, 0.2)) == []
    assert flags(both("board", "bending", 0.9, 1.0), both("board", "plies-sliding-pads", 0.91, 0.2)) != []


def test_each_part_has_its_own_worst() -> None:
    found = flags(both("board", "bending", 0.9, 3.0), both("engine-bolts", "tension", 0.6, 0.3))
    assert [f.split(":")[0] for f in found] == ["board, bending", "engine bolts, tension"]


@pytest.mark.parametrize("part, low, high", [("board", 0.8, 2.2), ("engine-bolts", 0.75, 1.8)])
def test_bands(part: str, low: float, high: float) -> None:
    for times, apart in ((low - 0.01, True), (low + 0.01, False), (high - 0.01, False), (high + 0.01, True)):
        assert bool(flags(both(part, "tension", 0.8, 0.8 * times))) is apart


def test_half_of_the_limit_and_more_matters() -> None:
    assert flags(both("board", "bending", 0.49, 2.0)) == []
    assert flags(both("board", "bending", 0.51, 2.0)) != []


def test_what_is_no_number_is_flagged_and_hides_none() -> None:
    assert flags(both("board", "bending", math.nan, 1.0)) != []
    assert flags(both("board", "bending", 0.9, math.nan)) != []


def test_what_one_method_alone_has_is_none_of_it() -> None:
    """A check without a pencil's beside it, however near its limit, leaves the flag to those that have both."""
    alone = both("board", "thickness", 0.99, 0.1)[:1]
    (flag,) = flags(alone, both("board", "bending", 0.9, 3.0))
    assert "bending" in flag
    assert flags(alone) == []


def test_the_worst_case_of_a_check_is_compared_whichever_it_is() -> None:
    """Each method's own worst, in any case: 0.9 ahead beside 1.0 in a wave are not apart."""
    wave = [Check("board", "bending", "ec5", "wave", m, u, 1.0, "", "", "published", "read", "", i)
            for m, u, i in (("plate", 0.5, False), ("hand", 1.0, True))]  # fmt: skip
    assert flags(both("board", "bending", 0.9, 0.1), wave) == []
