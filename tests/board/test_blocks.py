"""Block-tridiagonal equations against numpy's dense solver."""

import numpy as np
import pytest

from transom.board.blocks import Blocks, End
from transom.errors import JobError

B = 6
MIRROR = np.tile([1.0, -1.0, 1.0], 2)


def random_end(lines: int, rng) -> End:
    """Random equations with a dominant diagonal."""
    diagonal, onward = rng.normal(size=(lines, B, B)), rng.normal(size=(lines, B, B))
    return End(diagonal + np.swapaxes(diagonal, 1, 2) + 30 * np.eye(B), onward)


def dense(blocks: Blocks) -> np.ndarray:
    h, n = len(blocks.ends[0].diagonal), blocks.lines
    out = np.zeros((n, B, n, B))
    out[h, :, h] = blocks.centre
    signs = np.outer(MIRROR, MIRROR)
    for end, order, turn in zip(blocks.ends, (1, -1), (1.0, signs), strict=True):
        for i, (own, onward) in enumerate(zip(end.diagonal, end.onward, strict=True)):
            here, after = (i, i + 1) if order > 0 else (n - 1 - i, n - 2 - i)
            out[here, :, here] = own * turn
            out[here, :, after], out[after, :, here] = onward * turn, (onward * turn).T
    return out.reshape(n * B, n * B)


@pytest.mark.parametrize("lines", [(1, 0), (1, 1), (2, 1), (4, 4), (3, 5)])
@pytest.mark.parametrize("alike", [False, True])
def test_solutions_are_those_of_the_dense_matrix(lines, alike):
    rng = np.random.default_rng(sum(lines))
    first, second = (random_end(h, rng) for h in lines)
    if alike and lines[0] == lines[1]:
        second = first
    centre = random_end(1, rng).diagonal[0]
    blocks = Blocks((first, second), centre, MIRROR)
    n, h = blocks.lines, lines[0]
    f = rng.normal(size=(n, B, 5))
    f[h:, :, 0] = f[: h + 1, :, 1] = f[..., 2] = 0.0
    f[:h, :, 4] = f[h + 1 :, :, 4] = 0.0
    flat = f.reshape(n * B, -1)
    x = np.linalg.solve(dense(blocks), flat)
    assert blocks.solve(f).reshape(n * B, -1) == pytest.approx(x, abs=1e-12)
    assert blocks.times(f).reshape(n * B, -1) == pytest.approx(dense(blocks) @ flat, abs=1e-10)
    g = np.zeros_like(f)
    g[:, ::3] = f[:, ::3]
    some = blocks.solve(f[:, ::3], slice(0, None, 3))
    assert some.reshape(n * B, -1) == pytest.approx(np.linalg.solve(dense(blocks), g.reshape(n * B, -1)), abs=1e-12)


def test_a_line_that_nothing_holds_is_refused():
    end = random_end(2, np.random.default_rng(0))
    loose = End(end.diagonal * 0, end.onward * 0)
    with pytest.raises(JobError, match="not held"):
        Blocks((loose, end), np.eye(B), MIRROR).solve(np.ones((5, B, 1)))
