"""Alike rows found once, as numpy's own search finds them."""

import numpy as np
import pytest

from transom.board.distinct import distinct


@pytest.mark.parametrize("shape", [(1, 1), (7, 3), (60, 9), (200, 88), (4, 0), (0, 5)])
def test_alike_rows_are_numpy_s(shape: tuple[int, int]) -> None:
    rows = np.random.default_rng(sum(shape)).random(shape) < 0.5
    rows[len(rows) // 2 :] = rows[: len(rows) - len(rows) // 2]
    first, of = distinct(rows)
    assert np.array_equal(rows[first][of], rows)
    assert len(first) == len(np.unique(rows, axis=0))
    assert (np.diff(first) > 0).all()
    assert (of[first] == np.arange(len(first))).all()


def test_alike_rows_of_numbers_are_numpy_s() -> None:
    """Numbers are alike to the last bit or not at all."""
    rows = np.random.default_rng(3).integers(0, 2, (40, 4)) / 3.0
    first, of = distinct(rows)
    assert np.array_equal(rows[first][of], rows)
    assert len(first) == len(np.unique(rows, axis=0)) < len(rows)
    rows[7, 2] = np.nextafter(rows[7, 2], 1.0)
    others = np.delete(np.arange(len(rows)), 7)
    assert (distinct(rows)[1][others] != distinct(rows)[1][7]).all()
    swapped = distinct(np.swapaxes(rows[:, :2], 0, 1))
    assert np.array_equal(rows[:, :2].T[swapped[0]][swapped[1]], rows[:, :2].T)
