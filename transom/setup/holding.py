"""What the engine, or a setback bracket in its place, is held to the board by: its pattern, pads and bolts."""

from collections.abc import Mapping

import numpy as np

from transom.catalogue import Catalogue
from transom.job.records import Job
from transom.setup import steps
from transom.setup.records import Holding
from transom.statics.contact import Pattern
from transom.units import Array, Value

Values = Mapping[str, Value]


def column(x: Value) -> Value:
    """A float as it is, an array (n,) as a column (n, 1), to stand against rows of cases."""
    return x if np.ndim(x) == 0 else np.asarray(x).reshape(-1, 1)


def engine_holding(job: Job, tables: Catalogue, values: Values, height: str = "board.height") -> Holding:
    """The engine's own bracket on the board, or on the plate whose height is the fact of that key."""
    pattern = _clamps(tables, values, height) if job.engine.held_by == "clamps" else _bolted(job, values, height)
    y, z = _bolt_places(job, pattern)
    return Holding(
        pattern=pattern,
        pad_width=column(values["engine.bracket.pad_width"]),
        bolt_y=y,
        bolt_z=z,
        ear=column(values["engine.bracket.ear"]),
        thread=job.mount.engine_bolts.thread if job.mount and job.mount.engine_bolts else "",
        by=job.engine.held_by,
        pad_top=max((p.down for p in job.engine.bracket.pads), default=0.0),
        odd=bool(job.engine.bracket.bolts),
        screw_pad=column(values["engine.clamps.pad"]) if job.engine.held_by == "clamps" else 0.0,
    )


def _pad_height(values: Values, height: str) -> Value:
    """The pad ends where the board or plate does."""
    return column(np.minimum(values["engine.bracket.pad_height"], values[height])[()])


def _bolted(job: Job, values: Values, height: str) -> Pattern:
    h = _pad_height(values, height)
    upper, lower, apart, down = (
        column(values[f"engine.bracket.{k}"]) for k in ("upper_holes", "lower_holes", "rows_apart", "top_to_upper")
    )
    return Pattern(
        z_u=down,
        z_l=steps.lower_row(down, apart),
        y_u=steps.half(upper),
        y_l=steps.half(lower),
        h=h,
        y_pad=steps.half(column(values["engine.bracket.pads_apart"])),
        top_share=top_share(max((p.down for p in job.engine.bracket.pads), default=0.0), h),
    )


def top_share(top: Value, h: Value) -> Value:
    """Where pads that begin at depth `top` bear when the bracket is pulled backwards, as a share of h."""
    return steps.share_from_top(top, h)


def _clamps(tables: Catalogue, values: Values, height: str) -> Pattern:
    """Clamp screws push aft on the forward face where upper bolts would pull, whichever way the engine pulls.

    Backwards nothing else turns the bracket back but the top of its pads: the saddle over the edge only bears down and
    carries the weight, and what friction would add, some 8 %, is credited nowhere.
    """
    down, y, h = (
        column(values["engine.clamps.screw_down"]),
        column(values["engine.clamps.screw_y"]),
        _pad_height(values, height),
    )
    return Pattern(
        z_u=down,
        z_l=down,
        y_u=y,
        y_l=y,
        h=h,
        y_pad=steps.half(column(values["engine.bracket.pads_apart"])),
        top_share=steps.share_of_depth(float(tables.factor("clamps.hook_down_mm").value), h),
    )


def _bolt_places(job: Job, p: Pattern) -> tuple[Array, Array]:
    """Every bolt (b,), or (n, 1, b) where the pattern is varied; z up."""
    if job.engine.bracket.bolts:
        holes = job.engine.bracket.bolts
        return np.array([h.y for h in holes]), np.array([-h.down for h in holes])
    return four(p)


def four(p: Pattern) -> tuple[Array, Array]:
    """The four bolts of a pattern (4,), or (n, 1, 4) where it is varied; z up."""
    rows = (-p.y_u, p.y_u, -p.y_l, p.y_l), (-p.z_u, -p.z_u, -p.z_l, -p.z_l)
    y, z = (np.stack(np.broadcast_arrays(*(np.asarray(v, dtype=float) for v in r)), axis=-1) for r in rows)
    return y, z
