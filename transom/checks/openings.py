"""What openings take out of the wood that bends, by where they are.

By the plate an opening takes of the wood about it what a bolt's hole does: mean moment over four diameters, net
section; of a wide one no more wood than one and a half thicknesses on either side shares. Beside a round hole in
plywood under even bending the mean moment over a thickness is 1.2 to 1.3 times the even one for openings up to a
thickness, 1.5 for two and 1.6 for three (a plate with the hole in its grid), where this gives 1.33, 1.67 and 2.0. Wider
than three thicknesses it is cut out of the plate, as the square about it. By the pencil an opening takes its width out of
the strip it lies in, with the strip's largest moment wherever along it that is (conservative).
"""

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

import numpy as np

from transom.checks.patch import FAR, half_of
from transom.formula import formula
from transom.frozen import dataclass
from transom.job.records import Hole
from transom.maths import maximum, minimum, positive, scalar
from transom.units import MM, ONE, Array, Value

if TYPE_CHECKING:
    from transom.checks.trial import Trial

NET = "EN 1995-1-1:2004, 5.2, net section"
SHARED = "mean moment over the wood a hole shares"


@formula(symbol="l", source="geometry", evidence="published", known_by="derived", typical={"x": 60.0, "hi": 100.0})
def taken_of_strip(x: MM, D: MM, lo: MM, hi: MM) -> MM:
    """Length that a hole with its middle at x takes of a strip."""
    return positive(minimum(x + D / 2.0, hi) - maximum(x - D / 2.0, lo))


@formula(symbol="sum", source="one after the other", evidence="published", known_by="derived")
def with_more(taken: MM, more: MM) -> MM:
    """What several holes take of a strip."""
    return taken + more


@formula(symbol="1 - l/b", source=NET, evidence="published", known_by="memory",
         typical={"b": 200.0, "taken": 25.0, "most": 0.999})  # fmt: skip
def share_beside(taken: MM, b: MM, most: ONE = 0.999) -> ONE:
    """Share of a strip left beside openings or a notch; all but nothing where they take it whole."""
    return 1.0 - minimum(taken / b, most)


@formula(symbol="eta", source="net section", evidence="published", known_by="derived")
def both_shares(one: ONE, other: ONE) -> ONE:
    """Share left beside holes and openings, taken one after the other (conservative)."""
    return one * other


@formula(symbol="c", source=SHARED, evidence="convention", known_by="computed")
def shared_to(D: MM, t: MM) -> MM:
    """Half of the wood that shares an opening: four diameters in all, never more than one and a half thicknesses beside it."""
    return D / 2.0 + 1.5 * minimum(D, t)


@formula(symbol="x_1", source=SHARED, evidence="convention", known_by="derived", typical={"x": 300.0})
def strip_begins(x: MM, c: MM, edge: MM) -> MM:
    """Where the wood about an opening begins: so far before its middle, or at the edge."""
    return maximum(x - c, edge)


@formula(symbol="x_2", source=SHARED, evidence="convention", known_by="derived", typical={"edge": 300.0})
def strip_ends(x: MM, c: MM, edge: MM) -> MM:
    """Where it ends."""
    return minimum(x + c, edge)


@formula(symbol="b", source="geometry", evidence="published", known_by="derived", typical={"hi": 200.0})
def strip_length(lo: MM, hi: MM, least: MM = 0.01) -> MM:
    """Width of a strip."""
    return maximum(hi - lo, least)


@formula(symbol="c", source="rim to middle", evidence="published", known_by="derived", typical={"D": 25.0})
def off_section(x: MM, x_0: MM, D: MM) -> MM:
    """From a section at x_0 to the rim of a hole at x; nothing where it cuts the hole."""
    return positive(positive(x - x_0) + positive(x_0 - x) - D / 2.0)


@formula(symbol="y_1", source="strip up the board about a pad's middle", evidence="convention", known_by="derived")
def upright_begins(y_pad: MM, b_v: MM) -> MM:
    """Inner side of the pencil's strip up the board."""
    return y_pad - b_v / 2.0


@formula(symbol="y_2", source="strip up the board about a pad's middle", evidence="convention", known_by="derived")
def upright_ends(y_pad: MM, b_v: MM) -> MM:
    """Outer side of it."""
    return y_pad + b_v / 2.0


@formula(symbol="D_w", source="three times the board's thickness", evidence="convention", known_by="computed")
def widest_left(t: MM) -> MM:
    """Widest opening that is left to the net section."""
    return 3.0 * t


@formula(symbol="y", source="a hole seen from either side", evidence="published", known_by="derived")
def on_side(y: MM, side: ONE) -> MM:
    """How far a hole lies to one side of the center line, +1 starboard, -1 port."""
    return side * y


@dataclass(frozen=True)
class Strip:
    """The wood about an opening, mm: its middle across and down, and where the wood ends either way."""

    y: float
    down: float
    port: float
    starboard: float
    top: float
    bottom: float


def wide_openings(trial: "Trial") -> tuple[Hole, ...]:
    """Openings cut out of the plate, of a trial of one board."""
    widest = float(np.min(np.asarray(widest_left(trial.t))))
    return tuple(o for o in trial.setup.job.board.openings if o.diameter > widest)


def left_to_net_section(trial: "Trial") -> tuple[Hole, ...]:
    """The others."""
    wide = wide_openings(trial)
    return tuple(o for o in trial.setup.job.board.openings if o not in wide)


def strips_about(trial: "Trial", openings: Sequence[Hole]) -> tuple[Strip, ...]:
    """The wood about each opening, ended at the board's edges."""
    half, H, t = scalar(half_of(trial.setup.place.width)), scalar(trial.setup.place.height), scalar(trial.t)
    out = []
    for o in openings:
        c = scalar(shared_to(o.diameter, t))
        across = scalar(strip_begins(o.y, c, -half)), scalar(strip_ends(o.y, c, half))
        out.append(Strip(o.y, o.down, *across, scalar(strip_begins(o.down, c, 0.0)), scalar(strip_ends(o.down, c, H))))
    return tuple(out)


def strips_at_bolts(trial: "Trial", upper: Value, lower: Value, wide: Value, i: int = 0) -> tuple[Strip, ...]:
    """The wood about each bolt's hole of the i-th candidate, so wide up and down at an upper and a lower bolt, and sideways."""
    bolts = bolt_holes(trial, i)
    highs = [_least(strip, i) for strip in (upper, upper, lower, lower)[: len(bolts)]]
    across = _least(wide, i)
    return tuple(
        Strip(
            b.y, b.down,
            scalar(upright_begins(b.y, across)), scalar(upright_ends(b.y, across)),
            scalar(upright_begins(b.down, high)), scalar(upright_ends(b.down, high)),
        )
        for b, high in zip(bolts, highs, strict=True)
    )  # fmt: skip


def bolt_holes(trial: "Trial", i: int = 0) -> tuple[Hole, ...]:
    """Holes bored for the engine's bolts of the i-th candidate, the upper row first; none for clamp screws."""
    h, d = trial.setup.holding.pattern, scalar(trial.over_bore[i])
    rows = ((h.y_u, h.z_u), (h.y_l, h.z_l)) if d > 0 else ()
    return tuple(Hole(scalar(on_side(y, side)), scalar(z), d) for y, z in rows for side in (-1.0, 1.0))


def shares(strips: Sequence[Strip], holes: Sequence[Hole], near: float) -> tuple[Array, Array]:
    """Share of each strip that holes leave for bending across and up, (k, 1).

    A hole counts in a section that it cuts or lies nearer to than `near`, mm.
    """
    across = [_share(((o.y, o.down, o.diameter) for o in holes), s.y, (s.top, s.bottom), near) for s in strips]
    up = [_share(((o.down, o.y, o.diameter) for o in holes), s.down, (s.port, s.starboard), near) for s in strips]
    return np.reshape(across, (-1, 1)), np.reshape(up, (-1, 1))


def _share(
    holes: Iterable[tuple[float, float, float]], section: float, ends: tuple[float, float], near: float
) -> float:
    """Share left of one section from end to end, of holes (across the section, along it, diameter)."""
    taken: Value = 0.0
    for off, along, D in holes:
        if off_section(off, section, D) <= near:
            taken = with_more(taken, taken_of_strip(along, D, *ends))
    return scalar(share_beside(taken, strip_length(*ends)))


def by_strips(trial: "Trial") -> tuple[Value, Value]:
    """Share that openings leave of the pencil's strips for bending across and up, (n, v)."""
    openings, s, y_pad = trial.setup.job.board.openings, trial.strips, trial.setup.holding.pattern.y_pad
    above = _taken(openings, ((o.down, 0.0, s.b1) for o in openings))
    below = _taken(openings, ((o.down, s.b1, FAR) for o in openings))
    ends = upright_begins(y_pad, s.b_v), upright_ends(y_pad, s.b_v)
    sides = [_taken(openings, ((on_side(o.y, side), *ends) for o in openings)) for side in (-1.0, 1.0)]
    across = minimum(share_beside(above, s.b1), share_beside(below, s.b2))
    return across, share_beside(maximum(*sides), s.b_v)


def _taken(openings: Sequence[Hole], places: Iterable[tuple[Value, Value, Value]]) -> Value:
    """What all openings take of a strip, each at (x, lo, hi)."""
    taken: Value = 0.0
    for o, (x, lo, hi) in zip(openings, places, strict=True):
        taken = with_more(taken, taken_of_strip(x, o.diameter, lo, hi))
    return taken


def _least(x: Value, i: int) -> float:
    """Of all cases of the i-th candidate: the narrowest strip."""
    rows = np.atleast_2d(np.asarray(x))
    return float(np.min(rows[i if len(rows) > 1 else 0]))
