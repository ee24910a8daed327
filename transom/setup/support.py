"""The bolts of frame and pod as groups, from the facts; floats or arrays (n,) as columns."""

from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from transom.catalogue import Catalogue
from transom.job.records import Crossmembers, FrameBolts
from transom.maths import scalar
from transom.setup import groups, steps
from transom.setup.records import Bolting, FrameHold, LevelGroup, Place, PodHold
from transom.standards.lag_screws import root_area
from transom.units import Array, Value

LEAST = {"pod": 6.0, "uprights": 4.0, "cap rail": 8.0}
STAINLESS_SHEAR = 0.5  # alpha_v of stainless bolts, thread in the shear plane, EN 1993-1-4


def column(x: Value) -> Value:
    """A float as it is, an array (n,) as a column (n, 1)."""
    return x if np.ndim(x) == 0 else np.asarray(x).reshape(-1, 1)


def frame_hold(
    place: Place, tables: Catalogue, values: Mapping[str, Value], stated: FrameBolts | None = None
) -> FrameHold:
    """Bolts along the lines that hold the board, as many on each as its length asks."""
    bolts = of_kind(bolts_of(tables, values, "frame.bolts"), stated, tables)
    arm, least = column(values["frame.inset"]), LEAST[place.kind]
    edge = np.asarray(groups.edge_beyond(place.width, place.span))
    count = np.maximum(bolts.count, least)
    ends = {"pod": 1, "uprights": 0, "cap rail": 2}[place.kind]
    n_side = groups.bolts_on_side(count, place.height, place.span, float(ends))
    rest = groups.bolts_left(count, n_side)
    n_half, none = groups.half_of_bolts(rest), np.zeros_like(rest)
    n_bottom, n_top = {0: (none, none), 1: (rest, none), 2: (n_half, n_half)}[ends]
    top = groups.first_down(arm, place.height)
    first = _first_below_cuts(place, top)
    side_pitch = groups.pitch_on_side(place.height, first, n_side)
    end_pitch = groups.pitch_along_end(_between_cuts(place), np.maximum(n_bottom, n_top))
    n = groups.bolts_in_all(n_side, n_bottom, n_top)
    z_c = groups.middle_of_group(n_side, n_bottom, n_top, n, place.height, place.z_bottom, top)
    even = groups.even_row
    J = groups.polar_of_lines(
        n_side, n_bottom, n_top, place.span, place.height, place.z_bottom, top, z_c,
        I_side=even(n_side, side_pitch), I_bottom=even(n_bottom, end_pitch), I_top=even(n_top, end_pitch),
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
        top=top,
        side_pitch=side_pitch,
        end_pitch=end_pitch,
        n=n,
        z_c=z_c,
        J=J,
        far=groups.farthest_down(z_c, top if ends == 2 else first, place.height, place.z_bottom if ends else 0.0),
        least=least,
    )


def _first_below_cuts(place: Place, top: Value) -> Value:
    """Depth of a side's first bolt: as far below cut corners as it would lie below the edge, alike at both ends."""
    cuts = (place.top_cut, place.bottom_cut)
    high = max((cut[1] for cut in cuts if np.any(cut[0]) and np.any(cut[1])), default=0.0)
    return groups.first_below_cut(top, high, place.height) if np.any(high) else top


def _between_cuts(place: Place) -> Value:
    """Length of an end that bolts are spread over: between the side lines, or between cut corners that reach further in."""
    wide = max((cut[0] for cut in (place.top_cut, place.bottom_cut)), default=0.0)
    return groups.end_between_cuts(place.span, place.width, wide) if np.any(wide) else place.span


def bolts_of(tables: Catalogue, values: Mapping[str, Value], key: str) -> Bolting:
    """Bolts by nominal diameter; areas and nuts between two threads of the tables are interpolated."""
    d = column(values[f"{key}.diameter"])
    threads = sorted(tables.rows("threads"), key=lambda t: float(t.d_mm))
    sizes = np.array([t.d_mm for t in threads])
    areas = np.array([t.A_s_mm2 for t in threads])
    flats = np.array([tables.nut(t.name).AF_mm for t in threads])
    # A size that rounding puts a hair below its row still lies on it.
    low = np.clip(np.searchsorted(sizes, np.asarray(d) * (1 + 1e-6), "right") - 1, 0, len(sizes) - 2)
    share = steps.share_between(d, sizes[low], sizes[low + 1])
    small = steps.below_smallest(d, sizes[0])
    return Bolting(
        d=d,
        A_s=groups.area_between(areas[low], areas[low + 1], share, small),
        flats=groups.flats_between(flats[low], flats[low + 1], share, small),
        f_ub=column(values[f"{key}.f_ub"]),
        alpha_v=STAINLESS_SHEAR,
        washer=column(values[f"{key}.washer"]),
        washer_t=column(values[f"{key}.washer_t"]),
        hole=groups.hole_of(d, tables.factor("board.bolt_clearance_mm").value),
        count=column(values[f"{key}.count"]),
    )


def of_kind(b: Bolting, stated: FrameBolts | None, tables: Catalogue) -> Bolting:
    """The same as lag screws, which are thinner under their thread, or as blind rivets, which have a table of their own."""
    kind = stated.kind if stated is not None else "bolts"
    if kind == "lag screws":
        length = stated.length if stated is not None and stated.length is not None else 0.0
        return replace(b, kind=kind, A_s=root_area(b.d), length=length)
    if kind == "blind rivets":
        rows = sorted(tables.rows("rivets"), key=lambda r: float(r.d_mm))
        sizes = np.array([r.d_mm for r in rows])
        # The next smaller row; below the smallest none is listed and none is credited.
        i = np.searchsorted(sizes, np.asarray(b.d) + HALF_SIZE, "right") - 1
        listed = [np.where(i >= 0, np.array([getattr(r, f) for r in rows])[np.maximum(i, 0)], 0.0)
                  for f in ("shear_N", "tension_N")]  # fmt: skip
        # What is pressed is the rivet's own head, two diameters across.
        return replace(b, kind=kind, rivet_shear=listed[0], rivet_tension=listed[1], flats=2 * np.asarray(b.d),
                       f_ub=RIVET_ALLOY)  # fmt: skip
    return b


HALF_SIZE = 0.05  # mm; 3/16 in is 4.76, its row 4.8
RIVET_ALLOY = 200.0  # MPa; a soft body, for the share of bearing that the fastener allows


def pod_hold(
    place: Place, tables: Catalogue, values: Mapping[str, Value], stated: Crossmembers | None = None
) -> PodHold | None:
    """Bolts up into the crossmembers: where they were measured, else as many in each as go evenly, spare ones left out."""
    if "crossmembers.count" not in values:
        return None
    c = stated or Crossmembers()
    group = _single(c.holes, tables) if c.holes else _rows(place, values, c.at)
    down, lean = column(values["crossmembers.down"]), place.lean
    return PodHold(
        bolts=of_kind(bolts_of(tables, values, "crossmembers.bolts"), c.bolts, tables),
        wall=column(values["crossmembers.wall"]),
        f_u=column(values["crossmembers.f_u"]),
        x=groups.group_aft(group.forward, down, lean),
        z=groups.group_up(down, lean),
        group=group,
        mass=column(values["pod.mass"]),
    )


def _single(holes: tuple[tuple[float, float], ...], tables: Catalogue) -> LevelGroup:
    """The group of single bolts at (y, forward), about their own middle."""
    y, forward = np.array(holes, dtype=float).T
    x, across = forward.mean() - forward, y - y.mean()
    return LevelGroup(
        n=float(len(y)), forward=float(forward.mean()), y=float(y.mean()), I_x=float(x @ x), I_y=float(across @ across),
        I_xy=float(x @ across), off_x=x, off_y=across, at=np.stack([-forward, y], axis=-1),
        skew=tables.factor("crossmembers.skew").value,
    )  # fmt: skip


def _rows(place: Place, values: Mapping[str, Value], at: tuple[float, ...]) -> LevelGroup:
    """Even rows across each crossmember; the crossmembers where they were measured, else evenly apart."""
    rows = groups.whole_rows(column(values["crossmembers.count"]))
    each = groups.bolts_in_each(column(values["crossmembers.bolts.count"]), rows)
    across = groups.pitch_across(place.span, each)
    apart = column(values["crossmembers.spacing"])
    far_x = groups.half_row(rows, apart)
    forward: Value = groups.middle_of_rows(column(values["crossmembers.first"]), far_x)
    I_x, off_rows = groups.even_row(rows, apart), None
    if at:
        measured = np.array(at, dtype=float)
        forward, off = float(measured.mean()), measured - measured.mean()
        I_x, far_x, off_rows = np.asarray(off @ off), np.asarray(np.abs(off).max()), off
    corner_x, corner_y = np.broadcast_arrays(np.asarray(far_x, dtype=float), groups.half_row(each, across))
    return LevelGroup(
        n=groups.bolts_of_rows(rows, each), forward=forward, y=0.0, I_x=groups.as_many(each, I_x),
        I_y=groups.as_many(rows, groups.even_row(each, across)), I_xy=0.0,
        off_x=np.asarray(corner_x)[..., None], off_y=np.asarray(corner_y)[..., None],
        at=_places(rows, each, forward, apart, across, off_rows),
    )  # fmt: skip


def _places(rows: Value, each: Value, forward: Value, apart: Value, across: Value, off: Array | None) -> Array:
    """Every bolt of even rows, (b, 2); none where a number is varied."""
    if any(np.size(v) > 1 for v in (rows, each, forward, apart, across)):
        return np.zeros((0, 2))
    n, m, middle, pitch, wide = (scalar(v) for v in (rows, each, forward, apart, across))
    along = off if off is not None else np.asarray(groups.place_in_row(np.arange(round(n), dtype=float), n, pitch))
    y = np.asarray(groups.place_in_row(np.arange(round(m), dtype=float), m, wide))
    aft = np.negative(np.asarray(groups.middle_of_rows(middle, along)))
    return np.stack([np.repeat(aft, len(y)), np.tile(y, len(aft))], axis=-1)
