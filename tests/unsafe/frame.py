"""Cards of the board's own bolts into the frame: 12 of 3/8 in, grade unknown, flange 38.1 x 6.35 of 5052-H32.

Bolts on 571.9 mm across: three a side, 19.05, 225 and 430.95 down; six below, 81.7 apart. f_ub 500 (the lowest listed), A_s 50.0.
"""

from collections.abc import Callable
from dataclasses import replace
from math import hypot, pi, sqrt
from typing import Any

from tests.checks.shop import AHEAD, ASTERN, HARD_OVER, JOB, alone, trial
from tests.checks.test_frame import FLANGE, KEPT, job
from tests.checks.test_screws_and_rivets import SCREWS, screwed
from tests.unsafe.cards import Card
from tests.unsafe.hand import K_JOINT, K, T, lower, times, upper
from transom.checks.trial import Trial
from transom.job.records import Job

W, D = 571.9, 9.525
SHEARED = (0.0, -4000.0, -3000.0, 1.0e6, 2e5, 0.0)  # side force and twist add about the bolts' middle
SINKS = (0.0, 0.0, -6000.0, 0.0, 2e5, 0.0)
TURNED = (-2500.0, -2000.0, -2000.0, -1.2e6, 1.6e6, -1.5e6)
OWN = 1 + 0.03652 * 460 * 0.610 * 0.450 / (0.9 * 136.0)  # the board's weight goes with the engine's, taken light


def under(*load: float, of: Job | None = None) -> Callable[[float], Trial]:
    """The board on its flange under so many times one design wrench."""
    return lambda k: trial(of or job(), loads=alone(load, times=k))


def side(
    w: tuple[float, ...],
    share: float | None = None,
    couple: float = 1.0,
    lever: float = T / 2,
    part: float = 0.9,
    pry: float = 1.0,
) -> float:
    """Worst bolt of a side: 0.9 of the engine bolts' pull (basis 4.1) and the couple, shared as by a lever between two.

    Ahead the row 47.6 down lies 28.55 of 205.95 below its nearer bolt; astern the row 250.8 lies 25.8 below its own.
    """
    _, F_y, _, _, _, M_z = w
    one, other = upper(w, pry=pry, couple=0.0, lever=lever), lower(w, pry=pry, couple=0.0, lever=lever)
    found = (1 - 28.55 / 205.95 if one > other else 1 - 25.8 / 205.95) if share is None else share
    return (part * max(one, other) + couple * abs(M_z + F_y * lever) / W) * found


def below(w: tuple[float, ...], half: float = 0.5, r_of: float = 1.0) -> float:
    """Worst bolt of the bottom line astern: crossed strips of basis 4.1, pads at 66 and bolts 250.8 down, line at 430.95."""
    P2 = lower(w, pry=1.0, couple=0.0)
    P1 = (2 * P2 - w[0]) / 2
    I, b_v = T**3 / 12, 280.0  # noqa: E741
    b1 = (66 + 250.8) / 2
    b2 = 430.95 - b1

    def give(a: float, b: float) -> float:
        return a * a * (3 * W - 4 * a) / (6 * 5806.6 * I * b) + a / (5 / 6 * 120 * b * T)

    f1, f2 = give(W / 2 - 140, b1), give(W / 2 - 125.4, b2)
    d, L1, L2 = 184.8, 430.95 - 66, 430.95 - 250.8
    r = L1 / L2
    fv = d * d * L1 / (3 * 6210.0 * I * b_v) + (d + d * d / L2) / (5 / 6 * 120 * b_v * T)
    q1 = (P1 * f1 + r * P2 * f2) / (f1 + r * r * f2 + fv)
    # A pad 140 out lies 0.2136 of a pitch from its nearer bolt, which takes the rest of one half.
    return 2 * q1 * (r - 1) * r_of * (1 - 0.2136) * half


def pushed(
    w: tuple[float, ...],
    about: float = 327.975,
    turn: float = 1.0,
    own: float = OWN,
    down: float = 1.0,
    aside: float = 1.0,
) -> float:
    """Worst bolt in plane: vector method about the bolts' middle, components at their worst (convention), the board hanging too."""
    _, y, z, M_x, _, _ = w
    y, z = y * aside, z * own * down
    M = abs(M_x - about * y) * turn
    J = 6 * (W / 2) ** 2 + 2 * ((40.85**2) + 122.55**2 + 204.25**2)
    J += 2 * sum((d - 327.975) ** 2 for d in (19.05, 225.0, 430.95)) + 6 * (430.95 - 327.975) ** 2
    return hypot(abs(y) / 12 + M * (327.975 - 19.05) / J, abs(z) / 12 + M * W / 2 / J)


def metal(
    k: float, load: tuple[float, ...], how: str, A: float = 50.0, gamma: float = 1.25, alpha: float = 0.5, **more: Any
) -> float:
    """EN 1993-1-8 Table 3.4: 0.9 f_ub A_s/1.25 and 0.5 f_ub A_s/1.25."""
    w = times(load, k)
    t = lambda: side(w, **more) / (0.9 * 500 * A / gamma)  # noqa: E731
    v = lambda: pushed(w, **more) / (alpha * 500 * A / gamma)  # noqa: E731
    return {"pull": t, "shear": v, "both": lambda: v() + t() / 1.4, "square": lambda: hypot(v(), t() / 1.4),
            "pull in both": lambda: t() / 1.4}[how]()  # fmt: skip


def washer(f: float = 3 * 2.24 * K, hangs: bool = True, hole: float = 10.325) -> float:
    """8.5.2 under a plate washer of 50.8 as the circle in it, the part past the board's edge (19.05 away) off."""
    off = pi / 2 * 6.35 * sqrt(25.4**2 - 19.05**2)
    return f * (pi / 4 * (50.8**2 - hole**2) - (off if hangs else 0.0))


def crushed(
    k: float, load: tuple[float, ...] = HARD_OVER, f: float = 3 * 2.24 * K, hangs: bool = True, **more: Any
) -> float:
    """The pull over what the washer's wood bears."""
    return side(times(load, k), **more) / washer(f, hangs)


def wood(
    f_h: float = 0.11 * (1 - 0.09525) * 460,
    edge: float = 0.5,
    k_d: float = K_JOINT,
    thick: float = 2 * 6.35 / D - 1,
    d: float = D,
    t: float = T,
) -> float:
    """EN 1995-1-1 8.2.3, flange 6.35 between thin and thick; edge 19.05 of 4 d 38.1; three in a row 205.95 apart lose nothing."""
    M_y = 0.3 * 500 * d**2.6
    thin = min(0.4 * f_h * t * d, 1.15 * sqrt(2 * M_y * f_h * d))
    stiff = min(f_h * t * d * (sqrt(2 + 4 * M_y / (f_h * d * t * t)) - 1), 2.3 * sqrt(M_y * f_h * d), f_h * t * d)
    return (thin + thick * (stiff - thin)) * k_d * edge


def sidewards(k: float, load: tuple[float, ...] = SHEARED, way: dict[str, float] | None = None, **more: float) -> float:
    """In-plane force over the wood's."""
    return pushed(times(load, k), **(way or {})) / wood(**more)


def together(k: float, load: tuple[float, ...] = TURNED, how: str = "square") -> float:
    """8.3.3 in form."""
    a, v = crushed(k, load), sidewards(k, load)
    return {"square": hypot(a, v), "pull": a, "side": v, "worse": max(a, v)}[how]


def holes(
    k: float,
    load: tuple[float, ...] = SHEARED,
    alpha: float = 19.05 / (3 * 10.325),
    gamma: float = 1.25,
    t: float = 6.35,
    f: float = 215.0,
    **way: float,
) -> float:
    """EN 1999-1-1 Table 8.5: k_1 2.5, alpha_b e_1/3d_0, f_u 215 (5052-H32)."""
    return pushed(times(load, k), **way) / (2.5 * alpha * f * D * t / gamma)


def torn(k: float, load: tuple[float, ...] = SHEARED, omega: float = 1.95, e: float = 19.05, **way: float) -> float:
    """ADM J.3.7: d_e t F_tu to 2 D t F_tu over 1.95, service loads."""
    return pushed(times(load, k / 1.5), **way) / (min(e, 2 * D) * 6.35 * 215 / omega)


def through(
    k: float,
    load: tuple[float, ...] = HARD_OVER,
    d_m: float = 14.29 + 2 * 4.7625,
    gamma: float = 1.25,
    f: float = 215.0,
    **more: Any,
) -> float:
    """Table 8.5 (3.4): 0.6 pi d_m t f_u/1.25; a washer presses 45 degrees from the nut."""
    return side(times(load, k), **more) / (0.6 * pi * d_m * 6.35 * f / gamma)


def over(
    k: float,
    load: tuple[float, ...] = HARD_OVER,
    D_w: float = 14.29 + 2 * 4.7625,
    phi: float = 0.5,
    hole: float = 10.325,
) -> float:
    """ADM J.5.5.2: phi 0.5, 0.7 t F_tu (D_ws - D_h)."""
    return side(times(load, k)) / (phi * 0.7 * 6.35 * 215 * (D_w - hole))


def flange(
    k: float,
    pull: Callable[..., float],
    load: tuple[float, ...],
    length: float,
    section: float = 4.0,
    gamma: float = 1.1,
    f: float = 160.0,
    arm: float = 19.05,
    **more: Any,
) -> float:
    """EN 1993-1-8 Table 6.4, a row apart: l_eff 4 m + 1.25 e, never past the pitch; plastic section, EN 1999-1-1 6.2.5."""
    return pull(times(load, k), **more) * arm / length / (6.35**2 * f / (section * gamma))


ROUND_BOLT = 4 * 19.05 + 1.25 * 19.05
NO_COUPLE, EVEN = {"couple": 0.0}, {"share": 0.5}
TWISTS = {"twist forgotten": {"turn": 0.0}, "side force forgotten": {"aside": 0.0}}


def drawn(
    k: float,
    load: tuple[float, ...] = AHEAD,
    tip: float = 0.6,
    k_d: float = K_JOINT,
    d_full: float = 8.0,
    share: float = 1 - 28.55 / (411.9 / 3),
) -> float:
    """EN 1995-1-1 8.7.2: 0.52 d^-0.5 l^-0.1 rho^0.8, d/8 for thin screws; 2 in screws of 1/4 in, thread 36.52 - 0.6 d. Four a side."""
    thread = 36.52 - tip * 6.35
    R = 0.52 * 6.35**-0.5 * thread**-0.1 * 460**0.8 * 6.35 * thread * min(6.35 / d_full, 1) * k_d
    return side(times(load, k), share=share) / R


def drawn_nds(
    k: float,
    load: tuple[float, ...] = AHEAD,
    C_D: float = 1.25,
    wet: float = 0.7,
    tip: float = 0.6,
    gamma: float = 1.5,
    G: float = 0.46,
) -> float:
    """NDS 12.2.1: 1800 G^1.5 D^0.75 lb/in of thread, C_D 1.25, C_M 0.7; service pull."""
    thread = 36.52 - tip * 6.35
    W_ = 1800 * G**1.5 * 0.25**0.75 * 4.4482216 / 25.4
    return side(times(load, k), share=1 - 28.55 / (411.9 / 3)) / gamma / (W_ * thread * C_D * wet)


def threaded(k: float, tip: float = 0.6, metal_t: float = 7.95, times_d: float = 6.0) -> float:
    """Six diameters of thread in the wood (EN 1995-1-1 8.7.2), past flange 6.35 and washer 1.6, its tip not counted; screw 150 - k."""
    left = min(150.0 - k - metal_t, 36.52) - tip * 5.0
    return times_d * 5.0 / left if left > 0 else 1e3


def of_diameter(k: float) -> Trial:
    """Bolts of so many mm."""
    return trial(job(diameter=k))


def flange_width(k: float) -> Trial:
    """A flange 200 - k wide, bolts in its middle."""
    return trial(replace(JOB, frame=replace(FLANGE, flange_width=200.0 - k)))


def screw(k: float) -> Trial:
    """5 mm screws, 150 - k long."""
    return trial(screwed(diameter=5.0, length=150.0 - k))


assert SCREWS.diameter == 6.35

CARDS = (
    Card("frame.bolt-tension.ec3", under(*TURNED), lambda k, **s: metal(k, TURNED, "pull", **s), {
        "couple forgotten": NO_COUPLE, "even share": EVEN, "shank for thread": {"A": 71.3}, "gamma forgotten": {"gamma": 1.0}, "lever of the side force the other way": {"lever": -T / 2},
    }),
    Card("frame.bolt-shear.ec3", under(*SHEARED), lambda k, **s: metal(k, SHEARED, "shear", **s), {
        **TWISTS, "about the datum": {"about": 0.0}, "shank for thread": {"A": 71.3}, "0.6 for 0.5": {"alpha": 0.6}, "gamma forgotten": {"gamma": 1.0},
        "middle above the datum": {"about": -327.975},
    }),
    Card("frame.bolt-shear.ec3", under(*SINKS), lambda k, **s: metal(k, SINKS, "shear", **s), {"the board's own weight forgotten": {"own": 1.0}}),
    Card("frame.bolt-tension-and-shear.ec3", under(*TURNED), lambda k, how="both": metal(k, TURNED, how), {"squares for a sum": {"how": "square"}, "pull alone": {"how": "pull in both"}, "shear alone": {"how": "shear"}}),
    Card("frame.washer-on-wood.ec5", under(*HARD_OVER), crushed, {
        "couple forgotten": NO_COUPLE, "characteristic": {"f": 6.72}, "past the edge counted": {"hangs": False}, "even share": EVEN,
    }),
    Card("frame.sideways-in-wood.ec5", under(*SHEARED), sidewards, {
        "edge forgotten": {"edge": 1.0}, "gamma of plywood": {"k_d": K}, "thick plate": {"thick": 1.0}, "1 - 0.01 d forgotten": {"f_h": 0.11 * 460},
        "twist forgotten": {"way": {"turn": 0.0}}, "about the datum": {"way": {"about": 0.0}},
    }, exact=3e-3),
    Card("frame.pull-and-sideways-in-wood.ec5", under(*TURNED), together, {"pull alone": {"how": "pull"}, "sideways alone": {"how": "side"}, "the worse": {"how": "worse"}}, exact=3e-3),
    Card("frame.flange-bearing.ec9", under(*SHEARED), holes, {
        **TWISTS, "edge forgotten": {"alpha": 1.0}, "gamma forgotten": {"gamma": 1.0}, "e over 2 d": {"alpha": 19.05 / (2 * 10.325)},
    }),
    Card("frame.flange-bearing.adm", under(*SHEARED), torn, {**TWISTS, "factor forgotten": {"omega": 1.0}, "2 D whatever the edge": {"e": 38.1, "omega": 1.9}}),
    Card("frame.flange-pull-through.ec9", under(*HARD_OVER), through, {
        "whole washer stiff": {"d_m": 50.8}, "gamma forgotten": {"gamma": 1.0}, "couple forgotten": NO_COUPLE, "even share": EVEN,
    }),
    Card("frame.flange-pull-through.adm", under(*HARD_OVER), over, {"whole washer stiff": {"D_w": 50.8}, "phi forgotten": {"phi": 1.0}, "hole not taken out": {"hole": 0.0}}),
    Card("frame.flange-bending-side.ec9", under(*TURNED), lambda k, **s: flange(k, side, TURNED, **({"length": ROUND_BOLT} | s)), {
        "the whole pitch": {"length": 205.95}, "gamma forgotten": {"gamma": 1.0}, "strength for yield": {"f": 215.0}, "couple forgotten": NO_COUPLE, "even share": EVEN, "half the arm": {"arm": 19.05 / 2},
    }),
    Card("frame.flange-bending-end.ec9", under(*ASTERN), lambda k, **s: flange(k, below, ASTERN, **({"length": 81.7} | s)), {
        "past the pitch": {"length": ROUND_BOLT}, "gamma forgotten": {"gamma": 1.0}, "strength for yield": {"f": 215.0}, "six bolts alike": {"half": 1 / 6 / 0.7864},
    }),
    Card("frame.hole-to-board-edge", flange_width, lambda k, half=2.0: 1.5 * D / ((200.0 - k) / half), {"whole flange": {"half": 1.0}}, most=199.0),
    Card("frame.spacing", of_diameter, lambda k, times=3.0: times * k / 81.7, {"2.2 d": {"times": 2.2}}, most=60.0),
    Card("frame.count", lambda k: trial(job(count=round(k))), lambda k, lines=3.0: 2 * lines / k, {"two lines of a pod": {"lines": 2.0}}, at_k=5.0),
    Card("frame.withdrawal.ec5", under(*AHEAD, of=screwed()), drawn, {
        "gamma of plywood": {"k_d": K}, "thin screws in full": {"d_full": 6.0}, "tip counted": {"tip": 0.0}, "even share": {"share": 0.25},
    }, exact=3e-3),
    Card("frame.withdrawal.nds", under(*AHEAD, of=screwed("US")), drawn_nds, {
        "wet factor forgotten": {"wet": 1.0}, "C_D of a wave": {"C_D": 1.6}, "tip counted": {"tip": 0.0}, "mean gravity for low": {"G": 0.5},
    }, exact=3e-3),
    Card("frame.screw-thread", screw, threaded, {"tip counted": {"tip": 0.0}, "metal forgotten": {"metal_t": 0.0}, "NDS's four diameters": {"times_d": 4.0}}, most=140.0),
)  # fmt: skip
assert KEPT.count == 12
