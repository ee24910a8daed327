"""A setback bracket from the facts: where it puts the engine, how it lies on the board, its plates and welds."""

from itertools import pairwise

import numpy as np

from transom.catalogue import Catalogue
from transom.job.records import Job
from transom.setup.holding import Values, column, engine_holding, four, top_share
from transom.setup.records import Bolting, Holding
from transom.setup.setback_records import BracketHold, Metal, Plate, PlateBracket, Sides, Weld
from transom.setup.support import bolts_of
from transom.statics.contact import Pattern
from transom.statics.plates import effective_overhang
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
    foot = np.minimum(c["top"] + c["height"], column(v["board.height"]))[()]
    y_pad, width = _bears(tables, v, c)
    pattern = Pattern(
        z_u=c["top_to_upper"], z_l=c["top_to_upper"] + c["rows_apart"], y_u=c["upper_holes"] / 2,
        y_l=c["lower_holes"] / 2, h=foot, y_pad=y_pad, top_share=top_share(c["top"], foot),
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
    own edge or the center line. Of more than two side plates the outer two are taken.
    """
    if "bracket.sides.apart" not in v:
        return c["pads_apart"] / 2, c["pad_width"]
    y = column(v["bracket.sides.apart"]) / 2
    t_s = column(v["bracket.sides.thickness"])
    reach = t_s / 2 + effective_overhang(
        c["thickness"], column(v["bracket.metal.f_y_w"]), hardest_face(tables), tables.factor("gamma_M1.aluminium").value
    )  # fmt: skip
    return y, 2 * np.minimum(np.minimum(reach, c["width"] / 2 - y), y)[()]


def hardest_face(tables: Catalogue) -> float:
    """The most that any panel's face bears under a plate in any case, MPa: a plate spreads least on it."""
    f = max(p.f_c_90_k_MPa for p in tables.rows("panels"))
    k = tables.factor("k_mod.instantaneous").value / tables.factor("gamma_M.accidental").value
    return float(tables.factor("bearing.multiple").value * f * k)


def bracket_hold(job: Job, tables: Catalogue, v: Values) -> BracketHold | None:
    """The bracket between board and engine; None without one."""
    if "bracket.setback" not in v:
        return None
    s, h, lean = (np.asarray(column(v[k])) for k in ("bracket.setback", "bracket.height", "board.lean"))
    x, z = s * np.cos(lean) - h * np.sin(lean), s * np.sin(lean) + h * np.cos(lean)
    judged = "bracket.sides.apart" in v
    engine = engine_holding(job, tables, v, "bracket.engine_plate.height" if judged else "engine.bracket.pad_height")
    return BracketHold(
        x=x[()],
        z=z[()],
        pattern=engine.pattern,
        pad_width=engine.pad_width,
        bolt_y=engine.bolt_y,
        bolt_z=engine.bolt_z,
        by=engine.by,
        plates=_plates(job, tables, v, engine, x, z) if judged else None,
    )


def _plates(job: Job, tables: Catalogue, v: Values, engine: Holding, x: Array, z: Array) -> PlateBracket:
    c = {k.removeprefix("bracket."): column(value) for k, value in v.items() if k.startswith("bracket.")}
    return PlateBracket(
        base=_base(c),
        sides=_sides(job, c, x, z),
        engine_plate=_engine_plate(c, engine, z),
        base_weld=Weld(c["weld.base.leg"], c["weld.base.sides"]),
        engine_weld=Weld(c["weld.engine.leg"], c["weld.engine.sides"]),
        metal=Metal(**{k: c[f"metal.{k}"] for k in ("f_u", "f_y", "E", "f_u_w", "f_y_w", "f_s_w")}),
        bolts=_bolts(tables, v, np.asarray(engine.bolt_y).shape[-1]),
    )


def _base(c: Values) -> Plate:
    """The nearest edge to a hole is the one measured, else that of the plate's outline."""
    y, z_u = np.maximum(c["base.upper_holes"], c["base.lower_holes"]) / 2, c["base.top_to_upper"] - c["base.top"]
    below = c["base.height"] - z_u - c["base.rows_apart"]
    drawn = np.minimum(np.minimum(c["base.width"] / 2 - y, z_u), below)[()]
    return Plate(c["base.thickness"], c["base.width"], c["base.height"], -c["base.top"], c.get("base.edge", drawn))


def _engine_plate(c: Values, engine: Holding, z: Array) -> Plate:
    p, height = engine.pattern, c["engine_plate.height"]
    y = np.maximum(p.y_u, p.y_l)
    width = c.get("engine_plate.width", 2 * y + 4 * c["bolts.diameter"])
    drawn = np.minimum(np.minimum(width / 2 - y, p.z_u), height - p.z_l)[()]
    return Plate(c["engine_plate.thickness"], width, height, z[()], c.get("engine_plate.edge", drawn))


def _sides(job: Job, c: Values, x: Array, z: Array) -> Sides:
    s = job.setback
    ties, steps = (s.side_plates.ties, s.side_plates.steps) if s else ((), ())
    x_0 = c["base.thickness"]
    x_1 = (x - c["engine_plate.thickness"])[()]
    # Plates that leave no room between them have no side plates: no number, so that nothing passes.
    x_1 = np.where(x_1 > x_0, x_1, np.nan)[()]
    count = int(np.ravel(np.asarray(c["sides.count"]))[0])
    across = np.asarray(c["sides.apart"])[..., None] * np.linspace(-0.5, 0.5, max(count, 2))
    held = [np.asarray(x_0), *(np.asarray(t) for t in sorted(ties)), np.asarray(x_1)]
    gaps = [b - a for a, b in pairwise(held)]
    span = np.max(np.broadcast_arrays(*gaps), axis=0)
    return Sides(
        count=c["sides.count"], t=c["sides.thickness"], y=across, x_0=x_0, x_1=x_1, d_0=c["sides.depth"],
        d_1=c["sides.engine_depth"], z_0=-c["sides.top"] - c["sides.depth"] / 2,
        z_1=(z - c["sides.engine_top"] - c["sides.engine_depth"] / 2)[()],
        steps=tuple((step.aft, step.depth) for step in steps), ties=ties, span=span[()],
    )  # fmt: skip


def _bolts(tables: Catalogue, v: Values, count: int) -> Bolting:
    return bolts_of(tables, {**v, "bracket.bolts.count": float(count)}, "bracket.bolts")
