"""The bolts of frame and pod as groups, from the facts; floats or arrays (n,) as columns."""

from collections.abc import Mapping

import numpy as np

from transom.catalogue import Catalogue
from transom.job.records import Crossmembers
from transom.setup.records import Bolting, FrameHold, LevelGroup, Place, PodHold
from transom.units import Array, Value

LEAST = {"pod": 6.0, "uprights": 4.0, "cap rail": 8.0}
STAINLESS_SHEAR = 0.5  # alpha_v of stainless bolts, thread in the shear plane, EN 1993-1-4


def column(x: Value) -> Value:
    """A float as it is, an array (n,) as a column (n, 1)."""
    return x if np.ndim(x) == 0 else np.asarray(x).reshape(-1, 1)


def frame_hold(place: Place, tables: Catalogue, values: Mapping[str, Value]) -> FrameHold:
    """Bolts along the lines that hold the board, as many on each as its length asks."""
    bolts = bolts_of(tables, values, "frame.bolts")
    arm, least = column(values["frame.inset"]), LEAST[place.kind]
    edge = np.minimum(np.asarray(place.width - place.span) / 2, np.asarray(place.width) / 2)
    count = np.maximum(bolts.count, least)
    ends = {"pod": 1, "uprights": 0, "cap rail": 2}[place.kind]
    n_side = np.maximum(np.floor(count * place.height / (2 * place.height + ends * place.span) + 1e-9), 2.0)
    n_side = np.minimum(n_side, np.floor((count - 2 * ends) / 2))
    rest = count - 2 * n_side
    n_bottom = rest if ends == 1 else np.floor(rest / 2) if ends == 2 else 0.0 * rest
    n_top = np.floor(rest / 2) if ends == 2 else 0.0 * rest
    first = np.minimum(arm, np.asarray(place.height) / 4)
    side_pitch = (place.height - 2 * first) / (n_side - 1)
    end_pitch = place.span / (np.maximum(n_bottom, n_top) + 1)
    middle = np.asarray(place.height) / 2
    n = 2 * n_side + n_bottom + n_top
    z_c = (2 * n_side * middle + n_bottom * place.z_bottom + n_top * first) / n
    J = (
        n_side * place.span**2 / 2
        + 2 * (_even(n_side, side_pitch) + n_side * (middle - z_c) ** 2)
        + _even(n_bottom, end_pitch) + n_bottom * (place.z_bottom - z_c) ** 2
        + _even(n_top, end_pitch) + n_top * (first - z_c) ** 2
    )  # fmt: skip
    return FrameHold(
        bolts=bolts,
        flange=column(values["frame.flange.thickness"]),
        doubler=column(values["frame.bolts.doubler"]),
        f_u=column(values["frame.flange.f_u"]),
        f_y=column(values["frame.flange.f_y"]),
        f_y_doubler=min(p.Fy_MPa for p in tables.rows("plates") if p.kind == "aluminium"),
        arm=arm,
        edge=edge,
        span=place.span,
        n_side=n_side,
        n_bottom=n_bottom,
        n_top=n_top,
        first=first,
        side_pitch=side_pitch,
        end_pitch=end_pitch,
        n=n,
        z_c=z_c,
        J=J,
        far=np.maximum(z_c - first, np.maximum(place.height - first, place.z_bottom if ends else 0.0) - z_c),
        least=least,
    )


def _even(n: Value, pitch: Value) -> Array:
    """Sum of squared distances of n bolts a pitch apart from their middle."""
    return np.asarray(n * (n**2 - 1) * pitch**2 / 12)


def bolts_of(tables: Catalogue, values: Mapping[str, Value], key: str) -> Bolting:
    """Bolts by nominal diameter; areas and nuts between two threads of the tables are interpolated."""
    d = column(values[f"{key}.diameter"])
    threads = sorted(tables.rows("threads"), key=lambda t: float(t.d_mm))
    sizes = np.array([t.d_mm for t in threads])
    areas = np.array([t.A_s_mm2 for t in threads])
    flats = np.array([tables.nut(t.name).AF_mm for t in threads])
    # Below the smallest thread the stress area falls with the square of the diameter.
    small = np.minimum(np.asarray(d) / sizes[0], 1.0)
    return Bolting(
        d=d,
        A_s=np.interp(d, sizes, areas) * small**2,
        flats=np.interp(d, sizes, flats) * small,
        f_ub=column(values[f"{key}.f_ub"]),
        alpha_v=STAINLESS_SHEAR,
        washer=column(values[f"{key}.washer"]),
        washer_t=column(values[f"{key}.washer_t"]),
        hole=d + tables.factor("board.bolt_clearance_mm").value,
        count=column(values[f"{key}.count"]),
    )


def pod_hold(
    place: Place, tables: Catalogue, values: Mapping[str, Value], stated: Crossmembers | None = None
) -> PodHold | None:
    """Bolts up into the crossmembers: where they were measured, else as many in each as go evenly, spare ones left out."""
    if "crossmembers.count" not in values:
        return None
    c = stated or Crossmembers()
    group = _single(c.holes) if c.holes else _rows(place, values, c.at)
    down, lean = column(values["crossmembers.down"]), np.asarray(place.lean)
    return PodHold(
        bolts=bolts_of(tables, values, "crossmembers.bolts"),
        wall=column(values["crossmembers.wall"]),
        f_u=column(values["crossmembers.f_u"]),
        x=-group.forward - down * np.sin(lean),
        z=-down * np.cos(lean),
        group=group,
        mass=column(values["pod.mass"]),
    )


def _single(holes: tuple[tuple[float, float], ...]) -> LevelGroup:
    """The group of single bolts at (y, forward), about their own middle."""
    y, forward = np.array(holes, dtype=float).T
    x, across = forward.mean() - forward, y - y.mean()
    return LevelGroup(
        n=float(len(y)), forward=float(forward.mean()), y=float(y.mean()), I_x=float(x @ x), I_y=float(across @ across),
        I_xy=float(x @ across), off_x=x, off_y=across,
    )  # fmt: skip


def _rows(place: Place, values: Mapping[str, Value], at: tuple[float, ...]) -> LevelGroup:
    """Even rows across each crossmember; the crossmembers where they were measured, else evenly apart."""
    rows = np.maximum(np.floor(column(values["crossmembers.count"]) + 1e-9), 1.0)
    each = np.maximum(np.floor(column(values["crossmembers.bolts.count"]) / rows + 1e-9), 1.0)
    across = np.asarray(place.span) / np.maximum(each - 1, 1.0)
    apart = column(values["crossmembers.spacing"])
    forward: Value = column(values["crossmembers.first"]) + (rows - 1) * apart / 2
    I_x, far_x = _even(rows, apart), (rows - 1) * apart / 2
    if at:
        measured = np.array(at, dtype=float)
        forward, off = float(measured.mean()), measured - measured.mean()
        I_x, far_x = np.asarray(off @ off), np.asarray(np.abs(off).max())
    corner_x, corner_y = np.broadcast_arrays(np.asarray(far_x, dtype=float), (each - 1) * across / 2)
    return LevelGroup(
        n=rows * each, forward=forward, y=0.0, I_x=each * I_x, I_y=rows * _even(each, across), I_xy=0.0,
        off_x=np.asarray(corner_x)[..., None], off_y=np.asarray(corner_y)[..., None],
    )  # fmt: skip
