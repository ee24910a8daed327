"""Cards of the engine's bolts: metal, wood pushed sideways, both, and bolt-up."""

from collections.abc import Callable
from dataclasses import replace
from math import hypot, pi, sqrt

from tests.checks.shop import HARD_OVER, JOB, alone, trial, with_engine
from tests.checks.test_bolts import nds_value
from tests.unsafe.board import P_D, REACH, TURNED, under
from tests.unsafe.cards import Card
from tests.unsafe.hand import K_JOINT, T, sideways, times, upper
from transom.checks.trial import Trial

# EN 1993-1-8 Table 3.4, F593C 1/2-13: f_ub 689 MPa, tensile stress area 91.5 mm2.
PULLED = HARD_OVER
SHEARED = (0.0, -3000.0, -2500.0, -1.6e6, 2e5, 0.0)
GROSS = 126.7


def pulled(
    k: float, load: tuple[float, ...] = PULLED, A: float = 91.5, gamma: float = 1.25, share: float = 0.9, **pull: float
) -> float:
    """F_t,Ed over 0.9 f_ub A_s/gamma_M2."""
    return upper(times(load, k), **pull) / (share * 689 * A / gamma)


def cut(
    k: float,
    load: tuple[float, ...] = SHEARED,
    A: float = 91.5,
    alpha: float = 0.5,
    gamma: float = 1.25,
    **way: float | bool,
) -> float:
    """F_v,Ed over alpha_v f_ub A_s/gamma_M2; alpha_v 0.5 for stainless in the thread."""
    return sideways(times(load, k), **way) / (alpha * 689 * A / gamma)  # type: ignore[arg-type]


def both(k: float, load: tuple[float, ...] = HARD_OVER, how: str = "sum", **parts: float) -> float:
    """Table 3.4: F_v/F_v,Rd + F_t/(1.4 F_t,Rd)."""
    v, t = cut(k, load), pulled(k, load, **parts)
    return {"sum": v + t / 1.4, "square": hypot(v, t / 1.4), "pull": t / 1.4, "shear": v}[how]


def in_wood(k: float, load: tuple[float, ...] = SHEARED, k_d: float = K_JOINT, edge: float = 47.6 / 50.8, thick: float = 0.5748, t: float = T,
            f_h: float = 0.11 * (1 - 0.127) * 460, row: float = 0.9828, **way: float | bool) -> float:  # fmt: skip
    """EN 1995-1-1 8.2.3 (8.9, 8.10), one shear plane, steel plate 10 mm between thin and thick; loaded edge e/4d; 8.5.1.1(4)."""
    M_y, d = 0.3 * 689 * 12.7**2.6, 12.7
    thin = min(0.4 * f_h * t * d, 1.15 * sqrt(2 * M_y * f_h * d))
    stiff = min(f_h * t * d * (sqrt(2 + 4 * M_y / (f_h * d * t * t)) - 1), 2.3 * sqrt(M_y * f_h * d), f_h * t * d)
    return sideways(times(load, k), **way) / ((thin + thick * (stiff - thin)) * k_d * edge * row)  # type: ignore[arg-type]


def by_nds(
    k: float,
    load: tuple[float, ...] = SHEARED,
    wet: float = 0.7,
    C_D: float = 1.25,
    edge: float = 47.6 / 50.8,
    **way: float | bool,
) -> float:
    """NDS 12.3 with TR12 (tests/checks/test_bolts.py), service loads: the design ones over 1.5."""
    return sideways(times(load, k / 1.5), **way) / (nds_value() * C_D * wet * edge * 0.9828)  # type: ignore[arg-type]


def pulled_and_pushed(k: float, load: tuple[float, ...] = TURNED, how: str = "square", f: float = P_D) -> float:
    """EN 1995-1-1 8.3.3 in form: squares of the shares of bearing under the plate and of sideways, and the root of it."""
    axial = upper(times(load, k)) / (f * ((REACH + 27) * 76.2 - pi / 4 * 13.5**2))
    side = in_wood(k, load)
    return {"square": hypot(axial, side), "axial": axial, "side": side, "worse": max(axial, side)}[how]


def stretched(k: float, K_nut: float = 0.15, proof: float = 0.75 * 448, d: float = 12.7, A: float = 91.5) -> float:
    """Shigley 8-27, 8-31: T/(K d) over 0.75 of proof (448 MPa, the 0.2 % stress) on A_s; oiled K 0.15."""
    return k * 1000 / (K_nut * d) / (proof * A)


def faced(
    k: float, K_nut: float = 0.105, f: float = 6.72, reach: float = 19.05 / 2 + 6.35 * sqrt(240 / (2 * 6.72 * 1.1))
) -> float:
    """Clamp load at the lowest nut factor over dry 3 x 2.24 on the smaller patch, which the plate's bending bounds."""
    return k * 1000 / (K_nut * 12.7) / (f * ((reach + 27) * min(2 * reach, 76.2) - pi / 4 * 13.5**2))


def turned_to(k: float) -> Trial:
    """A torque of so many N m stated."""
    return trial(with_engine(torque=1000.0 * k, threads="oiled"))


def us(*load: float) -> Callable[[float], Trial]:
    """The job judged by NDS."""
    return lambda k: trial(replace(JOB, head=replace(JOB.head, code="US")), loads=alone(load, times=k))


# Swapped: the couple's arm across taken for its arm up, and the other way about.
SWAP, DATUM, NO_TURN, NO_SIDE = {"swapped": True}, {"about": 0.0}, {"turn": 0.0}, {"F_y": 0.0}
HELPED = (
    0.0,
    3000.0,
    -2500.0,
    -1.6e6,
    2e5,
    0.0,
)  # side force and twist add about the bolts' middle: from the datum they do not
SPUN = (0.0, 0.0, -5000.0, -8e5, 2e5, 0.0)  # weight and twist: the arms across add to it, those up do not

CARDS = (
    Card("engine-bolts.tension.ec3", under(*PULLED), pulled, {
        "couple forgotten": {"couple": 0.0}, "prying forgotten": {"pry": 1.0}, "shank for thread": {"A": GROSS}, "gamma forgotten": {"gamma": 1.0},
        "0.9 forgotten": {"share": 1.0}, "four bolts": {"two": 4.0},
    }),
    Card("engine-bolts.tension.ec3", under(*TURNED), lambda k, **s: pulled(k, TURNED, **s), {
        "lever of the side force the other way": {"lever": -T / 2}, "lever of the side force forgotten": {"lever": 0.0},
    }),
    Card("engine-bolts.shear.ec3", under(*SHEARED), cut, {
        "twist forgotten": NO_TURN, "side force forgotten": NO_SIDE, "shank for thread": {"A": GROSS}, "0.6 for 0.5": {"alpha": 0.6},
        "gamma forgotten": {"gamma": 1.0},
    }),
    Card("engine-bolts.shear.ec3", under(*HELPED), lambda k, **s: cut(k, HELPED, **s), {
        "about the datum": DATUM, "middle taken above the datum": {"about": -149.2},
    }),
    Card("engine-bolts.shear.ec3", under(*SPUN), lambda k, **s: cut(k, SPUN, **s), {"axes of the group swapped": SWAP}),
    Card("engine-bolts.tension-and-shear.ec3", under(*HARD_OVER), both, {
        "squares for a sum": {"how": "square"}, "pull alone": {"how": "pull"}, "shear alone": {"how": "shear"}, "couple forgotten": {"couple": 0.0},
    }),
    Card("engine-bolts.sideways-in-wood.ec5", under(*SHEARED), in_wood, {
        "gamma of plywood": {"k_d": 0.7 / 1.2}, "k_mod of a wave": {"k_d": 0.9 / 1.3}, "loaded edge forgotten": {"edge": 1.0}, "thick plate": {"thick": 1.0},
        "1 - 0.01 d forgotten": {"f_h": 0.11 * 460}, "twist forgotten": NO_TURN, "side force forgotten": NO_SIDE,
        "solid wood's 0.082": {"f_h": 0.11 * (1 - 0.127) * 460 * 1.2}, "row and edge forgotten": {"row": 1.0, "edge": 1.0},
    }),
    Card("engine-bolts.sideways-in-wood.ec5", under(*HELPED), lambda k, **s: in_wood(k, HELPED, **s), {"about the datum": DATUM}),
    Card("engine-bolts.sideways-in-wood.ec5", under(*SPUN), lambda k, **s: in_wood(k, SPUN, **s), {"axes of the group swapped": SWAP}),
    Card("engine-bolts.sideways-in-wood.nds", us(*SHEARED), by_nds, {
        "wet factor forgotten": {"wet": 1.0}, "C_D of a wave": {"C_D": 1.6}, "loaded edge forgotten": {"edge": 1.0}, "twist forgotten": NO_TURN,
    }),
    Card("engine-bolts.pull-and-sideways-in-wood.ec5", under(*TURNED), pulled_and_pushed, {
        "pull alone": {"how": "axial"}, "sideways alone": {"how": "side"}, "the worse of both": {"how": "worse"}, "characteristic bearing": {"f": 3 * 2.24},
    }),
    Card("engine-bolts.stretch-at-bolt-up", turned_to, stretched, {
        "dry steel's nut factor": {"K_nut": 0.20}, "all of proof": {"proof": 448.0}, "strength for proof": {"proof": 0.75 * 689}, "shank for thread": {"A": GROSS},
    }),
    Card("backing.wood-crushing-at-bolt-up", turned_to, faced, {
        "usual nut factor": {"K_nut": 0.15}, "reach on wet wood": {"reach": REACH}, "three times twice": {"f": 3 * 6.72},
    }),
)  # fmt: skip
