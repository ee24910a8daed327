"""What a setback bracket of plates carries: the wrench at a place along it, and each end plate's bolts."""

from functools import reduce

import numpy as np

from transom.checks.trial import Trial
from transom.frozen import dataclass
from transom.maths import scalar
from transom.setup.setback_records import BracketHold, PlateBracket, Sides, Weld
from transom.statics import side_plates as sp
from transom.statics.bolt_group import bolt_group
from transom.statics.contact import bolt_tension, bracket_contact, couple_tension
from transom.statics.wrench import about
from transom.units import Array, Value


@dataclass(frozen=True)
class Section:
    """A section of the outer side plate: stresses at its edge, on its face and in its middle, (n, v), MPa.

    `welded` says whether the metal there has its strength beside a weld.
    """

    name: str
    edge: Array
    face: Array
    shear: Array
    welded: bool


def parts(wrench: Array, x: Value, z: Value) -> tuple[Array, ...]:
    """Six components (..., v) of wrenches (..., v, 6) about the point x aft and z up."""
    return tuple(np.moveaxis(about(wrench, x, 0.0, z), -1, 0))


def outer(s: Sides) -> Array:
    """The outer plate's distance from the center line."""
    return np.asarray(s.y[..., -1])


def place(s: Sides, share: Value) -> tuple[Value, Value, Value]:
    """Place x, depth and height of the middle of the side plates a share of the way along."""
    return sp.part_way(s.x_0, s.x_1, share), sp.part_way(s.d_0, s.d_1, share), sp.part_way(s.z_0, s.z_1, share)


def sideways(wrench: Array, s: Sides, x: Value, z: Value) -> tuple[Array, Array, Array]:
    """Force that bends the side plates sideways, twist and turn they take as pairs, at a place x with its middle at z.

    As a frame: all of F_y, twist about their own middle, turn taken half way along. With a gusset F_y goes through that:
    none is left, the twist is about its height and the turn that at x.
    """
    _, F_y, _, M_x, _, M_z = parts(wrench, x, z)
    if s.gusset is None:
        M_z = parts(wrench, sp.half_way(s.x_0, s.x_1), z)[5]
    else:
        F_y, M_x = np.zeros_like(F_y), parts(wrench, x, s.gusset.z)[3]
    return F_y, M_x, np.asarray(sp.turn_at_face(M_z, s.t, outer(s)))


def section(
    wrench: Array, s: Sides, share: Value, name: str, welded: bool, depth: Value | None = None, way: float = 0.0
) -> Section:
    """One section under one set of wrenches; `depth` where it is cut away, its middle moved up (`way` 1) or down (-1)."""
    x, full, z = place(s, share)
    d = full if depth is None else np.minimum(np.asarray(full), depth)
    z = sp.cut_middle(z, full, d, way)
    F_x, _, F_z, _, M_y, _ = parts(wrench, x, z)
    F_y, M_x, M_z = sideways(wrench, s, x, z)
    y, Y, middle = outer(s), np.asarray(sp.spread(s.y)), sp.half_way(s.x_0, s.x_1)
    M = sp.upright_moment(M_y, s.count, sp.twist_moment(M_x, y, Y, sp.twist_arm(x, s.x_0, s.x_1)))
    return Section(
        name,
        edge=np.asarray(sp.edge_stress(sp.axial_share(F_x, s.count, M_z, y, Y), M, s.t, d)),
        face=np.asarray(sp.sideways_stress(sp.sideways_moment(F_y, s.count, x, middle), s.t, d)),
        shear=np.asarray(sp.middle_shear(sp.upright_share(F_z, s.count, M_x, y, Y), s.t, d)),
        welded=welded,
    )


def worse(one: Section, other: Section) -> Section:
    """The worse of two loads on one section."""
    edge, face, shear = (
        np.maximum(a, b) for a, b in ((one.edge, other.edge), (one.face, other.face), (one.shear, other.shear))
    )
    return Section(one.name, edge, face, shear, one.welded)


QUARTERS = (0.25, 0.5, 0.75)


def sections(trial: Trial, b: PlateBracket) -> tuple[Section, ...]:
    """The root at the base, every quarter and every cut between, and the end at the engine plate.

    Each under all that hangs on the bracket and under the engine alone, whichever is worse: how much of the bracket's
    own weight lies aft of a section is not known. Where a plate is cut away, from one edge or the other, its middle may
    lie as far off either way: the worst of both. A gusset is welded all along, so that no section is free of its heat.
    """
    s, near = b.sides, trial.factor("setback.haz_mm")
    wanted: list[tuple[str, float, bool, Value | None]] = [("base", 0.0, True, None)]
    wanted += [(f"at {q:.0%}", q, _near_end(s, q, near), None) for q in QUARTERS]
    wanted += [
        (f"step {i}", _share(s, aft), _near_end(s, _share(s, aft), near), d) for i, (aft, d) in enumerate(s.steps, 1)
    ]
    wanted += [("engine plate", 1.0, True, None)]
    both = (trial.cases.design, trial.engine_only.design)
    return tuple(
        reduce(
            worse, (section(w, s, share, name, haz or s.gusset is not None, d, way) for w in both for way in ways(d))
        )
        for name, share, haz, d in wanted
    )


def ways(depth: Value | None) -> tuple[float, ...]:
    """Which edge a plate may have been cut from, the lower or the upper; what was cut from both lies between."""
    return (0.0,) if depth is None else (1.0, -1.0)


def _share(s: Sides, aft: float) -> float:
    return float(np.clip(np.ravel(np.asarray(sp.share_along(aft, s.x_0, s.x_1)))[0], 0.0, 1.0))


def _near_end(s: Sides, share: float, near: float) -> bool:
    """True where a section lies beside a weld at either end, or beside a tie's."""
    x = scalar(sp.part_way(s.x_0, s.x_1, share))
    ends = [scalar(v) for v in (s.x_0, s.x_1)]
    return any(scalar(sp.distance(x, e)) <= near for e in (*ends, *s.ties))


@dataclass(frozen=True)
class PlateLoads:
    """What the engine puts on the engine plate, factored, (n, v), N: pull of the worse upper and lower bolt,
    in-plane force on one bolt, push of the worse pad."""

    upper: Array
    lower: Array
    shear: Array
    push: Array


def engine_loads(trial: Trial, hold: BracketHold, wrench: Array | None = None) -> PlateLoads:
    """The engine's own bracket on the engine plate: the contact of a bracket on a board, without the board's prying."""
    w = trial.engine_only.design if wrench is None else wrench
    F_x, F_y, F_z, M_x, M_y, M_z = parts(w, hold.x, hold.z)
    p = hold.pattern
    found = bracket_contact(np.asarray(sp.opposed(F_x)), M_y, p)
    upper, lower = (
        np.asarray(bolt_tension(T, 1.0, couple_tension(M_z, y))) for T, y in ((found.T_u, p.y_u), (found.T_l, p.y_l))
    )
    shear = bolt_group(F_y=F_y, F_z=F_z, M_x=M_x, y=hold.bolt_y, z=hold.bolt_z).largest
    return PlateLoads(upper, lower, np.asarray(shear), np.asarray(sp.pad_push(found.C, M_z, p.y_pad)))


def hole_strength(b: PlateBracket, weld: Weld, rows: tuple[Value, Value], d: Value, near: float) -> Array:
    """Strength of the metal about the holes of two rows: heat-affected where one lies near a side plate's weld, MPa."""
    clear = [sp.clear_of_weld(nearest(y, b.sides), b.sides.t, weld.leg, d) for y in rows]
    least = np.minimum(*(np.asarray(c) for c in clear))
    strength = np.where(least > near, b.metal.f_u, np.minimum(b.metal.f_u, b.metal.f_u_w))
    return np.where(np.isfinite(least), strength, np.nan)


def nearest(y: Value, s: Sides) -> Array:
    """Distance across from a bolt or pad to the nearest side plate."""
    here = np.asarray(y, dtype=float)[..., None]
    return np.asarray(np.min(np.minimum(sp.distance(here, s.y), sp.distance(sp.mirrored(here), s.y)), axis=-1))
