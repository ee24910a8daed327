"""What the careful method hands on, number by number: its grid, its residual and the pencil's value beside it."""

from collections.abc import Iterator, Sequence

import numpy as np

from transom.checks.careful import Careful
from transom.checks.lifted import held_pads
from transom.checks.moments import Moments
from transom.checks.trial import Trial
from transom.frozen import dataclass
from transom.units import Array, Value


@dataclass(frozen=True)
class PlateValue:
    """One number of the plate's solution, N or N*mm/mm: what it is and where, and how well it is known.

    `hand` is the pencil method's value of the same thing, NaN where it has none. `residual` is what bolts,
    pads and lines leave of the case's forward force, N: how far the solution is from balance.
    """

    symbol: str
    what: str
    value: float
    grid: str
    residual: float
    hand: float


@dataclass(frozen=True)
class Solved:
    """One quantity of the plate at every place (p, v), and the pencil's value of it (v,)."""

    symbol: str
    what: str
    places: tuple[str, ...]
    values: Array
    hand: Array


@dataclass(frozen=True)
class PlateValues:
    """All that the checks take from the plate; `residual` N (v,)."""

    solved: tuple[Solved, ...]
    grid: str
    residual: Array

    def find(self, value: float, column: int) -> PlateValue | None:
        """The quantity of a case that has this value, to the last bit."""
        for s in self.solved:
            there = np.flatnonzero(s.values[:, column] == value)
            if there.size:
                what = f"{s.what}{s.places[int(there[0])]}"
                return PlateValue(s.symbol, what, value, self.grid, float(self.residual[column]), float(s.hand[column]))
        return None


BOLTS = (
    " the upper bolt to port",
    " the upper bolt to starboard",
    " the lower bolt to port",
    " the lower bolt to starboard",
)
MORE = {"k_l": "bending", "k_u": "pull of an upper bolt", "k_o": "pull of a lower bolt", "k_p": "push of a pad"}
WOOD = ("", ", softer wood", ", stiffer wood")
MOMENTS = (
    ("M_x", "moment per mm of width that bends the board across, ", "Mx"),
    ("M_y", "moment per mm of width that bends the board up and down, ", "My"),
    ("M_xy", "moment per mm of width that twists the board, ", "Mxy"),
)


def plate_values(careful: Careful, pencil: Trial, means: Sequence[tuple[str, Moments]]) -> PlateValues:
    """Every number that the checks take from the plate; `means` as the checks asked for them, each with the name it is asked by."""
    v = len(careful.cases)
    return PlateValues(
        tuple(Solved(s, what, places, values, np.broadcast_to(np.asarray(hand, dtype=float), (1, v))[0])
              for s, what, places, values, hand in _quantities(careful, pencil, means)),
        grid_words(careful),
        imbalance(careful),
    )  # fmt: skip


Quantity = tuple[str, str, tuple[str, ...], Array, Value]


def _quantities(careful: Careful, pencil: Trial, means: Sequence[tuple[str, Moments]]) -> Iterator[Quantity]:
    s = pencil.strips
    yield from _of_board(careful, pencil)
    for moments, places in ((careful.moments, nodes(careful)), *((m, _about(careful, asked)) for asked, m in means)):
        for symbol, what, name in MOMENTS:
            where = places if moments is careful.moments else tuple(f"mean over the wood round{p}" for p in places)
            yield symbol, what, where, np.asarray(getattr(moments, name)), getattr(s, name)
    for other in careful.instead:
        more = f", {'plates glued' if other.glued else 'corners whole'}"
        own = [
            (symbol, what, nodes(other), np.asarray(getattr(other.moments, name)), np.nan)
            for symbol, what, name in MOMENTS
        ]
        for symbol, what, places, values, hand in (*_of_board(other, pencil), *own):
            yield symbol, what, tuple(f"{p}{more}" for p in places), values, hand


def _of_board(careful: Careful, pencil: Trial) -> Iterator[Quantity]:
    """What bolts, pads and lines carry, and how much more the board bends where its edge lifts."""
    a, count = careful.answer, len(careful.answer.borne.bolts)
    hand = (pencil.upper_tension, pencil.lower_tension)
    for b in range(count):
        for borne, more in zip((a.borne, *a.bounds), WOOD, strict=False):
            yield "T_p", "pull of", (f"{BOLTS[b]}{more}",), borne.bolts[b : b + 1], hand[b // 2]
        yield "dT", "what two grids have yet to go in the pull of", BOLTS[b : b + 1], a.bolt_error[b : b + 1], np.nan
    yield "C_p", "push of", (" the pad to port", " the pad to starboard"), held_pads(a), pencil.pad_push
    for line in careful.edge_lines:
        at = tuple(f" at {x:.0f} mm along the line" for x in line.along)
        yield "V_p", "pull of the board on what holds it", at, line.pull, np.nan
        yield "w_p", "travel of the board's edge", at, line.edge, np.nan
        beyond = np.full((1, len(careful.cases)), line.overhang)
        yield "o_p", "from what holds the board to its edge", ("",), beyond, np.nan
        yield "a_p", "place of the plate's grid", at, np.broadcast_to(line.along[:, None], line.pull.shape), np.nan
    for symbol, times in careful.kept.items():
        yield (
            symbol,
            f"times more {MORE[symbol]} where the board's edge lifts between its bolts",
            ("",),
            times[None],
            np.nan,
        )


def _about(careful: Careful, asked: str) -> tuple[str, ...]:
    """Places of means: bolts or openings, as they are, then with softer wood under the pads."""
    names = {
        "moments_at_bolts": BOLTS[: len(careful.answer.seat.bolts)],
        "moments_at_openings": tuple(f" the opening at y = {o.y:.0f}, z = {-o.down:.0f} mm" for o in careful.openings),
    }[asked]
    return tuple(f"{name}{more}" for more in WOOD[: len(careful.answer.bounds) + 1] for name in names)


def nodes(careful: Careful) -> tuple[str, ...]:
    """Where each node of the finer grid lies, in words."""
    grid = careful.answer.grid
    return tuple(
        f"at y = {grid.y[i]:.0f}, z = {grid.z[j]:.0f} mm" for i, j in zip(*np.nonzero(grid.nodes), strict=True)
    )


def grid_words(careful: Careful) -> str:
    """The grid the numbers are of."""
    grid = careful.answer.grid
    p, q = grid.present.shape
    again = f", corrected by one of {p // 2} x {q // 2}" if careful.two_grids else ""
    return f"{p} x {q} cells{again}"


def imbalance(careful: Careful) -> Array:
    """What the lines' reactions leave of each case's forward force, N, (v,)."""
    held = careful.answer.solution.reaction.sum(axis=(0, 1))
    return np.asarray(np.abs(held - np.broadcast_to(careful.actions.N, (1, len(careful.cases)))[0]))
