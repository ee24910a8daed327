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
