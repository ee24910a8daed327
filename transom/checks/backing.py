"""Washers and backing plates: the wood they crush, and their own bending."""

import numpy as np

from transom.board.bonded import axis_shift
from transom.checks.board import hole_strips, times_more_of
from transom.checks.careful import Careful
from transom.checks.check import check
from transom.checks.instead import bonded_moment
from transom.checks.patch import Patch
from transom.checks.trial import Trial
from transom.formula import formula
from transom.maths import absolute, maximum, positive
from transom.result import CheckArray
from transom.units import MM, MM2, MPA, ONE, Array, N, Value

CRUSH = "EN 1995-1-1:2004, 8.5.2(2)"
FOLLOWED = "a plate loose behind a board bends as it does: m_f = E_p t_p^3/12 times the curvature M/(E t^3/12)"
OWN_BENDING = "AISC Design Guide 1, 2nd ed., 3.1.4 (plastic section), cantilever beyond the nut"


@formula(symbol="p", source="mean pressure", evidence="published", known_by="derived")
def bearing_pressure(T: N, A_net: MM2) -> MPA:
    """Pressure of a bolt's pull on the wood that works."""
    return T / A_net


@formula(symbol="m", source="reach beyond the nut's flat", evidence="published", known_by="derived",
         typical={"inner": 40.0, "outer": 42.0, "up": 38.0, "down": 41.0, "flats": 19.0})  # fmt: skip
def overhang(inner: MM, outer: MM, up: MM, down: MM, flats: MM) -> MM:
    """Longest cantilever of the plate beyond the nut."""
    return positive(maximum(maximum(inner, outer), maximum(up, down)) - flats / 2.0)


@formula(symbol="m_Ed", source=OWN_BENDING, known_by="memory")
def cantilever_moment(p: MPA, m: MM) -> N:
    """Moment per width of the cantilever under even pressure."""
    return p * m * m / 2.0


@formula(symbol="m_Rd", source=OWN_BENDING, known_by="memory")
def plate_moment_resistance(t_p: MM, f_y: MPA, gamma_M: ONE) -> N:
    """Moment per width of the fully yielded section, t²/4."""
    return t_p * t_p * f_y / (4.0 * gamma_M)


@formula(symbol="m_f", source=FOLLOWED, evidence="convention", known_by="derived",
         typical={"M": 2000.0, "E_p": 70e3, "t_p": 6.0, "E": 6000.0, "t": 37.0})  # fmt: skip
def followed_moment(M: N, E_p: MPA, t_p: MM, E: MPA, t: MM) -> N:
    """Moment per width of a loose plate bent as the board behind it is by M."""
    return absolute(M) * E_p * t_p**3 / (E * t**3)


@formula(
    symbol="m_f k_l", source="plate on flanges that push and bolts that hold", evidence="convention", known_by="derived"
)
def followed_where_it_lifts(m_f: N, k_l: ONE) -> N:
    """The same with the board's edge free to lift between the frame's bolts."""
    return m_f * k_l


@formula(symbol="m_Ed", source="one on the other", evidence="convention", known_by="derived")
def both_moments(m: N, m_f: N) -> N:
    """What pressure and the board's curvature bend a plate by together."""
    return m + m_f


def _followed(trial: Trial, T: Array, upper: bool) -> Value:
    """Of a plate over a pair of bolts that pull, across the board, over all four up it too; none on a single bolt."""
    w, s, t, m = trial.hardware, trial.stacks, trial.t, trial.moments_behind(hole_strips(trial), upper=upper)
    one, two = (trial.worst_place(np.asarray(followed_moment(M, w.E, w.t, E[:, None], t)))
                for M, E in ((m.Mx, s.E_1), (m.My, s.E_2)))  # fmt: skip
    own = np.where(w.per > 1, maximum(one, two), np.where(w.per > 0, one, 0.0))
    if isinstance(trial, Careful) and trial.two_grids and own.any():
        own = np.asarray(followed_where_it_lifts(own, times_more_of(trial)["k_l"]))
    return maximum(np.where(T > 0, own, 0.0), _bonded(trial, upper))


def _bonded(trial: Trial, upper: bool) -> Value:
    """Of a plate glued to the board, which bends with it as one whatever its bolts do; none of a loose one."""
    glued = [other for other in trial.instead if other.glued] if isinstance(trial, Careful) else []
    most: Value = 0.0
    for other in glued:
        w, s, t, m = other.hardware, other.stacks, other.t, other.moments_behind(hole_strips(other), upper=upper)
        for M, E in ((m.Mx, s.E_1[:, None]), (m.My, s.E_2[:, None])):
            e = axis_shift(E, t, w.E, w.t)
            most = maximum(most, other.worst_place(np.asarray(bonded_moment(M, w.E, w.t, E, t, e))))
    return most


NOTE = (
    "moment per mm of width, bent with the board where it spans bolts, more so where the board's edge lifts off the frame;"
    " the wood is credited with none of that"
)


def _rows(trial: Trial) -> tuple[tuple[str, Array, Patch], tuple[str, Array, Patch]]:
    return (
        ("upper", trial.upper_tension, trial.upper_patch),
        ("lower", trial.lower_tension, trial.lower_patch),
    )


def crush(trial: Trial) -> tuple[CheckArray, ...]:
    """Wood under washer or plate at each row."""
    return tuple(
        check(trial, f"wood-crushing-{row}-bolts", "ec5", T, trial.bearing(patch), CRUSH, part="backing",
              method=trial.method, note="only as much of the plate as it can carry without bending")
        for row, T, patch in _rows(trial)
    )  # fmt: skip


def own_bending(trial: Trial) -> tuple[CheckArray, ...]:
    """Washer or plate as a cantilever beyond the nut, over the reach that works; bent with the board where it spans bolts.

    The wood is credited with none of that: a loose plate helps only while its bolts pull and its ends press (conservative).
    """
    w = trial.hardware
    may = plate_moment_resistance(w.t, w.f_y, trial.setup.factors.gamma_M1)
    return tuple(
        check(trial, f"plate-bending-{row}-bolts", "dg1", both_moments(_cantilever(T, patch, w.flats), _followed(trial, T, row == "upper")),
              may, OWN_BENDING, part="backing", method=trial.method, known_by="memory", note=NOTE)
        for row, T, patch in _rows(trial)
    )  # fmt: skip


def _cantilever(T: Array, patch: Patch, flats: Value) -> Value:
    """Moment per width beyond the nut, of the part of the plate that works."""
    reach = overhang(patch.inner, patch.outer, patch.up, patch.down, flats)
    return cantilever_moment(bearing_pressure(T, maximum(patch.area, 1e-9)), reach)
