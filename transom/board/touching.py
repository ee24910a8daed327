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
from transom.board.tableau import Bools, Problem, Tableau
from transom.units import Array

TOLERANCE = 1e-9
EXACT = 1e-11  # of the loads: what a solution may leave over before it is refined, as on the plate
ROUGH = 1e-6  # of the loads: what a solution may leave over before it is taken for none
LEADS = 10  # of so many cases one is solved first, and the others begin where the nearest of them ended
MANY = 120  # contacts; of more, sets are solved by how they differ from one of them, for so many cases at least
FEW = 3
LARGE = 4000  # contacts in all cases together: beyond this too
NEAR = 0.3  # of all contacts: in so many at most cases differ whose sets are solved from one
STEADY = 1e9  # a set may be no nearer to holding nothing than this, for others to be solved from it
LIKE = 24  # contacts by which sets solved together may differ in size: the smaller are filled up


def small(f: Array) -> Array:
    """Below this a force, or a gap in balanced units, is nothing, (v,)."""
    return np.asarray(TOLERANCE * np.abs(f).max(axis=0, initial=0.0) + 1e-300)


def held(problem: Problem, sets: Bools, y: Array, q: Array, b: Array, W: Array, within: float) -> Bools:
    """Cases whose equations y and q meet within a part of their loads; not those that nothing holds, (v,)."""
    gap, load = problem.left(sets, np.where(sets, y, 0.0), q, b, W)
    return np.asarray(_most_of(gap, load) <= within * _loads(b, W))


def _most_of(gap: Array, load: Array) -> Array:
    """The most that is left over of closed gaps (m, v) and of equilibrium (r, v), (v,)."""
    return np.asarray(np.maximum(np.abs(gap).max(axis=0), np.abs(load).max(axis=0, initial=0.0)))


def _loads(b: Array, W: Array) -> Array:
    """What left over is measured by, (v,)."""
    return np.asarray(np.maximum(np.abs(b).max(axis=0), np.abs(W).max(axis=0, initial=0.0)))


def solved(problem: Problem, sets: Bools, b: Array, W: Array) -> tuple[Array, Array]:
    """Forces of touching and gaps of open contacts y (m, v), and motion q (r, v), where `sets` (m, v) touch.

    A set that cannot hold the body has singular equations: it gets NaN or what `held` refuses.
    """
    f, q = _touching(problem, sets, b, W)
    return np.where(sets, f, problem.gaps(f, q, b)), q


def _touching(problem: Problem, sets: Bools, b: Array, W: Array) -> tuple[Array, Array]:
    """Forces (m, v), none where open, and motion."""
    f, q = np.zeros(b.shape), np.empty(W.shape)
    for cases in _of_like_size(sets):
        f[:, cases], q[:, cases] = _forces(problem, sets[:, cases], b[:, cases], W[:, cases])
    return f, q


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


def _alike(sets: Bools) -> Iterator[NDArray[np.int_]]:
    """Places of the cases, those together whose sets (m, v) differ in few contacts."""
    left = np.arange(sets.shape[1])
    while left.size:
        near = (sets[:, left] ^ sets[:, left[:1]]).sum(axis=0) <= NEAR * len(sets)
        yield left[near]
        left = left[~near]


def _most(problem: Problem, sets: Bools) -> Tableau | None:
    """The problem solved for what touches in most of the sets; None where there are few, or that nearly holds nothing."""
    if sets.shape[1] < FEW:
        return None
    tableau = Tableau(problem, 2 * sets.sum(axis=1) > sets.shape[1])
    try:
        return tableau if tableau.condition < STEADY else None
    except np.linalg.LinAlgError:
        return None


def _from(tableau: Tableau, sets: Bools, b: Array, W: Array) -> tuple[Array, Array]:
    """Forces (m, v), none where open, and motion, from a set solved before: unknown are only contacts that touch in one of both
    and not in the other."""
    (y, q), (P, R) = tableau.start(b, W), tableau.exchange
    other = sets ^ tableau.on[:, None]
    k = int(other.sum(axis=0).max(initial=0))
    at = np.argsort(~other, axis=0, kind="stable")[:k].T
    real = np.take_along_axis(other.T, at, axis=1)
    equations = np.where(real[:, :, None] & real[:, None], P[at[:, :, None], at[:, None]], 0.0)
    equations[:, np.arange(k), np.arange(k)] += ~real
    right = np.where(real, -np.take_along_axis(y.T, at, axis=1), 0.0)[:, :, None]
    z = np.zeros((len(at), len(sets)))
    np.put_along_axis(z, at, _solutions(equations, right)[:, :, 0], axis=1)
    return np.where(sets, np.where(other, z.T, y + P @ z.T), 0.0), q + R @ z.T


def refined(
    problem: Problem, sets: Bools, y: Array, q: Array, b: Array, W: Array
) -> tuple[Array, Array, Bools]:  # fmt: skip
    """Forces and gaps y (m, v), motion q (r, v), solved once more for what they leave; and which of them hold."""
    if not held(problem, sets, y, q, b, W, EXACT).all():
        more, turn = solved(problem, sets, *problem.left(sets, np.where(sets, y, 0.0), q, b, W))
        y, q = y + more, q + turn
    return y, q, held(problem, sets, y, q, b, W, TOLERANCE)


def in_blocks(
    problem: Problem, b: Array, W: Array, guess: Bools, tries: int, own: Bools | None = None
) -> tuple[Array, Array, Bools]:
    """Forces (m, v) and motion (r, v) of every case, and which cases are settled; begins with `guess` (m, v).

    `own` (m, v) are the contacts that there are in each case; all if not given.
    """
    own = np.ones(guess.shape, dtype=bool) if own is None else own
    if len(guess) < MANY and guess.size < LARGE:
        return _in_blocks(problem, b, W, (guess, own), tries, None)
    f, q, done = np.zeros(b.shape), np.zeros(W.shape), np.zeros(b.shape[1], dtype=bool)
    for part in _alike(guess):
        here = guess[:, part], own[:, part]
        most = _most(problem, here[0])
        f[:, part], q[:, part], done[part] = _in_blocks(problem, b[:, part], W[:, part], here, tries, most)
    return f, q, done


def _in_blocks(
    problem: Problem, b: Array, W: Array, guess: tuple[Bools, Bools], tries: int, near: Tableau | None
) -> tuple[Array, Array, Bools]:
    """The same from one set solved before, where there is one; `guess` and the contacts of each case."""
    (sets, own), f, q = (guess[0].copy(), guess[1]), np.zeros(b.shape), np.zeros(W.shape)
    done, todo = np.zeros(b.shape[1], dtype=bool), np.arange(b.shape[1])
    for _ in range(tries):
        if not todo.size:
            break
        on, case = sets[:, todo], (b[:, todo], W[:, todo])
        far = near is None or ((on ^ near.on[:, None]).sum(axis=0) > NEAR * len(on)).any()
        force, turn = _touching(problem, on, *case) if near is None or far else _from(near, on, *case)
        gap, size = problem.gaps(force, turn, case[0]), _loads(*case)
        over = _most_of(np.where(on, gap, 0.0), case[1] - problem.A @ force)
        holds, wrong = over <= ROUGH * size, own[:, todo] & (np.where(on, force, gap) < -small(force))
        bad = wrong.any(axis=0)
        right = np.flatnonzero(holds & ~bad)
        at, y, turned, fine = todo[right], force[:, right], turn[:, right], np.ones(len(right), dtype=bool)
        if (over[right] > EXACT * size[right]).any():
            y, turned, fine = refined(problem, on[:, right], y, turned, b[:, at], W[:, at])
        done[at[fine]] = True
        f[:, at], q[:, at] = np.where(on[:, right], np.maximum(y, 0.0), 0.0), turned
        sets[:, todo] ^= wrong
        todo = todo[holds & bad]
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
