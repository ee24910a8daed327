"""Contact of many cases at once: sets of touching contacts tried in whole blocks.

A set of touching contacts is a small system of equations; sets that several cases share are solved once, and
sets of like size together. A trial exchanges every contact that pulls and every gap that overlaps (Kostreva,
*Linear Algebra and its Applications* 21 (1978); memory); it may cycle, so it is given a number of tries and
leaves what it cannot settle to pivoting.
"""

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from transom.board.distinct import distinct
from transom.board.tableau import Bools, Problem
from transom.units import Array

TOLERANCE = 1e-9
EXACT = 1e-11  # of the loads: what a solution may leave over before it is refined, as on the plate
ROUGH = 1e-6  # of the loads: what a solution may leave over before it is taken for none
LEADS = 10  # of so many cases one is solved first, and the others begin where the nearest of them ended
LIKE = 12  # contacts by which sets solved together may differ in size: the smaller are filled up


def small(f: Array) -> Array:
    """Below this a force, or a gap in balanced units, is nothing, (v,)."""
    return np.asarray(TOLERANCE * np.abs(f).max(axis=0, initial=0.0) + 1e-300)


def held(problem: Problem, sets: Bools, y: Array, q: Array, b: Array, W: Array, within: float) -> Bools:
    """Cases whose equations y and q meet within a part of their loads; not those that nothing holds, (v,)."""
    gap, load = problem.left(sets, np.where(sets, y, 0.0), q, b, W)
    size = np.maximum(np.abs(b).max(axis=0), np.abs(W).max(axis=0, initial=0.0))
    worst = np.maximum(np.abs(gap).max(axis=0), np.abs(load).max(axis=0, initial=0.0))
    return np.asarray(worst <= within * size)


def solved(problem: Problem, sets: Bools, b: Array, W: Array) -> tuple[Array, Array]:
    """Forces of touching and gaps of open contacts y (m, v), and motion q (r, v), where `sets` (m, v) touch.

    A set that cannot hold the body has singular equations: it gets NaN or what `held` refuses.
    """
    f, q = np.zeros(b.shape), np.empty(W.shape)
    for cases in _of_like_size(sets):
        f[:, cases], q[:, cases] = _forces(problem, sets[:, cases], b[:, cases], W[:, cases])
    return np.where(sets, f, problem.gaps(f, q, b)), q


def _of_like_size(sets: Bools) -> Iterator[NDArray[np.int_]]:
    """Places of the cases, those together whose sets are nearly as large."""
    level = -(-sets.sum(axis=0) // LIKE)
    for size in sorted(set(level.tolist())):
        yield np.flatnonzero(level == size)


def _forces(problem: Problem, sets: Bools, b: Array, W: Array) -> tuple[Array, Array]:
    """Forces (m, v), none where open, and motion (r, v)."""
    (r, v), shut = W.shape, not b.any()
    kinds, of = distinct(sets.T) if shut else (np.arange(v), np.arange(v))
    at, equations = _equations(problem, sets[:, kinds])
    k = at.shape[1]
    # Without gaps to begin with a set answers to the loads alone: a unit of each, then their sums.
    right = np.zeros((len(kinds), k + r, r if shut else 1))
    if shut:
        right[:, k:] = np.eye(r)
        x = _solutions(equations, right)[of] @ W.T[:, :, None]
    else:
        right[:, :k, 0] = np.where(np.take_along_axis(sets.T, at, axis=1), -np.take_along_axis(b.T, at, axis=1), 0.0)
        right[:, k:, 0] = W.T
        x = _solutions(equations, right)
    f = np.zeros((v, len(sets)))
    np.put_along_axis(f, at[of], x[:, :k, 0], axis=1)
    return f.T, x[:, k:, 0].T


def _equations(problem: Problem, sets: Bools) -> tuple[NDArray[np.int_], Array]:
    """Touching contacts of each set (d, k), filled up with others, and its equations (d, k+r, k+r)."""
    (m, d), r = sets.shape, len(problem.A)
    k = int(sets.sum(axis=0).max(initial=0))
    at = np.argsort(~sets, axis=0, kind="stable")[:k].T
    real = np.take_along_axis(sets.T, at, axis=1)
    # One row and column of nothing beyond the whole problem's: what fills a set up.
    whole = np.zeros((m + r + 1, m + r + 1))
    whole[:m, :m], whole[:m, m:-1], whole[m:-1, :m] = problem.M, problem.A.T, problem.A
    row = np.concatenate([np.where(real, at, m + r), np.broadcast_to(np.arange(m, m + r), (d, r))], axis=1)
    out = whole.take(row[:, :, None] * len(whole) + row[:, None, :])
    out[:, np.arange(k), np.arange(k)] += ~real
    return at, out


def _solutions(equations: Array, right: Array) -> Array:
    """Solutions (d, k+r, c); NaN where equations are singular."""
    try:
        return np.asarray(np.linalg.solve(equations, right))
    except np.linalg.LinAlgError:
        if len(equations) == 1:
            return np.full_like(right, np.nan)
    return np.concatenate([_solutions(equations[[i]], right[[i]]) for i in range(len(equations))])


def refined(
    problem: Problem, sets: Bools, y: Array, q: Array, b: Array, W: Array
) -> tuple[Array, Array, Bools]:  # fmt: skip
    """Forces and gaps y (m, v), motion q (r, v), solved once more for what they leave; and which of them hold."""
    if not held(problem, sets, y, q, b, W, EXACT).all():
        more, turn = solved(problem, sets, *problem.left(sets, np.where(sets, y, 0.0), q, b, W))
        y, q = y + more, q + turn
    return y, q, held(problem, sets, y, q, b, W, TOLERANCE)


def in_blocks(problem: Problem, b: Array, W: Array, guess: Bools, tries: int) -> tuple[Array, Array, Bools]:
    """Forces (m, v) and motion (r, v) of every case, and which cases are settled; begins with `guess` (m, v)."""
    sets, f, q = guess.copy(), np.zeros(b.shape), np.zeros(W.shape)
    done, todo = np.zeros(b.shape[1], dtype=bool), np.arange(b.shape[1])
    for _ in range(tries):
        if not todo.size:
            break
        on, case = sets[:, todo], (b[:, todo], W[:, todo])
        y, turn = solved(problem, on, *case)
        holds = held(problem, on, y, turn, *case, ROUGH)
        wrong = y < -small(np.where(on, y, 0.0))
        right = np.flatnonzero(holds & ~wrong.any(axis=0))
        at = todo[right]
        y, turn, fine = refined(problem, on[:, right], y[:, right], turn[:, right], b[:, at], W[:, at])
        done[at[fine]] = True
        f[:, at], q[:, at] = np.where(on[:, right], np.maximum(y, 0.0), 0.0), turn
        sets[:, todo] ^= wrong
        todo = todo[holds & wrong.any(axis=0)]
    return f, q, done


def led(problem: Problem, b: Array, W: Array, start: Bools, tries: int) -> Bools:
    """Contacts to try first in each case, (m, v): those of a case that pulls much the same way, solved from `start`."""
    v = W.shape[1]
    alike = np.repeat(start[:, None], v, axis=1)
    first = np.arange(0, v, LEADS)
    if v < 2 * LEADS:
        return alike
    f, _, done = in_blocks(problem, b[:, first], W[:, first], alike[:, first], tries)
    if not done.any():
        return alike
    way = W / np.maximum(np.sqrt((W**2).sum(axis=0)), 1e-300)
    nearest = np.argmax(way[:, first[done]].T @ way, axis=0)
    return np.asarray(f[:, done][:, nearest] > 0)
