"""Cards of the board itself and of what spreads the bolts on it."""

from collections.abc import Callable
from math import hypot, pi, sqrt

from tests.checks.shop import AHEAD, ASTERN, alone, plate, trial
from tests.checks.test_board import moments
from tests.unsafe.cards import Card
from tests.unsafe.hand import K, T, lower, times, upper
from transom.checks.trial import Trial

LEANS = (-500.0, 0.0, -9000.0, 0.0, 9e5, 0.0)  # weight for the most part: its lever of half the board counts
DOWN_ASTERN = (2500.0, 0.0, -6000.0, 0.0, -1.4e6, 0.0)
TURNED = (-1500.0, -4000.0, -1500.0, 0.0, 1.2e6, -9e5)
C_1, C_2 = 1.3071, 1.6779  # lamination by hand, tests/checks/test_board.py
CORNER = pi * T / 8
P_D = 3 * 2.24 * K  # EN 1995-1-1 8.5.2(2): three times f_c,90
REACH = 19.05 / 2 + 6.35 * sqrt(240 / (2 * P_D * 1.1))  # plate yields at t sqrt(f_y/(2 p gamma)) beyond the nut


def under(*load: float, duration: str = "short") -> Callable[[float], Trial]:
    """The shop's mount under so many times one design wrench."""
    return lambda k: trial(loads=alone(load, duration, times=k))


def bent(k: float, holes: tuple[float, float] = (0.7332, 0.75), twist: float = 1.0  , k_d: float = K,
         strong: tuple[float, float] = (2.358e-4, 2.760e-4)) -> float:  # fmt: skip
    """Basis 4.1 and 5: crossed strips, per veneer (s/f)^2 + (t/f_v)^2, holes out; figures of tests/checks/test_board.py."""
    Mx, My, Mxy = moments()
    across = hypot(strong[0] * Mx / holes[0], 1.2853e-3 * Mxy * twist)
    up = hypot(strong[1] * My / holes[1], 1.0283e-3 * Mxy * twist)
    return k * max(across, up) / k_d


def gross(k: float, gamma: float = 1.5, wet: float = 0.75, ways: tuple[int, ...] = (0, 1)) -> float:
    """APA D510, Table 9, 23/32 sanded Group 1: 775 and 455 lbf in/ft, C_D 1.25, C_M 0.75, service moments over t^2/6."""
    F = [6 * x * 0.37069 / 18.26**2 * 1.25 * wet for x in (775, 455)]
    return k * max(6 * moments()[i] / gamma / T**2 / F[i] for i in ways)


def slid_upper(k: float, load: tuple[float, ...] = AHEAD, c: tuple[float, float] = (C_1, C_2), t: float = T, f: float = 1.4 * K,
               edge: bool = True, shared: bool = True, **pull: float) -> float:  # fmt: skip
    """EN 1995-1-1 6.1.7 with k_cr 1: rolling shear on the perimeter at t/2 outside the plate; past the top edge nothing."""
    w = times(load, k)
    upright = 47.6 + 38.1 + CORNER if edge else 76.2 + 2 * CORNER
    beside = REACH + 27 + 2 * CORNER
    own = 2 * upright / c[0] + (beside if edge else 2 * beside) / c[1]
    both = upright / c[0] + (163.5 + 27 + CORNER) / c[1] if shared else 1e9
    mean = upper(w, couple=0.0, **{x: v for x, v in pull.items() if x != "couple"})
    return max(upper(w, **pull) / own, mean / both) / t / f


def slid_lower(
    k: float, load: tuple[float, ...] = ASTERN, c: tuple[float, float] = (C_1, C_2), f: float = 1.4 * K, **pull: float
) -> float:
    """The same at a lower bolt, whose perimeter is whole: 76.2 high, the plate's reach to both sides."""
    up, beside = 76.2 + 2 * CORNER, 2 * REACH + 2 * CORNER
    return lower(times(load, k), **pull) / ((2 * up / c[0] + 2 * beside / c[1]) * T) / f


def slid_pad(
    k: float, load: tuple[float, ...] = AHEAD, bolts: float = 2.0, c: tuple[float, float] = (C_1, C_2)
) -> float:
    """A pad pushes with half of N + 2 T on 70 x 132 (0.4 of 330) at 264 down; both together, open to the middle at 140."""
    w = times(load, k)
    C = -w[0] + bolts * upper(w, pry=1.0, couple=0.0)
    closed = 2 * (70 + 2 * CORNER) / c[1] + 2 * (132 + 2 * CORNER) / c[0]
    open_ = 2 * (140 + 35 + CORNER) / c[1] + (132 + 2 * CORNER) / c[0]
    return C / 2 / (min(closed, open_) * T) / (1.4 * K)


def block(k: float, three: float = 3.0, pads: float = 2.0, k_d: float = K, lever: float = T / 2) -> float:
    """Rectangular block at 3 f_c,90,d from the foot, both pads 70 wide; about the upper bolts y = L - sqrt(L^2 - 2 M'/(f b))."""
    f, L = three * 2.24 * k_d, 330 - 47.6
    M = k * (2.6e6 + 2000 * lever - 3000 * 47.6)
    left = L * L - 2 * M / (f * pads * 70)
    return (L - sqrt(left)) / 165 if left > 0 else 1e3


def crushed(
    k: float,
    row: str = "upper",
    load: tuple[float, ...] = AHEAD,
    f: float = P_D,
    hole: bool = True,
    stiff: float = REACH,
    **pull: float,
) -> float:
    """EN 1995-1-1 8.5.2(2): pull over 3 f_c,90,d on the net area, no more of the plate than does not bend."""
    T_ = (upper if row == "upper" else lower)(times(load, k), **pull)
    across = stiff + 27 if row == "upper" else 2 * stiff
    area = across * 76.2 - (pi / 4 * 13.5**2 if hole else 0.0)
    return T_ / (f * area)


def plate_bent(
    k: float,
    row: str = "upper",
    load: tuple[float, ...] = AHEAD,
    arm: float = 38.1 - 19.05 / 2,
    section: float = 4.0,
    gamma: float = 1.1,
    **pull: float,
) -> float:
    """AISC Design Guide 1, 3.1.4: even pressure on the net area, cantilever beyond the nut, t^2 f_y/(4 gamma)."""
    T_ = (upper if row == "upper" else lower)(times(load, k), **pull)
    return T_ / (76.2**2 - pi / 4 * 13.5**2) * arm**2 / 2 / (6.35**2 * 240 / (section * gamma))


def follows(k: float, board: bool = True, E_p: float = 69600.0) -> float:
    """A pair's plate is bent with the board it lies on as well: E_p t_p^3/(E_1 t^3) of the board's moment across."""
    area = (REACH + 27) * 76.2 - pi / 4 * 13.5**2
    alone_ = upper(times(AHEAD, k)) / area * (REACH - 19.05 / 2) ** 2 / 2
    with_it = k * moments()[0] * E_p * 6.35**3 / (5806.6 * T**3) if board else 0.0
    return (alone_ + with_it) / (6.35**2 * 240 / 4.4)


def singly(*load: float) -> Callable[[float], Trial]:
    """A plate of 76.2 square under each nut."""
    return lambda k: trial(mount=plate(6.35, 76.2, 76.2, "bolt"), loads=alone(load, times=k))


NO_PRY, NO_COUPLE = {"pry": 1.0}, {"couple": 0.0}
WRONG_SIDE, MIDDLE = {"lever": -T / 2}, {"lever": 0.0}

CARDS = (
    Card("board.bending.ec5", under(*AHEAD), bent, {
        "holes forgotten": {"holes": (1.0, 1.0)}, "twist forgotten": {"twist": 0.0}, "k_mod of a wave": {"k_d": 0.9 / 1.2},
        "gamma_M of an accident": {"k_d": 0.7}, "strengths of the other way": {"strong": (2.358e-4, 2.358e-4)},
    }),
    Card("board.bending.d510", under(*AHEAD), gross, {
        "dry strength": {"wet": 1.0}, "the strong way alone": {"ways": (0,)},
    }),
    Card("board.plies-sliding-upper-bolts.ec5", under(*AHEAD), slid_upper, {
        "prying forgotten": NO_PRY, "both as strong as along": {"c": (1.0, 1.0)}, "1.5 of a solid section forgotten": {"c": (C_1 / 1.5, C_2 / 1.5)},
        "wood above the edge counted": {"edge": False, "shared": False}, "panel shear for rolling": {"f": 3.5 * K}, "characteristic": {"f": 1.4},
        "pad pivot at the foot": {"pivot": 330.0}, "four bolts": {"two": 4.0}, "open to the middle forgotten": {"shared": False},
    }),
    Card("board.plies-sliding-upper-bolts.ec5", under(*LEANS), lambda k, **s: slid_upper(k, LEANS, **s), {
        "in-plane load ahead of the middle": WRONG_SIDE, "in-plane load at the middle": MIDDLE,
    }),
    Card("board.plies-sliding-upper-bolts.ec5", under(*TURNED), lambda k, **s: slid_upper(k, TURNED, **s), {
        "couple forgotten": NO_COUPLE, "side force's lever forgotten": MIDDLE, "side force's lever the other way": WRONG_SIDE,
        "rolling strength undivided": {"f": 1.4},
    }),
    Card("board.plies-sliding-lower-bolts.ec5", under(*ASTERN), slid_lower, {
        "moment's sign": {"sign": -1.0}, "prying forgotten": NO_PRY, "panel shear for rolling": {"f": 3.5 * K},
        "characteristic": {"f": 1.4}, "lay-up forgotten": {"c": (1.0, 1.0)},
    }),
    Card("board.plies-sliding-pads.ec5", under(*AHEAD), slid_pad, {
        "bolts' pull not pushed back": {"bolts": 0.0}, "one bolt a row": {"bolts": 1.0}, "lay-up forgotten": {"c": (1.0, 1.0)},
    }),
    Card("board.pad-bearing.ec5", under(*AHEAD), block, {
        "k_mod and gamma forgotten": {"k_d": 1.0}, "k_mod of a wave": {"k_d": 0.75}, "a pad too many": {"pads": 3.0},
    }),
    Card("backing.wood-crushing-upper-bolts.ec5", under(*AHEAD), crushed, {
        "prying forgotten": NO_PRY, "characteristic": {"f": 3 * 2.24}, "hole not taken out": {"hole": False},
        "the whole plate stiff": {"stiff": 163.5}, "pivot at the foot": {"pivot": 330.0},
    }),
    Card("backing.wood-crushing-upper-bolts.ec5", under(*TURNED), lambda k, **s: crushed(k, load=TURNED, **s), {
        "couple forgotten": NO_COUPLE, "lever of the side force the other way": WRONG_SIDE,
    }),
    Card("backing.wood-crushing-lower-bolts.ec5", under(*ASTERN), lambda k, **s: crushed(k, "lower", ASTERN, **s), {
        "moment's sign": {"sign": -1.0}, "prying forgotten": NO_PRY, "characteristic": {"f": 3 * 2.24}, "hole not taken out": {"hole": False},
    }),
    Card("backing.plate-bending-upper-bolts.dg1", under(*AHEAD), follows, {"the board's curvature forgotten": {"board": False}}, exact=0.02),
    Card("backing.plate-bending-upper-bolts.dg1", singly(*AHEAD), plate_bent, {
        "both faces of the plate bent": {"section": 2.0}, "gamma forgotten": {"gamma": 1.0}, "prying forgotten": NO_PRY,
        "from the edge of the nut's corners": {"arm": 38.1 - 19.05 * 1.155 / 2},
    }),
    Card("backing.plate-bending-lower-bolts.dg1", singly(*ASTERN), lambda k, **s: plate_bent(k, "lower", ASTERN, **s), {
        "moment's sign": {"sign": -1.0}, "gamma forgotten": {"gamma": 1.0}, "prying forgotten": NO_PRY,
    }),
)  # fmt: skip
