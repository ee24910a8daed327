"""Checks of many candidates as arrays, and as the records they become."""

from dataclasses import replace

import numpy as np
import pytest

from transom.result import Check, CheckArray, CheckRows, worst_of

CASES = ("ahead", "astern", "road")


def array(demand: object, resistance: object, **more: object) -> CheckArray:
    plain = CheckArray(
        part="board",
        what="bending",
        rule="ec5",
        method="hand",
        unit="",
        source="",
        evidence="convention",
        known_by="derived",
        cases=CASES,
        demand=np.asarray(demand, dtype=float),
        resistance=np.asarray(resistance, dtype=float),
    )
    return replace(plain, **more)


BAD = [np.nan, np.inf, -np.inf]


@pytest.mark.parametrize("at", range(3))
@pytest.mark.parametrize("bad", BAD)
def test_one_number_that_is_missing_makes_its_own_share_infinite_and_no_other(bad: float, at: int) -> None:
    row = np.array([[1.0, 2.0, 3.0]])
    there = np.arange(3) == at
    for found in (array(np.where(there, bad, row), [[4.0]]), array(row, np.where(there, bad, 4.0))):
        assert np.array_equal(found.utilisation, np.where(there, np.inf, row / 4.0))
        assert np.isinf(found.worst).all()


@pytest.mark.parametrize("none", [0.0, -1.0])
def test_no_resistance_is_no_pass(none: float) -> None:
    found = array([[1.0], [0.0]], [4.0, none, 4.0])
    assert found.utilisation.tolist() == [[0.25, np.inf, 0.25], [0.0, np.inf, 0.0]]


ARRAYS = (
    array([[1.0, 3.0, 3.0 + 1e-12]], [[4.0]]),
    array([[-1.0, -3.0, -2.0]], [[4.0]], what="fit"),
    array([[1.0]], [[0.0]], what="length", cases=("once",)),
    array([[0.0]], [[1.0]], what="pad-bearing"),
)


def listed() -> tuple[Check, ...]:
    return tuple(row for each in ARRAYS for row in each.rows())


def test_rows_made_when_asked_for_are_the_rows() -> None:
    rows = CheckRows(ARRAYS)
    assert len(rows) == len(listed()) == 10
    assert rows == listed()
    assert tuple(rows) == listed()
    assert hash(rows) == hash(listed())
    assert rows[3:5] == listed()[3:5]
    assert rows[-1] == listed()[-1]
    assert rows != listed()[1:]
    assert CheckRows(()) == ()


def test_the_worst_rows_are_the_worst_of_each_check() -> None:
    rows = CheckRows(ARRAYS)
    for one, each in zip(rows.worst, ARRAYS, strict=True):
        assert one == max(each.rows(), key=lambda c: (c.utilisation, c.id))
    assert worst_of(rows) == rows.worst
    assert worst_of(listed()) == listed()
