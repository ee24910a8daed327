"""Cards of a setback bracket of plates: `tests.checks.setbacks` in plain numbers, 5083-H116 with 5356, beside welds f_o 125, shear 72.2,
f_u 275 MPa. Side plates 10 mm, 240 apart, from 10 to 250 aft, 300 deep at the base (middle 170 down), 280 at the engine plate
(160 down). Clauses in the functions.
"""

from collections.abc import Callable
from dataclasses import replace
from math import hypot, pi, sqrt
from typing import Any

from tests.checks.setbacks import GUSSET, OVER, PLATES, STRAIGHT, job, steps
from tests.checks.setbacks import under as loaded
from tests.checks.shop import MOUNT, cases, setup_of
from tests.unsafe.cards import Card
from tests.unsafe.hand import PRY, T, sideways
from transom.checks.trial import Trial
from transom.job.records import Job
from transom.judge.evaluate import trial_of

F_W, F_S, F_U, F_O = 125.0, 72.2, 275.0, 215.0
D, HOLE = 12.7, 13.5
BACK = (3500.0, 0.0, -1500.0, 0.0, -2.4e6, 0.0)
PULLED = (-2500.0, -1500.0, -3000.0, -8e5, 4.2e6, -1.2e6)
HELD = (-3500.0, -3000.0, -3000.0, 2.2e6, 3.6e6, 1.0e6)
SWINGS = (-300.0, -300.0, -300.0, -5e4, 2e5, -3e6)
Wrench = tuple[float, ...]


def under(load: Wrench, of: Job | None = None) -> Callable[[float], Trial]:
    """The bracket, which weighs nothing, under so many times one design wrench about the board's datum."""
    return lambda k: loaded(tuple(k * c for c in load), of)


def many(load: Wrench, k: float) -> Wrench:
    """The load so many times."""
    return tuple(k * c for c in load)


def at(w: Wrench, x: float, z: float) -> Wrench:
    """The wrench about a point x aft and z up: M' = M - r x F."""
    F_x, F_y, F_z, M_x, M_y, M_z = w
    return (F_x, F_y, F_z, M_x + z * F_y, M_y - (z * F_x - x * F_z), M_z - x * F_y)


# --- the engine on its plate, 260 aft


def engine_pull(w: Wrench, row: str, reach: float = 260.0, couple: float = 1.0, sign: float = 1.0) -> float:
    """Pull of an upper or lower bolt: pads 0 to 330, pivots at 0.8 and 0.2 of it; no board pries."""
    F_x, _, _, _, M, M_z = at(w, reach, 0.0)
    if row == "upper":
        return max((M + 264 * F_x) / (2 * 216.4), 0.0) + couple * abs(M_z) / (4 * 163.5)
    return max((-sign * M - 66 * F_x) / (2 * 184.8), 0.0) + couple * abs(M_z) / (4 * 125.4)


def stub(m: float, e: float, rows: float, t: float = 10.0, f: float = F_W, gamma: float = 1.1) -> tuple[float, float]:
    """EN 1993-1-8 Table 6.4, one bolt, and its plastic moment beside a weld."""
    length = min(2 * pi * m, pi * m + 2 * e, 4 * m + 1.25 * e, 2 * m + 0.625 * e + e, rows)
    return length, length * t * t * f / (4 * gamma)


def pried(pull: float, m: float, e: float, rows: float) -> float:
    """AISC Manual part 9: from the bolt's near side; the plate yields at the side plate and, at most, at the bolt."""
    length, M_p = stub(m, e, rows)
    b = m - D / 2
    return pull + min(max(pull * b - M_p, 0.0), (1 - HOLE / length) * M_p) / (min(e, 1.25 * b) + D / 2)


def engine_bolt(
    k: float,
    load: Wrench = PULLED,
    how: str = "pull",
    pry: bool = True,
    A: float = 91.5,
    gamma: float = 1.25,
    **way: float,
) -> float:
    """EN 1993-1-8 Table 3.4, grade unknown: 500 MPa."""
    w = many(load, k)
    T_ = engine_pull(w, "upper", **way)
    t = (pried(T_, 38.5, 45, 203.2) if pry else T_) / (0.9 * 500 * A / gamma)
    v = sideways(w) / (0.5 * 500 * A / gamma)
    return {"pull": t, "shear": v, "both": v + t / 1.4, "square": hypot(v, t / 1.4), "t": t / 1.4}[how]


def engine_hole(
    k: float, load: Wrench = OVER, alpha: float = 1.0, k_1: float = 2.5, f: float = F_U, gamma: float = 1.25, **way: Any
) -> float:
    """EN 1999-1-1 Table 8.5: k_1 2.5, alpha 1 (e 45 is 1.11 x 3 d_0); the lower row lies beside a weld."""
    return sideways(many(load, k), **way) / (k_1 * alpha * f * D * 10 / gamma)


def engine_through(
    k: float, load: Wrench = PULLED, d_m: float = 19.05 + 6, f: float = F_U, pry: bool = True, **way: float
) -> float:
    """0.6 pi d_m t f_u/1.25, washers 35 x 3."""
    pull = engine_pull(many(load, k), "upper", **way)
    return (pried(pull, 38.5, 45, 203.2) if pry else pull) / (0.6 * pi * d_m * 10 * f / 1.25)


def engine_bent(k: float, row: str, load: Wrench, f: float = F_W, gamma: float = 1.1, **way: float) -> float:
    """EN 1993-1-8 Table 6.2 without prying: pull times the arm to the side plate's face over the plastic moment."""
    m = 38.5 if row == "upper" else 1.0
    return engine_pull(many(load, k), row, **way) * m / stub(m, 45, 203.2, f=f, gamma=gamma)[1]


def pad(
    k: float,
    load: Wrench = PULLED,
    bolts: float = 2.0,
    couple: float = 1.0,
    f: float = F_W,
    gamma: float = 1.1,
    reach: float = 260.0,
) -> float:
    """The foot pushes with half of N + 2 T and the couple over 2 x 140; 15 from the side plate's face, 0.4 x 330 + 15 long."""
    w = many(load, k)
    C = -w[0] + bolts * engine_pull(w, "upper", reach, 0.0)
    P = C / 2 + couple * abs(at(w, reach, 0)[5]) / (2 * 140)
    return P * 15 / (147 * 100 * f / (4 * gamma))


# --- side plates


def side(
    w: Wrench,
    x: float,
    mid: float,
    depth: float,
    face: bool = True,
    twist: bool = True,
    turn: bool = True,
    mine: float = 2.0,
) -> tuple[float, float, float]:
    """Edge, face and shear stress of the outer plate: moment evenly, twist as cantilevers, sideways as a frame 240 long."""
    F_x, F_y, F_z, M_x, M_y, _ = at(w, x, mid)
    M_z = at(w, 130.0, mid)[5] * (1 + 10 / 240)
    V_t = abs(M_x) / 240 if twist else 0.0
    N = abs(F_x) / 2 + (abs(M_z) / 240 if turn else 0.0)
    M = abs(M_y) / mine + V_t * max(250 - x, 120)
    edge = N / (10 * depth) + 6 * M / (10 * depth**2)
    bend = 6 * (abs(F_y) / 2 * abs(x - 130)) / (depth * 100) if face else 0.0
    return edge, bend, 1.5 * (abs(F_z) / 2 + V_t) / (10 * depth)


PLACES = {"base": (10.0, -170.0, 300.0), "25": (70.0, -167.5, 295.0), "50": (130.0, -165.0, 290.0), "75": (190.0, -162.5, 285.0), "engine": (250.0, -160.0, 280.0)}  # fmt: skip


def bent(
    k: float, load: Wrench, where: tuple[str, ...], f: float = F_W, gamma: float = 1.1, reach: bool = True, **way: Any
) -> float:
    """EN 1999-1-1 6.2.5, elastic: edge and face together at the corner, worst of the places."""
    w = many(load, k)
    found = []
    for name in where:
        x, z, d = PLACES[name]
        edge, face, _ = side(w, x if reach else 0.0, z, d, **way)
        found.append((edge + face) / (f / gamma))
    return max(found)


def cut(k: float, load: Wrench = STRAIGHT, left: float = 120.0, off: bool = True, f: float = F_O) -> float:
    """Cut to 120 deep 130 aft: the middle of what is left may lie (290 - 120)/2 higher or lower; the worst of both."""
    w = many(load, k)
    found = [sum(side(w, 130.0, -165.0 + way * (290 - left) / 2, left)[:2]) for way in ((1, 0, -1) if off else (0,))]
    return max(found) / (f / 1.1)


def sheared(k: float, load: Wrench = OVER, peak: float = 1.0, f: float = F_S, **way: Any) -> float:
    """EN 1999-1-1 6.2.6: 1.5 V/A, beside welds 72.2/1.1; between them 215/sqrt 3."""
    w = many(load, k)
    ends = max(side(w, *PLACES[n], **way)[2] for n in ("base", "engine")) / (f / 1.1)
    inside = max(side(w, *PLACES[n], **way)[2] for n in ("25", "50", "75")) / (215 / sqrt(3) / 1.1)
    return max(ends, inside) * peak


def buckled(
    k: float, load: Wrench = OVER, length: float = 240.0, alpha: float = 0.32, chi: float | None = None, **way: Any
) -> float:
    """EN 1999-1-1 6.3.1, class B (alpha 0.32): pressed edge as a strip 240 long, 10 thick, heat-affected all along."""
    lam = sqrt(12) * length / (10 * pi) * sqrt(F_W / 71700)
    phi = 0.5 * (1 + alpha * lam + lam**2)
    share = 1 / (phi + sqrt(phi**2 - lam**2)) if chi is None else chi
    return max(side(many(load, k), *p, **way)[0] for p in PLACES.values()) / (share * F_W / 1.1)


# --- welds


def line(
    w: Wrench, x: float, mid: float, L: float, faces: float = 2.0, twist: bool = True, frame: bool = True
) -> tuple[float, float]:
    """Two lines L long, 240 apart, as one group (Budynas and Nisbett, Table 9-1, 9-2): N/mm on a fillet; MPa beside it."""
    F_x, F_y, F_z, M_x, M_y, _ = at(w, x, mid)
    M_z = at(w, 130.0, mid)[5] * (1 + 10 / 240)
    I_y, I_z = 2 * L**3 / 12, 2 * L * 120**2
    M_t = abs(M_x) / 240 * max(250 - x, 120) if twist else 0.0
    m = abs(F_y) / 2 * 120 / L if frame else 0.0
    fillets, beside = [], []
    for z in (-L / 2, L / 2):
        for y in (-120, 120):
            f_x = abs(F_x / (2 * L) + M_y * z / I_y - M_z * y / I_z) + 6 * M_t / L**2
            f_y, f_z = F_y / (2 * L) - M_x * z / (I_y + I_z), F_z / (2 * L) + M_x * y / (I_y + I_z)
            fillets.append(sqrt((f_x / faces + m / 10) ** 2 + (f_y / faces) ** 2 + (f_z / faces) ** 2))
            beside.append(sqrt((f_x / 10 + 6 * m / 100) ** 2 + 3 * (f_y**2 + f_z**2) / 100))
    return max(fillets), max(beside)


ENDS = {"base": (10.0, -170.0, 300.0), "engine": (250.0, -160.0, 280.0)}


def weld(
    k: float,
    end: str,
    load: Wrench = OVER,
    throat: float = 1 / sqrt(2),
    f: float = F_S,
    gamma: float = 1.25,
    place: tuple[float, float, float] | None = None,
    **way: Any,
) -> float:
    """72.2/1.25 on the throat of a 6 mm leg."""
    return line(many(load, k), *(place or ENDS[end]), **way)[0] / (f / gamma * 6 * throat)


def beside(k: float, end: str, load: Wrench = OVER, f: float = F_W, **way: Any) -> float:
    """EN 1999-1-1 8.6.3.4 in form: von Mises beside the fillet, 125/1.1."""
    return line(many(load, k), *ENDS[end], **way)[1] / (f / 1.1)


def tired(
    k: float, FAT: float = 12.0, gamma: float = 1.35, wave: bool = True, turned: bool = True, slope: float = 3.0
) -> float:
    """IIW detail 414: throat ranges from full ahead to full astern 6 times, and of waves 60 times an hour; 100 h a season."""
    ahead, astern, sea = (many(c, k / 1.5) for c in FATIGUE)
    turn = tuple(a - b for a, b in zip(ahead, astern, strict=True)) if turned else ahead
    hours = []
    for end in ENDS.values():
        used = 0.0
        for n, r in ((6.0, turn), (60.0 if wave else 0.0, sea)):
            used += n / (2e6 * (FAT / gamma / (line(r, *end)[0] / (6 / sqrt(2)))) ** slope)
        hours.append(1 / used)
    return SEASON / min(hours)


SEASON = 100.0
FATIGUE = (
    (-300.0, 0.0, -250.0, 0.0, 3.0e5, 0.0),
    (200.0, 0.0, -120.0, 0.0, -1.4e5, 0.0),
    (-60.0, 0.0, -350.0, 0.0, 2.0e5, 0.0),
)


def seasons(k: float) -> Trial:
    """The three situations that count, so many times."""
    setup = setup_of(job())
    setup = replace(setup, loads=replace(setup.loads, bracket=None))
    named = {n: ("short", w) for n, w in zip(("ahead", "astern", "wave"), FATIGUE, strict=True)}
    return trial_of(setup, cases(named, times=k), [MOUNT])


# --- the base plate on the board


def base_pull(
    w: Wrench,
    row: str = "upper",
    pry: float = PRY,
    couple: float = 1.0,
    lever: float = T / 2,
    pivot: float = 288.0,
    sign: float = 1.0,
) -> float:
    """Base bolts 60 and 280 down, 320 across; base plate 0 to 360, so pivots at 288 and 72; the board pries."""
    F_x, F_y, F_z, _, M_y, M_z = w
    M, side_pull = M_y - F_z * lever, couple * abs(M_z + F_y * lever) / (4 * 160)
    if row == "upper":
        return max((M + pivot * F_x) / (2 * (288 - 60)), 0.0) * pry + side_pull
    return max((-sign * M - 72 * F_x) / (2 * (280 - 72)), 0.0) * pry + side_pull


def base_bent(k: float, row: str, load: Wrench, f: float = F_W, gamma: float = 1.1, **way: float) -> float:
    """Bolts 35 from the side plates' faces, edge 50."""
    return base_pull(many(load, k), row, **way) * 35 / stub(35, 50, 220, f=f, gamma=gamma)[1]


def base_bolt(
    k: float, load: Wrench = PULLED, plate: bool = True, A: float = 91.5, gamma: float = 1.25, **way: float
) -> float:
    """With the base plate's prying; F593C, 689 MPa."""
    pull = base_pull(many(load, k), **way)
    return (pried(pull, 35, 50, 220) if plate else pull) / (0.9 * 689 * A / gamma)


def base_through(
    k: float, load: Wrench = PULLED, d_m: float = 19.05, f: float = F_U, plate: bool = True, **way: float
) -> float:
    """The bolt's head alone: 0.6 pi 19.05 t f_u/1.25, 22.65 from the weld's toe."""
    pull = base_pull(many(load, k), **way)
    return (pried(pull, 35, 50, 220) if plate else pull) / (0.6 * pi * d_m * 10 * f / 1.25)


def base_hole(
    k: float, load: Wrench = OVER, f: float = F_U, gamma: float = 1.25, about: float = 170.0, turn: float = 1.0
) -> float:
    """Vector method about 170 down, J = 4 (160^2 + 110^2); k_1 2.5, alpha 1."""
    _, y, z, M_x, _, _ = many(load, k)
    M, J = (M_x - about * y) * turn, 4 * (160**2 + 110**2)
    V = max(hypot(y / 4 - M * dz / J, z / 4 + M * dy / J) for dy in (-160, 160) for dz in (-110, 110))
    return V / (2.5 * f * D * 10 / gamma)


# --- a gusset


def panel(k: float, load: Wrench = OVER, width: float = 230.0, f: float = F_S, buckles: bool = True) -> float:
    """All of Fy through 230 x 6: tau over the least of 5.34 pi^2 E/(12 (1 - nu^2)) (t/b)^2 (b 240) and 72.2, over 1.1."""
    cr = 5.34 * pi**2 * 71700 / (12 * (1 - 0.33**2)) * (6 / 240) ** 2
    return abs(load[1]) * k / width / 6 / ((min(cr, f) if buckles else f) / 1.1)


def gusset_weld(k: float, load: Wrench = OVER, leg: float = 4.0, gamma: float = 1.25, edges: float = 1.0) -> float:
    """One 4 mm fillet along each edge."""
    return abs(load[1]) * k / 230 / edges / (F_S / gamma * leg / sqrt(2))


def edge_of(plate: str) -> Callable[[float], Trial]:
    """An edge distance of 100 - k."""
    return lambda k: loaded(STRAIGHT, job(**{f"{plate}__edge": 100.0 - k}))


def edge(k: float, times: float = 1.5) -> float:
    """1.5 d from a hole's middle."""
    return times * D / (100.0 - k)


NO_COUPLE = {"couple": 0.0}
UNWELDED, NO_GAMMA = {"f": F_O}, {"gamma": 1.0}
TO_DATUM = {"about": 0.0}
QUARTERS = ("25", "50", "75")
WELDS = {
    "leg for throat": {"throat": 1.0},
    "gamma of the plate": {"gamma": 1.1},
    "strength of the plate": {"f": F_O / sqrt(3)},
    "twist's moments forgotten": {"twist": False},
    "frame's moment forgotten": {"frame": False},
}
with_gusset = job(gusset=GUSSET)

CARDS = (
    Card("bracket.engine-bolt-tension.ec3", under(PULLED), engine_bolt, {"prying forgotten": {"pry": False}, "couple forgotten": NO_COUPLE, "shank for thread": {"A": 126.7}, "gamma forgotten": NO_GAMMA}),
    Card("bracket.engine-bolt-tension.ec3", under(STRAIGHT), lambda k, **s: engine_bolt(k, STRAIGHT, **s), {"weight ahead of its place": {"reach": 520.0}}),
    Card("bracket.engine-bolt-shear.ec3", under(OVER), lambda k, **s: engine_bolt(k, OVER, "shear", **s), {"shank for thread": {"A": 126.7}, "gamma forgotten": NO_GAMMA}),
    Card("bracket.engine-bolt-tension-and-shear.ec3", under(PULLED), lambda k, how="both": engine_bolt(k, PULLED, how), {"squares for a sum": {"how": "square"}, "pull alone": {"how": "t"}, "shear alone": {"how": "shear"}}),
    Card("bracket.engine-plate-bearing.ec9", under(OVER), engine_hole, {"strength away from welds": {"f": 305.0}, "gamma forgotten": NO_GAMMA, "twist forgotten": {"turn": 0.0}, "e over 2 d": {"alpha": 1.5}}),
    Card("bracket.engine-plate-pull-through.ec9", under(PULLED), engine_through, {"whole washer stiff": {"d_m": 35.0}, "strength away from welds": {"f": 305.0}, "prying forgotten": {"pry": False}, "couple forgotten": NO_COUPLE}),
    Card("bracket.engine-plate-edge", edge_of("engine_plate"), edge, {"1.2 d": {"times": 1.2}}, most=99.0),
    Card("bracket.engine-plate-bending-upper-bolts.t-stub", under(PULLED), lambda k, **s: engine_bent(k, "upper", PULLED, **s), {"unwelded": UNWELDED, "gamma forgotten": NO_GAMMA, "couple forgotten": NO_COUPLE}),
    Card("bracket.engine-plate-bending-lower-bolts.t-stub", under(BACK), lambda k, **s: engine_bent(k, "lower", BACK, **s), {"moment's sign": {"sign": -1.0}, "unwelded": UNWELDED, "gamma forgotten": NO_GAMMA, "engine ahead of the board": {"reach": -260.0}}),
    Card("bracket.engine-plate-bending-pads.t-stub", under(PULLED), pad, {"bolts' pull not pushed back": {"bolts": 0.0}, "couple forgotten": NO_COUPLE, "unwelded": UNWELDED, "gamma forgotten": NO_GAMMA}),
    Card("bracket.side-plate-bending-base.ec9", under(OVER), lambda k, **s: bent(k, OVER, ("base",), **s), {
        "unwelded": UNWELDED, "twist forgotten": {"twist": False}, "frame forgotten": {"face": False}, "four plates for two": {"mine": 4.0},
    }),
    Card("bracket.side-plate-bending-base.ec9", under(SWINGS), lambda k, **s: bent(k, SWINGS, ("base",), **s), {"turn forgotten": {"turn": False}}),
    Card("bracket.side-plate-bending-between.ec9", under(OVER), lambda k, **s: bent(k, OVER, QUARTERS, **({"f": F_O} | s)), {"twist forgotten": {"twist": False}, "frame forgotten": {"face": False}, "gamma forgotten": NO_GAMMA}),
    Card("bracket.side-plate-bending-engine-plate.ec9", under(OVER), lambda k, **s: bent(k, OVER, ("engine",), **s), {"unwelded": UNWELDED, "twist forgotten": {"twist": False}, "frame forgotten": {"face": False}, "gamma forgotten": NO_GAMMA}),
    Card("bracket.side-plate-bending-step-1.ec9", under(STRAIGHT, job(side_plates=steps((130.0, 120.0)))), cut, {"as if its middle had stayed": {"off": False}, "strength for yield": {"f": 305.0}, "as if nothing were cut": {"left": 290.0}}),
    Card("bracket.side-plate-shear.ec9", under(OVER), sheared, {"mean for the middle": {"peak": 2 / 3}, "twist forgotten": {"twist": False}, "yield for shear": {"f": 125.0}}),
    Card("bracket.side-plate-edge-buckling.ec9", under(OVER), buckled, {"yield alone": {"chi": 1.0}, "half the length": {"length": 120.0}, "twist forgotten": {"twist": False}, "class A": {"alpha": 0.2}}),
    Card("bracket.weld-base.lines", under(OVER), lambda k, **s: weld(k, "base", **s), WELDS),
    Card("bracket.weld-engine-plate.lines", under(OVER), lambda k, **s: weld(k, "engine", **s), WELDS),
    Card("bracket.weld-base.lines", under(STRAIGHT), lambda k, **s: weld(k, "base", STRAIGHT, **s), {"longer than it is": {"place": (10.0, -170.0, 360.0)}}),
    Card("bracket.metal-beside-weld-base.ec9", under(OVER), lambda k, **s: beside(k, "base", **s), {"unwelded": UNWELDED, "twist forgotten": {"twist": False}, "frame forgotten": {"frame": False}}),
    Card("bracket.metal-beside-weld-engine-plate.ec9", under(OVER), lambda k, **s: beside(k, "engine", **s), {"unwelded": UNWELDED, "twist forgotten": {"twist": False}, "frame forgotten": {"frame": False}}),
    Card("bracket.base-plate-bending-upper-bolts.t-stub", under(PULLED), lambda k, **s: base_bent(k, "upper", PULLED, **s), {"prying forgotten": {"pry": 1.0}, "couple forgotten": NO_COUPLE, "unwelded": UNWELDED, "gamma forgotten": NO_GAMMA}),
    Card("bracket.base-plate-bending-lower-bolts.t-stub", under(BACK), lambda k, **s: base_bent(k, "lower", BACK, **s), {"moment's sign": {"sign": -1.0}, "prying forgotten": {"pry": 1.0}, "unwelded": UNWELDED}),
    Card("bracket.base-bolt-tension.ec3", under(PULLED), base_bolt, {"plate's prying forgotten": {"plate": False}, "board's prying forgotten": {"pry": 1.0}, "couple forgotten": NO_COUPLE, "shank for thread": {"A": 126.7}, "gamma forgotten": NO_GAMMA}),
    Card("bracket.base-plate-pull-through.ec9", under(PULLED), base_through, {"a washer nobody fitted": {"d_m": 25.0}, "strength away from welds": {"f": 305.0}, "plate's prying forgotten": {"plate": False}, "couple forgotten": NO_COUPLE}),
    Card("bracket.base-plate-bearing.ec9", under(HELD), lambda k, **s: base_hole(k, HELD, **s), {"strength away from welds": {"f": 305.0}, "gamma forgotten": NO_GAMMA, "about the datum": TO_DATUM, "twist forgotten": {"turn": 0.0}}),
    Card("bracket.base-plate-edge", edge_of("base"), edge, {"1.2 d": {"times": 1.2}}, most=99.0),
    Card("bracket.gusset-shear.ec9", under(OVER, with_gusset), panel, {"yield for shear": {"f": F_W, "buckles": False}}),
    Card("bracket.weld-gusset.lines", under(OVER, with_gusset), gusset_weld, {"leg for throat": {"leg": 4 * sqrt(2)}, "two fillets": {"edges": 2.0}, "gamma forgotten": NO_GAMMA}),
    Card("bracket.weld-fatigue.iiw", seasons, tired, {"detail of a butt weld": {"FAT": 28.0}, "gamma forgotten": NO_GAMMA, "waves forgotten": {"wave": False}, "no reverse": {"turned": False}}),
)  # fmt: skip
assert PLATES.mass == 15.0
