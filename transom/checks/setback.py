"""A setback bracket of plates, from the engine's bolts to the welds at its base: what no bolt of the board enters.

Walk: engine bolts in the engine plate, engine plate, welds, side plates, welds at the base. The base plate and its bolts are in
`setback_base`. A bracket of another kind is a closed box: nothing here, and a stop that only its maker's paper passes.
"""

from collections.abc import Sequence
from functools import partial

import numpy as np

from transom.checks.check import check
from transom.checks.joints import PUNCH, punching, wall_bearing
from transom.checks.setback_forces import (
    PlateLoads,
    Section,
    engine_loads,
    hole_strength,
    nearest,
    outer,
    place,
    sections,
    sideways,
)
from transom.checks.trial import Trial
from transom.frozen import dataclass
from transom.result import ONCE, CheckArray
from transom.setup.setback_records import BracketHold, Metal, Plate, PlateBracket, Weld
from transom.standards import ec9, tstub
from transom.standards import ec9_buckling as strut
from transom.standards.ec3 import (
    bolt_shear_resistance,
    bolt_tension_resistance,
    practice_edge,
    shear_tension_interaction,
)
from transom.statics import side_plates as sp
from transom.statics.welds import (
    WeldGroup,
    fillet_strength_per_length,
    throat,
    vector_sum,
    weld_forces,
    weld_group,
)
from transom.statics.wrench import about
from transom.units import Array, Value

SECTION = "elastic section, EN 1999-1-1:2007, 6.2.5; plates sharing as cantilevers and a frame"
SHEAR = "EN 1999-1-1:2007, 6.2.6, elastic"
LINES = "Budynas and Nisbett, Mechanical Engineering Design, 9th ed., Tables 9-1 and 9-2; lowest listed strength"
TOE = "EN 1999-1-1:2007, 8.6.3.4 in form, heat-affected metal, von Mises"
STUB = "EN 1993-1-8:2005, Table 6.2, mode 1-2; AISC Design Guide 1, 3.4"
BOLT = "EN 1993-1-8:2005, Table 3.4"
HOLE = "EN 1999-1-1:2007, Table 8.5"
EDGE = "1.5 d from hole to edge"
SHARED = "side plates share moment evenly, twist as cantilevers, sideways load as a frame"
NO_PRYING = "wood and packing are too soft to count on prying to help the plate; the bolts are given it"


bracket_check = partial(check, part="bracket", known_by="memory")


def checks(trial: Trial) -> tuple[CheckArray, ...]:
    """Everything from the engine's bolts to the welds at the base; nothing without a bracket of plates."""
    hold = trial.setup.bracket
    if hold is None or hold.plates is None:
        return ()
    loads = engine_loads(trial, hold)
    return (
        *(engine_bolts(trial, hold, hold.plates, loads) if hold.by == "bolts" else ()),
        *engine_plate(trial, hold, hold.plates, loads),
        *side_plates(trial, hold.plates),
        *welds(trial, hold.plates),
    )


def engine_bolts(trial: Trial, hold: BracketHold, b: PlateBracket, loads: PlateLoads) -> tuple[CheckArray, ...]:
    """The engine's bolts as a joint in metal: pull with prying, shear, both; the holes in the engine plate."""
    g, bolts = trial.setup.factors, b.bolts
    pull = np.maximum(*(_pried(trial, b, hold, T, y) for T, y in _rows(hold, loads)))
    F_t = bolt_tension_resistance(bolts.f_ub, bolts.A_s, g.gamma_M2)
    F_v = bolt_shear_resistance(bolts.f_ub, bolts.A_s, bolts.alpha_v, g.gamma_M2)
    both = shear_tension_interaction(loads.shear, F_v, pull, F_t)
    p = hold.pattern
    f_u = hole_strength(b, b.engine_weld, (p.y_u, p.y_l), bolts.d, trial.factor("setback.haz_mm"))
    bearing = wall_bearing(bolts, b.engine_plate.t, f_u, b.engine_plate.edge, _pitch(hold), g)
    return (
        bracket_check(trial, "engine-bolt-tension", "ec3", pull, F_t, BOLT, "N", known_by="transcribed",
              note="with the prying a stiff engine bracket may bring"),
        bracket_check(trial, "engine-bolt-shear", "ec3", loads.shear, F_v, BOLT, "N", known_by="transcribed"),
        bracket_check(trial, "engine-bolt-tension-and-shear", "ec3", both, 1.0, BOLT, "", known_by="transcribed"),
        bracket_check(trial, "engine-plate-bearing", "ec9", loads.shear, bearing, HOLE, "N"),
        bracket_check(trial, "engine-plate-pull-through", "ec9", pull, punching(bolts, b.engine_plate.t, f_u, g.gamma_M2),
              PUNCH, "N"),
        edge(trial, "engine-plate-edge", bolts.d, b.engine_plate),
    )  # fmt: skip


def edge(trial: Trial, what: str, d: Value, plate: Plate) -> CheckArray:
    """Metal from the middle of a hole to the plate's nearest edge."""
    return bracket_check(
        trial, what, "", practice_edge(d), plate.edge, EDGE, "mm", evidence="common practice", cases=(ONCE,)
    )


def _rows(hold: BracketHold, loads: PlateLoads) -> tuple[tuple[Array, Value], ...]:
    return ((loads.upper, hold.pattern.y_u), (loads.lower, hold.pattern.y_l))


def _pitch(hold: BracketHold) -> Value:
    """The smallest distance between two of the engine's bolts along a line."""
    p = hold.pattern
    return np.minimum(np.minimum(sp.pair(p.y_u), sp.pair(p.y_l)), sp.distance(p.z_l, p.z_u))


def stub(trial: Trial, b: PlateBracket, plate: Plate, y: Value, rows: Value) -> tuple[Array, Array, Array]:
    """Arm, working length and plastic moment of the plate one bolt at y pulls on, beside the nearest side plate's weld."""
    m = np.asarray(sp.clear_arm(nearest(y, b.sides), b.sides.t))
    length = np.asarray(tstub.bolt_length(m, np.maximum(plate.edge, 0.0), rows))
    M_p = np.asarray(tstub.plate_moment(length, plate.t, b.metal.f_y_w, trial.setup.factors.gamma_M1))
    return m, length, M_p


def pried(T: Value, m: Value, length: Value, M_p: Value, plate: Plate, d: Value, hole: Value) -> Array:
    """A bolt's pull with its prying."""
    arm = tstub.prying_arm(m, d)
    a = tstub.edge_arm(np.maximum(plate.edge, 0.0), arm, d)
    return np.asarray(tstub.pried(T, tstub.prying(T, arm, a, M_p, tstub.net_share(hole, length))))


def _pried(trial: Trial, b: PlateBracket, hold: BracketHold, T: Array, y: Value) -> Array:
    m, length, M_p = stub(trial, b, b.engine_plate, y, sp.distance(hold.pattern.z_l, hold.pattern.z_u))
    return pried(T, m, length, M_p, b.engine_plate, b.bolts.d, b.bolts.hole)


def engine_plate(trial: Trial, hold: BracketHold, b: PlateBracket, loads: PlateLoads) -> tuple[CheckArray, ...]:
    """The engine plate bent by the bolts that pull it off the side plates, and by the pads that push beside them."""
    p, plate = hold.pattern, b.engine_plate
    m = sp.pad_arm(nearest(p.y_pad, b.sides), b.sides.t)
    length = np.minimum(sp.pressed_length(p.h, m), plate.height)
    M_pad = tstub.plate_moment(length, plate.t, b.metal.f_y_w, trial.setup.factors.gamma_M1)
    pads = bracket_check(trial, "engine-plate-bending-pads", "t-stub", tstub.bolt_moment(loads.push, m), M_pad, STUB, "N*mm",
                 note="foot or head of the engine's bracket pushing beside a side plate")  # fmt: skip
    if hold.by != "bolts":
        return (pads,)
    apart = sp.distance(p.z_l, p.z_u)
    pulls = [(T, *stub(trial, b, plate, y, apart)) for T, y in _rows(hold, loads)]
    use = [np.asarray(tstub.bolt_moment(T, m)) for T, m, _, _ in pulls]
    rows = [
        bracket_check(trial, f"engine-plate-bending-{row}-bolts", "t-stub", M, M_p, STUB, "N*mm", note=NO_PRYING)
        for row, M, (_, _, _, M_p) in zip(("upper", "lower"), use, pulls, strict=True)
    ]
    return (*rows, pads)


def strength(m: Metal, welded: bool) -> Value:
    """Yield of the plates at a section."""
    return m.f_y_w if welded else m.f_y


def side_plates(trial: Trial, b: PlateBracket) -> tuple[CheckArray, ...]:
    """Bending and shear at both ends, between and at every cut; the edge pressed together between what holds it."""
    found = sections(trial, b)
    gamma = trial.setup.factors.gamma_M1
    out = []
    for name in dict.fromkeys(_where(s) for s in found):
        here = [s for s in found if _where(s) == name]
        demand, limit = worst_of([(sp.corner_stress(s.edge, s.face), _design(b, s, gamma)) for s in here])
        out.append(bracket_check(trial, f"side-plate-bending-{name}", "ec9", demand, limit, SECTION, "MPa", note=_note(name, b),
                         evidence="convention"))  # fmt: skip
    shear = [(s.shear, _shear_design(b, s, gamma)) for s in found]
    out.append(bracket_check(trial, "side-plate-shear", "ec9", *worst_of(shear), SHEAR, "MPa", note=SHARED))
    out.append(_buckling(trial, b, found, gamma))
    return tuple(out)


def _where(s: Section) -> str:
    return "between" if s.name.startswith("at ") else s.name.replace(" ", "-")


def _note(name: str, b: PlateBracket) -> str:
    if not name.startswith("step-"):
        return SHARED
    return f"{b.sides.steps[int(name.removeprefix('step-')) - 1][0]:.0f} mm aft: {SHARED}"


def _design(b: PlateBracket, s: Section, gamma: float) -> Value:
    return ec9.weld_strength(strength(b.metal, s.welded), gamma)


def _shear_design(b: PlateBracket, s: Section, gamma: float) -> Value:
    f_s = b.metal.f_s_w if s.welded else sp.shear_strength(b.metal.f_y)
    return ec9.weld_strength(f_s, gamma)


def worst_of(pairs: Sequence[tuple[Value, Value]]) -> tuple[Array, Array]:
    """Of several demands and limits, the pair that is nearest its limit, case by case; one that is no number first."""
    shape = np.broadcast_shapes(*(np.broadcast_shapes(np.shape(d), np.shape(r)) for d, r in pairs))
    demand, limit = (np.stack([np.broadcast_to(np.asarray(p[i], dtype=float), shape) for p in pairs]) for i in (0, 1))
    good = np.isfinite(demand) & np.isfinite(limit) & (limit > 0)
    u = np.where(good, sp.used(demand, np.where(good, limit, 1.0)), np.inf)
    i = np.argmax(u, axis=0)[None]
    return np.take_along_axis(demand, i, 0)[0], np.take_along_axis(limit, i, 0)[0]


def _buckling(trial: Trial, b: PlateBracket, found: tuple[Section, ...], gamma: float) -> CheckArray:
    """The pressed edge as a strip pinned between base, ties and engine plate; what lies beside it holds it no better."""
    lam = strut.strip_slenderness(b.sides.span, b.sides.t, b.metal.f_y_w, b.metal.E)
    limit = strut.strut_strength(strut.reduction(strut.curve_term(lam), lam), b.metal.f_y_w, gamma)
    stress = np.max(np.broadcast_arrays(*(s.edge for s in found)), axis=0)
    return bracket_check(trial, "side-plate-edge-buckling", "ec9", stress, limit, strut.CURVE, "MPa",
                 note="pressed edge as a strip of its own, heat-affected strength all along (conservative)")  # fmt: skip


def welds(trial: Trial, b: PlateBracket) -> tuple[CheckArray, ...]:
    """Fillets at both ends as lines, and the side plate beside them."""
    return (
        *_weld(trial, b, "base", b.base_weld, 0.0, trial.cases.design),
        *_weld(trial, b, "engine-plate", b.engine_weld, 1.0, trial.engine_only.design),
        *gusset(trial, b),
    )


def _weld(trial: Trial, b: PlateBracket, end: str, w: Weld, share: float, wrench: Array) -> tuple[CheckArray, ...]:
    line = lines(b, w, share, wrench)
    gamma = trial.factor("gamma_M2.aluminium")
    limit = fillet_strength_per_length(ec9.weld_strength(b.metal.f_s_w, gamma), w.leg)
    toe = ec9.weld_strength(b.metal.f_y_w, trial.setup.factors.gamma_M1)
    return (
        bracket_check(trial, f"weld-{end}", "lines", line.fillet, limit, LINES, "N/mm", known_by="read",
              note="vector sum on the throat; smallest leg all along, ends not returned"),
        bracket_check(trial, f"metal-beside-weld-{end}", "ec9", line.plate, toe, TOE, "MPa", note=SHARED),
    )  # fmt: skip


def gusset(trial: Trial, b: PlateBracket) -> tuple[CheckArray, ...]:
    """The level plate as a panel in shear, and its fillets, one on each of its four edges."""
    g, s = b.sides.gusset, b.sides
    if g is None:
        return ()
    q = sp.panel_shear(np.moveaxis(trial.cases.design, -1, 0)[1], sp.clear_between(sp.pair(outer(s)), s.t))
    M1, M2 = trial.setup.factors.gamma_M1, trial.factor("gamma_M2.aluminium")
    tau = np.minimum(strut.panel_shear_strength(sp.pair(outer(s)), g.t, b.metal.E), b.metal.f_s_w)
    limit = fillet_strength_per_length(ec9.weld_strength(b.metal.f_s_w, M2), g.leg)
    return (
        bracket_check(trial, "gusset-shear", "ec9", sp.shear_of(q, g.t), ec9.weld_strength(tau, M1), strut.PANEL, "MPa",
              note="all sideways force through the gusset"),
        bracket_check(trial, "weld-gusset", "lines", q, limit, LINES, "N/mm", known_by="read",
              note="one fillet along each edge of the gusset"),
    )  # fmt: skip


@dataclass(frozen=True)
class Lines:
    """What the worst point of one end's fillets carries, N/mm, and the stress beside it, MPa, (n, v)."""

    fillet: Array
    plate: Array


def group(b: PlateBracket, share: float, middle: Value) -> WeldGroup:
    """One line along each side plate at one end, heights from their middle; both faces' fillets are one line."""
    _, d, z = place(b.sides, share)
    top, foot = (np.asarray(sp.edge_of(sp.offset(z, middle), d, sense))[..., None] for sense in (1.0, -1.0))
    return weld_group(b.sides.y, foot, b.sides.y, top)


def lines(b: PlateBracket, w: Weld, share: float, wrench: Array) -> Lines:
    """The group as lines under the wrench; the twist's and the frame's own moments of each plate added to it."""
    s = b.sides
    x, d, z = place(s, share)
    middle = sp.half_way(s.x_0, s.x_1)
    F_y, M_x, M_z = sideways(wrench, s, x, z)
    given = about(wrench, x, 0.0, z)
    rows = np.broadcast_shapes(given.shape[:-1], np.shape(F_y), np.shape(M_x), np.shape(M_z))
    here = np.broadcast_to(given, (*rows, given.shape[-1])).copy()
    if s.gusset is not None:
        here[..., 1], here[..., 3] = F_y, M_x
    here[..., 5] = M_z
    found = weld_forces(here, group(b, share, z))
    M_t = sp.twist_moment(M_x, outer(s), np.asarray(sp.spread(s.y)), sp.twist_arm(x, s.x_0, s.x_1))
    out = np.asarray(sp.plate_line(found.out, np.asarray(sp.line_of_moment(M_t, d))[..., None]))
    m = np.asarray(sp.moment_per_length(sp.sideways_moment(F_y, s.count, x, middle), d))[..., None]
    t, faces = _last(s.t), _last(np.where(np.asarray(w.sides) >= 2.0, 2.0, 1.0))
    one = np.where(faces >= 2.0, sp.pair_line(out, m, t), sp.single_line(out, m, t, _last(throat(w.leg))))
    total = vector_sum(one, sp.per_face(found.across, faces), sp.per_face(found.up, faces))
    beside = sp.beside_weld_stress(out, found.across, found.up, m, t)
    return Lines(np.max(total, axis=-1), np.max(beside, axis=-1))


def _last(x: Value) -> Array:
    return np.asarray(x, dtype=float)[..., None]
