"""Sets of touching contacts against the dense equations of each."""

import numpy as np
import pytest

from transom.board.tableau import Problem, Tableau
from transom.board.touching import ROUGH, _alike, _most, held, in_blocks, refined, solved


def random_problem(rng, m: int = 30, v: int = 9):
    B = rng.normal(size=(m, m))
    problem = Problem(B @ B.T / m + 0.05 * np.eye(m), rng.normal(size=(3, m)))
    return problem, rng.normal(size=(m, v)), rng.normal(size=(3, v))


def dense(problem: Problem, on, b, W):
    """Forces of the contacts that touch, and motion, of one case."""
    A = problem.A[:, on]
    K = np.block([[problem.M[np.ix_(on, on)], A.T], [A, np.zeros((3, 3))]])
    x = np.linalg.solve(K, np.concatenate([-b[on], W]))
    return x[:-3], x[-3:]


@pytest.mark.parametrize("shut", [True, False])
def test_sets_solve_their_dense_equations(shut):
    """Sets from few contacts to all, some of them shared by cases, with gaps to begin with and without."""
    rng = np.random.default_rng(4)
    problem, b, W = random_problem(rng, v=40)
    b = 0 * b if shut else b
    sets = rng.random(b.shape) < np.linspace(0.2, 1.0, 40)
    sets[:, 5] = sets[:, 6] = sets[:, 20]
    sets[:3] = True
    y, q = solved(problem, sets, b, W)
    for v in range(b.shape[1]):
        on = sets[:, v]
        force, turn = dense(problem, on, b[:, v], W[:, v])
        assert y[on, v] == pytest.approx(force, rel=1e-8, abs=1e-8)
        assert q[:, v] == pytest.approx(turn, rel=1e-8, abs=1e-8)
        f = np.where(on, y[:, v], 0.0)
        assert y[~on, v] == pytest.approx(problem.gaps(f, q[:, v], b[:, v])[~on], rel=1e-8, abs=1e-8)


def test_a_set_that_holds_nothing_spoils_no_other():
    """One contact cannot balance three loads: no number for it, all others as they are."""
    problem, b, W = random_problem(np.random.default_rng(5))
    sets = np.ones(b.shape, dtype=bool)
    sets[1:, 4] = False
    sets[12:, 3] = False
    y, q = solved(problem, sets, 0 * b, W)
    assert held(problem, sets, y, q, 0 * b, W, ROUGH).tolist() == [v != 4 for v in range(9)]
    for v in (0, 3, 5):
        force, turn = dense(problem, sets[:, v], 0 * b[:, v], W[:, v])
        assert y[sets[:, v], v] == pytest.approx(force, rel=1e-8, abs=1e-8)
        assert q[:, v] == pytest.approx(turn, rel=1e-8, abs=1e-8)


def test_a_tableau_exchanges_gaps_and_forces_of_one_set():
    problem, b, W = random_problem(np.random.default_rng(6))
    on = np.random.default_rng(7).random(30) < 0.5
    tableau = Tableau(problem, on)
    y, q = tableau.start(b, W)
    sets = np.repeat(on[:, None], b.shape[1], axis=1)
    assert y == pytest.approx(solved(problem, sets, b, W)[0], rel=1e-8, abs=1e-8)
    other = on.copy()
    other[[2, 9]] ^= True
    found, turn = solved(problem, np.repeat(other[:, None], b.shape[1], axis=1), b, W)
    z = np.zeros(b.shape)
    z[[2, 9]] = found[[2, 9]]
    P, R = tableau.exchange
    assert np.where(np.isin(np.arange(30), [2, 9])[:, None], 0.0, y + P @ z) == pytest.approx(
        np.where(np.isin(np.arange(30), [2, 9])[:, None], 0.0, found), rel=1e-7, abs=1e-7
    )
    assert q + R @ z == pytest.approx(turn, rel=1e-7, abs=1e-7)


def test_every_case_begins_with_its_own_guess():
    """Right guesses are settled at the first try."""
    rng = np.random.default_rng(8)
    problem, b, _ = random_problem(rng, m=96)
    W = problem.A @ rng.random(b.shape)
    f, q, done = in_blocks(problem, b, W, np.ones(b.shape, dtype=bool), 40)
    assert done.all()
    again, turn, at_once = in_blocks(problem, b, W, f > 0, 1)
    assert at_once.all()
    assert again == pytest.approx(f, abs=1e-9)
    assert turn == pytest.approx(q, abs=1e-9)
    assert not in_blocks(problem, b, W, f > 0, 0)[2].any()


def test_large_sets_solved_from_one_of_them_come_out_the_same():
    """150 contacts: cases in two groups, and one far from both; as each comes out alone."""
    rng = np.random.default_rng(8)
    problem, b, W = random_problem(rng, m=150, v=12)
    start = np.zeros(b.shape, dtype=bool)
    start[:75, :6] = start[75:, 6:] = start[::2, 11] = True
    start ^= rng.random(start.shape) < 0.05
    f, q, done = in_blocks(problem, b, W, start, 30)
    assert len(list(_alike(start))) == 3
    assert _most(problem, start[:, :6]) is not None
    assert _most(problem, start[:, 11:]) is None
    for v in np.flatnonzero(done):
        force, turn, alone = in_blocks(problem, b[:, [v]], W[:, [v]], f[:, [v]] > 0, 5)
        assert alone.all()
        assert f[:, v] == pytest.approx(force[:, 0], rel=1e-8, abs=1e-9)
        assert q[:, v] == pytest.approx(turn[:, 0], rel=1e-8, abs=1e-9)
    assert done.sum() > 6


def test_what_holds_nothing_is_no_set_to_solve_others_from():
    problem, b, _ = random_problem(np.random.default_rng(9), m=150)
    few = np.zeros(b.shape, dtype=bool)
    few[0] = True
    assert _most(problem, few) is None


@pytest.mark.parametrize("off", [0.0, 1e-7, 1e-3])
def test_what_a_solution_leaves_is_solved_once_more(off):
    """Forces and motion off by a part of themselves, gaps as these make them, come back to what the dense equations say."""
    rng = np.random.default_rng(11)
    problem, b, W = random_problem(rng)
    sets = rng.random(b.shape) < 0.6
    exact, turn = solved(problem, sets, b, W)
    force, turned = np.where(sets, exact * (1 + off), 0.0), turn * (1 - off)
    y, q, fine = refined(problem, sets, np.where(sets, force, problem.gaps(force, turned, b)), turned, b, W)
    assert fine.all()
    assert y == pytest.approx(exact, rel=1e-7, abs=1e-7)
    assert q == pytest.approx(turn, rel=1e-7, abs=1e-7)
    for v in range(3):
        force, moved = dense(problem, sets[:, v], b[:, v], W[:, v])
        assert y[sets[:, v], v] == pytest.approx(force, rel=1e-7, abs=1e-7)
        assert q[:, v] == pytest.approx(moved, rel=1e-7, abs=1e-7)


def test_a_pull_that_pushes_is_let_go_and_a_gap_that_overlaps_is_shut():
    """Two springs of unit stiffness under a beam of no bending: loaded over one alone it holds all, the other stands off."""
    problem = Problem(np.eye(3), np.array([[1.0, 1.0, 1.0], [-1.0, 0.0, 1.0], [0.0, 1.0, 0.0]])[:2])
    W = np.array([[1.0, 1.0, 1.0], [0.0, 0.9, -0.9]])
    f, _, done = in_blocks(problem, np.zeros((3, 3)), W, np.ones((3, 3), dtype=bool), 12)
    assert done.all()
    # Evenly a third each; far off to one side: two carry it, 0.1 and 0.9 of it by the lever.
    assert f[:, 0] == pytest.approx([1 / 3] * 3)
    assert f[:, 1] == pytest.approx([0.0, 0.1, 0.9], abs=1e-9)
    assert f[:, 2] == pytest.approx([0.9, 0.1, 0.0], abs=1e-9)
