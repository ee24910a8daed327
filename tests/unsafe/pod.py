"""Cards of the pod's bolts up into the crossmembers: four of them 406.4 apart, two 3/8 in bolts each, 560 across, wall 3.175."""

from collections.abc import Callable
from dataclasses import replace
from math import hypot, pi
from typing import Any

from tests.checks.shop import alone, trial
from tests.checks.test_crossmembers import job
from tests.checks.test_screws_and_rivets import RIVETS
from tests.unsafe.cards import Card
from transom.checks.trial import Trial
from transom.job.records import Job

D, HOLE, FAR, HALF = 9.525, 10.325, 609.6, 280.0
I_X, I_Y = 2 * 2 * 406.4**2 * (1.5**2 + 0.5**2), 8 * 280.0**2
MIDDLE = 150.0 + 1.5 * 406.4  # forward of the board's aft face
BOARD, POD, LIGHT = 0.03652 * 460 * 0.610 * 0.450, 40.0, 0.9 * 136.0  # kg
LOAD = (-3000.0, -1000.0, -2000.0, -4e5, 2.6e6, 0.0)
SIDE = (-500.0, -3000.0, -500.0, 0.0, 1e5, 4e5)
ROLLS = (0.0, 0.0, -500.0, -3e6, -3.8e5, 0.0)  # over the middle of the group: it rolls alone
SINKS = (0.0, 0.0, -9000.0, 0.0, -5.4e6, 0.0)  # an engine drawn in over the pod: bolts share the weight


def under(*load: float, of: Job | None = None) -> Callable[[float], Trial]:
    """The pod under so many times one design wrench; the board does not lean."""
    return lambda k: trial(of or job(), loads=alone(load, times=k))


def riveted() -> Job:
    """The same pod on blind rivets of 3/16 in."""
    plain = job()
    return replace(plain, crossmembers=replace(plain.crossmembers, bolts=RIVETS))


def pull(
    w: tuple[float, ...],
    hang: float = 1 + (BOARD + POD) / LIGHT,
    arm: float = MIDDLE,
    corner: float = FAR,
    roll: float = HALF / I_Y,
    inertia: float = I_X,
    share: float = 1.0,
) -> float:
    """Corner bolt: weight with board and pod, and both moments about the group's middle, in proportion to distance."""
    _, _, F_z, M_x, M_y, _ = w
    return -F_z * hang / 8 * share + abs(M_y - arm * F_z) * corner / inertia + abs(M_x) * roll


def shear(w: tuple[float, ...], arm: float = MIDDLE, turn: float = 1.0, aside: float = 1.0) -> float:
    """Vector method about the middle, components at their worst."""
    F_x, F_y, _, _, _, M_z = w
    M = abs(M_z + arm * F_y) * turn
    J = I_X + I_Y
    return hypot(abs(F_x) / 8 + M * HALF / J, aside * abs(F_y) / 8 + M * FAR / J)


def metal(
    k: float, load: tuple[float, ...], how: str, A: float = 50.0, gamma: float = 1.25, alpha: float = 0.5, **more: float
) -> float:
    """EN 1993-1-8 Table 3.4, grade unknown: 500 MPa."""
    w = tuple(k * c for c in load)
    t = lambda: pull(w, **more) / (0.9 * 500 * A / gamma)  # noqa: E731
    v = lambda: shear(w, **more) / (alpha * 500 * A / gamma)  # noqa: E731
    return {
        "pull": t,
        "shear": v,
        "both": lambda: v() + t() / 1.4,
        "square": lambda: hypot(v(), t() / 1.4),
        "t": lambda: t() / 1.4,
    }[how]()


def rivet(
    k: float,
    load: tuple[float, ...],
    how: str,
    gamma: float = 1.25,
    least: tuple[float, float] = (1700.0, 1200.0),
    **more: float,
) -> float:
    """ISO 15977, 4.8 mm: pull 1700, shear 1200 N over 1.25."""
    w = tuple(k * c for c in load)
    t, v = pull(w, **more) / (least[0] / gamma), shear(w) / (least[1] / gamma)
    return {"pull": t, "shear": v, "both": v + t / 1.4, "t": t / 1.4, "square": hypot(v, t / 1.4)}[how]


def through(
    k: float, d_m: float = 14.29 + 2 * 4.7625, gamma: float = 1.25, t: float = 3.175, f: float = 215.0, **more: float
) -> float:
    """EN 1993-1-8 Table 3.4 in form: 0.6 pi d_m t f_u/1.25."""
    return pull(tuple(k * c for c in LOAD), **more) / (0.6 * pi * d_m * t * f / gamma)


def over(k: float, D_w: float = 14.29 + 2 * 4.7625, phi: float = 0.5, hole: float = HOLE, **more: float) -> float:
    """ADM J.5.5.2: 0.5 x 0.7 t F_tu (D_ws - D_h)."""
    return pull(tuple(k * c for c in LOAD), **more) / (phi * 0.7 * 3.175 * 215 * (D_w - hole))


def bears(
    k: float,
    alpha: float = 1.5 * D / (3 * HOLE),
    k_1: float = 2.8 * 1.5 * D / HOLE - 1.7,
    gamma: float = 1.25,
    **more: float,
) -> float:
    """EN 1999-1-1 Table 8.5: edge 1.5 d, pitch 3 d."""
    return shear(tuple(k * c for c in SIDE), **more) / (k_1 * alpha * 215 * D * 3.175 / gamma)


PULLS: dict[str, dict[str, Any]] = {
    "about the datum": {"arm": 0.0}, "middle aft of the board": {"arm": -MIDDLE}, "roll forgotten": {"roll": 0.0}, "corner half way out": {"corner": FAR / 3},
}  # fmt: skip

CARDS = (
    Card("crossmembers.bolt-tension.ec3", under(*LOAD), lambda k, **s: metal(k, LOAD, "pull", **s), PULLS | {"shank for thread": {"A": 71.3}, "gamma forgotten": {"gamma": 1.0}}),
    Card("crossmembers.bolt-tension.ec3", under(*SINKS), lambda k, **s: metal(k, SINKS, "pull", **s), {"the board's and pod's weight forgotten": {"hang": 1.0}, "weight's own pull forgotten": {"share": 0.0}}),
    Card("crossmembers.bolt-tension.ec3", under(*ROLLS), lambda k, **s: metal(k, ROLLS, "pull", **s), {"fore and aft for across": {"roll": FAR / I_X}}),
    Card("crossmembers.bolt-shear.ec3", under(*SIDE), lambda k, **s: metal(k, SIDE, "shear", **s), {
        "about the datum": {"arm": 0.0}, "turn forgotten": {"turn": 0.0}, "side force forgotten": {"aside": 0.0}, "gamma forgotten": {"gamma": 1.0}, "0.6 for 0.5": {"alpha": 0.6},
    }),
    Card("crossmembers.bolt-tension-and-shear.ec3", under(*LOAD), lambda k, how="both": metal(k, LOAD, how), {"squares for a sum": {"how": "square"}, "pull alone": {"how": "t"}, "shear alone": {"how": "shear"}}),
    Card("crossmembers.wall-pull-through.ec9", under(*LOAD), through, PULLS | {"whole washer stiff": {"d_m": 50.8}, "gamma forgotten": {"gamma": 1.0}}),
    Card("crossmembers.wall-pull-through.adm", under(*LOAD), over, PULLS | {"whole washer stiff": {"D_w": 50.8}, "phi forgotten": {"phi": 1.0}, "hole not taken out": {"hole": 0.0}}),
    Card("crossmembers.wall-bearing.ec9", under(*SIDE), bears, {"about the datum": {"arm": 0.0}, "edge forgotten": {"alpha": 1.0}, "k_1 at its most": {"k_1": 2.5}, "gamma forgotten": {"gamma": 1.0}}),
    Card("crossmembers.bolt-tension.iso15977", under(*SINKS, of=riveted()), lambda k, **s: rivet(k, SINKS, "pull", **s), {"gamma forgotten": {"gamma": 1.0}}),
    Card("crossmembers.bolt-shear.iso15977", under(*SIDE, of=riveted()), lambda k, **s: rivet(k, SIDE, "shear", **s), {"gamma forgotten": {"gamma": 1.0}, "pull for shear": {"least": (1700.0, 1700.0)}}),
    Card("crossmembers.bolt-tension-and-shear.iso15977", under(*LOAD, of=riveted()), lambda k, how="both", **s: rivet(k, LOAD, how, **s), {"squares for a sum": {"how": "square"}, "pull alone": {"how": "t"}, "shear alone": {"how": "shear"}}),
)  # fmt: skip
assert RIVETS.count == 8
