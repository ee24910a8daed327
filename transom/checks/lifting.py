"""The board between its frame bolts: there its edge is free to lift off the flange, and bends more for it.

The plate that decides lies on lines that hold it both ways. That is hard on the frame's bolts, but a board held at
its bolts only, on flanges that only push, bends up to a fifth more (`tests/bench/one_way_frame.py`). The cases that
bend it most are solved again so, and those that pull and push hardest, and all are raised by what is found.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

import numpy as np

from transom.board.answer import Answer, bounded
from transom.board.bracket import Borne, Rest
from transom.board.grid import Rectangle
from transom.board.let_go import LetGo
from transom.checks import frame_pull
from transom.checks.careful import Careful, wrenches_of
from transom.formula import formula
from transom.maths import maximum, scalar
from transom.units import MM, MM_PER_N, MPA, N_PER_MM, ONE, Array, N

MOST = 0.75  # of the worst case: what bends the board less is not solved again
HOPEFUL = 0.5  # the same by two grids: they are nowhere so far apart that a case below this would be above that
FORCES = ("k_u", "k_o", "k_p")  # of upper bolts, lower bolts, pads
SEAT = 25.0  # mm of flange that a board presses on along its line


@formula(
    symbol="k_l", source="plate on flanges that push and bolts that hold", evidence="convention", known_by="derived"
)
def times_more(lifting: ONE, held: ONE) -> ONE:
    """How many times more the board bends; never less than on lines that hold."""
    return maximum(1.0, lifting / held)


@formula(symbol="k", source="plate on flanges that push and bolts that hold", evidence="convention",
         known_by="derived", typical={"lifting": 9000.0, "held": 8000.0})  # fmt: skip
def times_harder(lifting: N, held: N, least: N = 1.0) -> ONE:
    """How many times more a bolt or a pad carries; never less than on lines that hold."""
    return maximum(1.0, lifting / maximum(held, least))


@formula(
    symbol="u k_l", source="plate on flanges that push and bolts that hold", evidence="convention", known_by="derived"
)
def where_it_lifts(u: ONE, k_l: ONE) -> ONE:
    """Share of the limit with the edge free to lift between bolts."""
    return u * k_l


@formula(
    symbol="E_90 b l/t", source="elastic bed on the wood's own thickness", evidence="convention", known_by="derived"
)
def flange_bed(E_90: MPA, b: MM, length: MM, t: MM) -> N_PER_MM:
    """Stiffness of the wood along a flange."""
    return E_90 * b * length / t


@formula(symbol="1/c", source="stiffness of a spring", evidence="published", known_by="derived")
def stiffness_of(c: MM_PER_N) -> N_PER_MM:
    """Stiffness from give."""
    return 1.0 / c


def lifting(plate: Careful, bending: Callable[[Careful], Array], u: Array | None = None) -> Array:
    """How many times more each case bends the board where its edge may lift between bolts, (v,); worked out once.

    1 for a quick look on one grid, and where it is only asked whether a board passes that is over its limit already.
    Cases that are not solved again take the most that is found. How many times more upper bolts, lower bolts and pads
    carry is kept beside it (`FORCES`), for all cases alike.

    Args:
        plate: one candidate, its frame's bolts settled.
        bending: share of the limit in bending of a candidate, (1, v).
        u: that of this one, where it is known.
    """
    if "k_l" not in plate.kept:
        asked, none = plate.two_grids, np.ones(len(plate.cases))
        bent = (bending(plate) if u is None else u)[0] if asked else none
        asked = asked and not (plate.passing_only and bent.max() > 1.0)
        plate.kept.update(_lifting(plate, bending, bent) if asked else dict.fromkeys(("k_l", *FORCES), none))
    return np.asarray(plate.kept["k_l"])


def _lifting(plate: Careful, bending: Callable[[Careful], Array], u: Array) -> dict[str, Array]:
    """Both are of the finest grid alone, so that what the grid has yet to go is in neither."""
    out = np.ones_like(u)
    if not u.max() > 0.0:
        return dict.fromkeys(("k_l", *FORCES), out)
    near = np.flatnonzero(u >= HOPEFUL * u.max())
    held = bending(held_by_lines(plate, near.tolist()))[0]
    most = held >= MOST * held.max()
    rows = near[most].tolist()
    free = on_flanges(plate, rows)
    found = np.asarray(times_more(bending(free)[0], held[most]))
    out[:] = found.max()
    out[rows] = found
    return {"k_l": out, **_harder(plate, free.answer, rows)}


def _harder(plate: Careful, free: Answer, rows: Sequence[int]) -> dict[str, Array]:
    """How many times more upper bolts, lower bolts and pads carry: in the cases solved again, and in the one in which
    each asks the most of the wood about it, in the wood that makes it most. What bends the board most seldom pulls its
    lower bolts."""
    a, k = plate.answer, np.broadcast_to(plate.k, (len(plate.cases),))
    each, stiff = (a.borne, *a.bounds), (None, *plate.board.bounds)
    forces = np.array([_over_wood(plate, b, k) for b in each])
    loose = np.max([_over_wood(plate, b, k[rows]).max(axis=1) for b in (free.borne, *free.bounds)], axis=0)
    for j, held in enumerate(np.moveaxis(forces, 1, 0)):
        n, i = (int(x) for x in np.unravel_index(np.argmax(held), held.shape))
        if i not in rows:
            wrench, name = wrenches_of(plate.actions, len(k))[[i]], plate.cases.names[i]
            again = free.seated[-1].bear(wrench, [name], each[n], stiff[n])
            loose[j] = max(loose[j], _over_wood(plate, again, k[[i]])[j, 0])
    found = np.asarray(times_harder(loose, forces.max(axis=(0, 2))))
    return {symbol: np.full(len(k), times) for symbol, times in zip(FORCES, found, strict=True)}


def _over_wood(plate: Careful, borne: Borne, k: Array) -> Array:
    """Largest force of an upper bolt, a lower bolt and a pad over what the wood bears in a case, (3, v)."""
    port = plate.answer.seat.middles[0] < 0.0
    pads = np.maximum(borne.pads[port].sum(axis=0), borne.pads[~port].sum(axis=0))
    return np.asarray(np.divide(np.stack([borne.bolts[:2].max(axis=0), borne.bolts[-2:].max(axis=0), pads]), k))


def held_by_lines(plate: Careful, rows: Sequence[int]) -> Careful:
    """Some cases of a candidate as its lines hold it, on its finest grid alone."""
    finest = plate.answer.finest(rows)
    return replace(in_some_cases(plate, rows), solved=finest, two_grids=False)


def in_some_cases(plate: Careful, rows: Sequence[int]) -> Careful:
    """A candidate in some of its cases, looked at alone."""
    of = tuple(rows) if plate.whole is None else plate.rows and tuple(plate.rows[i] for i in rows)
    some = plate.cases.take(rows)
    return replace(plate, cases=some, whole=plate.whole or plate, rows=of, kin=None, first=None, solved=None, lone=True)


def on_flanges(plate: Careful, rows: Sequence[int]) -> Careful:
    """Some cases of a candidate on flanges that only push and bolts that only hold, on its finest grid."""
    some = in_some_cases(plate, rows)
    wrenches, names, held = wrenches_of(some.actions, len(rows)), some.cases.names, plate.answer
    lying = held.seated[-1]
    seated = LetGo(lying.plate, lying.seat, tuple(rests(plate)), lying.units)
    like = plate.lifted
    if like is not None and (not seated.fits(like.borne) or len(like.borne.wrenches) < len(rows)):
        like = None
    borne = seated.bear(wrenches, names, held.borne if like is None else like.borne)
    found = Answer((seated,), (borne,), bounded(plate.board, seated, borne, names, like))
    plate.let_go[:] = [found.outcome]
    return replace(some, solved=found, two_grids=False)


def rests(plate: Careful) -> Iterator[Rest]:
    """Flanges that push; bolts that hold, at the nearest nodes of the finer grid."""
    fine = plate.answer.grid
    nodes = fine.nodes
    for line in plate.lines:
        length = max(line.y_hi - line.y_lo, line.z_hi - line.z_lo)
        bed = flange_bed(plate.factor("board.pad_stiffness_MPa"), SEAT, length, scalar(plate.t))
        yield Rest(line, scalar(bed), True)
    _, y, z = frame_pull.bolt_places(plate)
    nearest = {
        tuple(int(np.argmin(np.abs(on - v))) for on, v in ((fine.y, a), (fine.z, b))) for a, b in zip(y, z, strict=True)
    }
    # A bolt in a notch or a cut corner holds no wood, and fails as a check.
    places = [(float(fine.y[i]), float(fine.z[j])) for i, j in nearest if nodes[i, j]]
    k = scalar(stiffness_of(frame_pull.holding_give(plate, plate.setup.frame.side_pitch)))
    for a, b in sorted(places):
        yield Rest(Rectangle(a, a, b, b), k, False)
