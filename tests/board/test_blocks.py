"""Block-tridiagonal equations against numpy's dense solver."""

import numpy as np
import pytest

from transom.board.blocks import Blocks
from transom.errors import JobError

B = 6
MIRROR = np.tile([1.0, -1.0, 1.0], 2)


def random_blocks(lines: int, alike: bool, rng) -> Blocks:
    """Random equations with a dominant diagonal, or such whose second half mirrors the first."""
    diagonal, onward = rng.normal(size=(lines, B, B)), rng.normal(size=(lines - 1, B, B))
    diagonal = diagonal + np.swapaxes(diagonal, 1, 2) + 30 * np.eye(B)
    if alike:
        signs = np.outer(MIRROR, MIRROR)
        diagonal = (diagonal + diagonal[::-1] * signs) / 2
        onward = (onward + np.swapaxes(onward[::-1], 1, 2) * signs) / 2
    return Blocks(diagonal, onward, MIRROR)


def dense(blocks: Blocks) -> np.ndarray:
    n = len(blocks.diagonal)
    out = np.zeros((n, B, n, B))
    i = np.arange(n)
    out[i, :, i] = blocks.diagonal
    out[i[:-1], :, i[1:]] = blocks.onward
    out[i[1:], :, i[:-1]] = np.swapaxes(blocks.onward, 1, 2)
    return out.reshape(n * B, n * B)


@pytest.mark.parametrize("lines", [2, 3, 4, 9])
@pytest.mark.parametrize("alike", [False, True])
def test_solution_and_flexibility_are_those_of_the_dense_matrix(lines, alike):
    rng = np.random.default_rng(lines)
    blocks = random_blocks(lines, alike, rng)
    assert blocks.mirrored == (alike and lines % 2 == 1)
    f = rng.normal(size=(lines, B, 5))
    f[: lines // 2, :, 0] = f[lines // 2 :, :, 1] = f[..., 2] = 0.0
    flat = f.reshape(lines * B, -1)
    x = np.linalg.solve(dense(blocks), flat)
    assert blocks.solve(f).reshape(lines * B, -1) == pytest.approx(x, abs=1e-12)
    assert blocks.flexibility(f) == pytest.approx(flat.T @ x, abs=1e-12)
    assert blocks.times(f).reshape(lines * B, -1) == pytest.approx(dense(blocks) @ flat, abs=1e-10)


def test_a_line_that_nothing_holds_is_refused():
    blocks = random_blocks(5, False, np.random.default_rng(0))
    loose = Blocks(blocks.diagonal * 0, blocks.onward * 0, MIRROR)
    with pytest.raises(JobError, match="not held"):
        loose.solve(np.ones((5, B, 1)))
