"""A setback bracket from the facts: where it puts the engine, how it lies on the board, its plates and welds."""

from itertools import pairwise

import numpy as np

from transom.catalogue import Catalogue
from transom.job.records import Job
from transom.setup import setback_steps as own
from transom.setup import steps
from transom.setup.holding import Values, column, engine_holding, four, top_share
from transom.setup.records import Bolting, Holding
from transom.setup.setback_records import BracketHold, Gusset, Metal, Plate, PlateBracket, Sides, Weld
from transom.setup.support import bolts_of
from transom.statics.contact import Pattern
from transom.statics.plates import effective_overhang
from transom.statics.side_plates import counted_leg
from transom.units import Array, Value


def offset(v: Values) -> tuple[Value, Value]:
    """How far aft and up the engine hangs from where it would without a bracket, level axes, mm."""
    if "bracket.setback" not in v:
        return 0.0, 0.0
    return v["bracket.setback"], v["bracket.height"]


def holding(job: Job, tables: Catalogue, v: Values) -> Holding:
    """What is bolted to the board: the engine's own bracket, or the base plate of a setback bracket."""
    if "bracket.setback" not in v:
        return engine_holding(job, tables, v)
    c = {k.removeprefix("bracket.base."): column(x) for k, x in v.items() if k.startswith("bracket.base.")}
    foot = np.minimum(steps.lower_row(c["top"], c["height"]), column(v["board.height"]))[()]
    y_pad, width = _bears(tables, v, c)
    pattern = Pattern(
        z_u=c["top_to_upper"], z_l=steps.lower_row(c["top_to_upper"], c["rows_apart"]),
        y_u=steps.half(c["upper_holes"]), y_l=steps.half(c["lower_holes"]), h=foot, y_pad=y_pad, top_share=top_share(c["top"], foot),
    )  # fmt: skip
    y, z = four(pattern)
    return Holding(
        pattern=pattern,
        pad_width=width,
        bolt_y=y,
        bolt_z=z,
        ear=c["thickness"],
        thread=job.mount.engine_bolts.thread if job.mount and job.mount.engine_bolts else "",
        by="bolts",
        pad_top=c["top"],
    )


def _bears(tables: Catalogue, v: Values, c: Values) -> tuple[Value, Value]:
    """Middle across and width of what bears on either side, mm.

    Under a side plate the base plate bears as far as it is stiff on the hardest face there is, and no farther than its
    own edge or the center line. More than two side plates push as one on either side, at the mean of their distances
    from the center line: nearer to the middle, where they bend the board more than the outer two alone.
    """
    if "bracket.sides.apart" not in v:
        return steps.half(c["pads_apart"]), c["pad_width"]
    y = own.across(column(v["bracket.sides.apart"]), float(np.mean(np.abs(_shares(v["bracket.sides.count"])))))
    t_s = column(v["bracket.sides.thickness"])
    reach = effective_overhang(
        c["thickness"], column(v["bracket.metal.f_y_w"]), hardest_face(tables), tables.factor("gamma_M1.aluminium").value
    )  # fmt: skip
    return y, own.bearing_width(t_s, reach, c["width"], y)


def _shares(count: Value) -> Array:
    """Places of side plates evenly apart about the center line, shares of the distance between the outer two."""
    return np.linspace(-0.5, 0.5, max(int(np.ravel(np.asarray(count))[0]), 2))


def hardest_face(tables: Catalogue) -> float:
    """The most that any panel's face bears under a plate in any case, MPa: a plate spreads least on it."""
    f = max(p.f_c_90_k_MPa for p in tables.rows("panels"))
    k = steps.strength_factor(tables.factor("k_mod.instantaneous").value, tables.factor("gamma_M.accidental").value)
    return float(own.hardest_pressure(f, tables.factor("bearing.multiple").value, k))


def bracket_hold(job: Job, tables: Catalogue, v: Values) -> BracketHold | None:
    """The bracket between board and engine; None without one."""
    if "bracket.setback" not in v:
        return None
    s, h, lean = (column(v[k]) for k in ("bracket.setback", "bracket.height", "board.lean"))
    x, z = own.aft_of_board(s, h, lean), own.up_the_board(s, h, lean)
    judged = "bracket.sides.apart" in v
    engine = engine_holding(job, tables, v, "bracket.engine_plate.height" if judged else "engine.bracket.pad_height")
    return BracketHold(
        x=x,
        z=z,
        pattern=engine.pattern,
        pad_width=engine.pad_width,
        bolt_y=engine.bolt_y,
        bolt_z=engine.bolt_z,
        by=engine.by,
        plates=_plates(job, tables, v, engine, x, z) if judged else None,
    )


def _plates(job: Job, tables: Catalogue, v: Values, engine: Holding, x: Value, z: Value) -> PlateBracket:
    c = {k.removeprefix("bracket."): column(value) for k, value in v.items() if k.startswith("bracket.")}
    return PlateBracket(
        base=_base(c),
        sides=_sides(job, c, x, z),
        engine_plate=_engine_plate(c, engine, z),
        base_weld=Weld(_leg(c, "base", c["base.thickness"]), c["weld.base.sides"]),
        engine_weld=Weld(_leg(c, "engine", c["engine_plate.thickness"]), c["weld.engine.sides"]),
        metal=Metal(**{k: c[f"metal.{k}"] for k in ("f_u", "f_y", "E", "f_u_w", "f_y_w", "f_s_w")}),
        bolts=_bolts(tables, v, np.asarray(engine.bolt_y).shape[-1]),
    )


def _base(c: Values) -> Plate:
    """The nearest edge to a hole is the one measured, else that of the plate's outline."""
    upper, lower = steps.half(c["base.upper_holes"]), steps.half(c["base.lower_holes"])
    down = own.stretch(c["base.top"], c["base.top_to_upper"])
    below = own.stretch(own.stretch(own.height_of_depth(c["base.rows_apart"]), down), c["base.height"])
    drawn = own.edge_drawn(c["base.width"], upper, lower, down, below)
    z_top = own.height_of_depth(c["base.top"])
    return Plate(c["base.thickness"], c["base.width"], c["base.height"], z_top, c.get("base.edge", drawn))


def _engine_plate(c: Values, engine: Holding, z: Value) -> Plate:
    p, height = engine.pattern, c["engine_plate.height"]
    width = c.get("engine_plate.width", own.width_about(p.y_u, p.y_l, c["bolts.diameter"]))
    drawn = own.edge_drawn(width, p.y_u, p.y_l, p.z_u, own.stretch(p.z_l, height))
    return Plate(c["engine_plate.thickness"], width, height, z, c.get("engine_plate.edge", drawn))


def _sides(job: Job, c: Values, x: Value, z: Value) -> Sides:
    s = job.setback
    ties, cuts = (s.side_plates.ties, s.side_plates.steps) if s else ((), ())
    x_0, x_1 = c["base.thickness"], np.asarray(own.forward_face(x, c["engine_plate.thickness"]))
    # Plates that leave no room between them have no side plates: no number, so that nothing passes.
    x_1 = np.where(x_1 > x_0, x_1, np.nan)[()]
    y = own.across(np.asarray(c["sides.apart"])[..., None], _shares(c["sides.count"]))
    held = [np.asarray(x_0), *(np.asarray(t) for t in sorted(ties)), np.asarray(x_1)]
    span = np.max(np.broadcast_arrays(*(own.stretch(a, b) for a, b in pairwise(held))), axis=0)
    return Sides(
        count=c["sides.count"], t=c["sides.thickness"], y=np.asarray(y), x_0=x_0, x_1=x_1, d_0=c["sides.depth"],
        d_1=c["sides.engine_depth"], z_0=own.middle_of(0.0, c["sides.top"], c["sides.depth"]),
        z_1=own.middle_of(z, c["sides.engine_top"], c["sides.engine_depth"]),
        steps=tuple((cut.aft, cut.depth) for cut in cuts), ties=ties, gusset=_gusset(c), span=span[()],
    )  # fmt: skip


def _leg(c: Values, end: str, plate: Value) -> Value:
    return counted_leg(c[f"weld.{end}.leg"], c["sides.thickness"], plate)


def _gusset(c: Values) -> Gusset | None:
    if "gusset.thickness" not in c:
        return None
    return Gusset(
        c["gusset.thickness"],
        own.height_of_depth(c["gusset.down"]),
        counted_leg(c["gusset.leg"], c["gusset.thickness"], c["sides.thickness"]),
    )


def _bolts(tables: Catalogue, v: Values, count: int) -> Bolting:
    return bolts_of(tables, {**v, "bracket.bolts.count": float(count)}, "bracket.bolts")
