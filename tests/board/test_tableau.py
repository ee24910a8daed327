"""A tableau against the dense equations of the sets it is exchanged to."""

import numpy as np
import pytest

from transom.board.tableau import REACH, Problem, Tableau, in_blocks


def random_problem(rng, m: int = 30, v: int = 9):
    B = rng.normal(size=(m, m))
    problem = Problem(B @ B.T / m + 0.05 * np.eye(m), rng.normal(size=(3, m)))
    return problem, rng.normal(size=(m, v)), rng.normal(size=(3, v))


def test_exchanged_sets_solve_the_dense_equations():
    rng = np.random.default_rng(4)
    problem, b, W = random_problem(rng)
    tableau = Tableau(problem, rng.random(30) < 0.5)
    sets = tableau.on[:, None] ^ (rng.random(b.shape) < 0.2)
    y, q = tableau.solved(sets, b, W)
    for v in range(b.shape[1]):
        on = sets[:, v]
        A = problem.A[:, on]
        K = np.block([[problem.M[np.ix_(on, on)], A.T], [A, np.zeros((3, 3))]])
        x = np.linalg.solve(K, np.concatenate([-b[on, v], W[:, v]]))
        assert y[on, v] == pytest.approx(x[:-3], rel=1e-8, abs=1e-8)
        assert q[:, v] == pytest.approx(x[-3:], rel=1e-8, abs=1e-8)
        f = np.where(on, y[:, v], 0.0)
        assert y[~on, v] == pytest.approx(problem.gaps(f, q[:, v], b[:, v])[~on], rel=1e-8, abs=1e-8)


def test_every_case_begins_with_its_own_guess():
    """Right guesses, further from each other than one base reaches, are settled at the first try."""
    rng = np.random.default_rng(8)
    problem, b, _ = random_problem(rng, m=3 * REACH)
    W = problem.A @ rng.random(b.shape)
    f, q, done = in_blocks(problem, b, W, np.ones(b.shape, dtype=bool), 40)
    assert done.all()
    again, turn, at_once = in_blocks(problem, b, W, f > 0, 1)
    assert at_once.all()
    assert again == pytest.approx(f, abs=1e-9)
    assert turn == pytest.approx(q, abs=1e-9)
    assert not in_blocks(problem, b, W, f > 0, 0)[2].any()
