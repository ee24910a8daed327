"""The board: bending with twist, plies sliding round bolts and pads, the pads' own block."""

from collections.abc import Sequence
from dataclasses import replace
from functools import partial

import numpy as np
from numpy.typing import NDArray

from transom.checks.abreast import Abreast
from transom.checks.careful import Careful
from transom.checks.check import check, load_duration_factor
from transom.checks.instead import on_frame
from transom.checks.lifting import lifting, where_it_lifts
from transom.checks.moments import Moments
from transom.checks.openings import (
    Strip,
    bolt_holes,
    both_shares,
    by_strips,
    share_beside,
    shares,
    strips_about,
    strips_at_bolts,
)
from transom.checks.patch import (
    FAR,
    Around,
    Edges,
    half_of,
    lost_to_openings,
    perimeters_of,
    sliding_stress,
    worse_sliding,
)
from transom.checks.trial import Trial, design_value, found_strength
from transom.checks.wood_about import cut, free_below, free_outward
from transom.formula import formula
from transom.maths import maximum, minimum, positive, scalar, where
from transom.result import CheckArray
from transom.standards.d510 import allowable_stress, gross_bending_stress, gross_stress
from transom.statics.contact import foot_pivot, top_pivot
from transom.statics.pads import pad_block
from transom.units import MM, MPA, ONE, Array, N, Value

VENEERS = "EN 1995-1-1:2004, 2.4.1 and 5.2; (sigma/f_m)^2 + (tau/f_v)^2 in each veneer is a convention"
SLIDING = "EN 1995-1-1:2004, 6.1.7; the perimeter at t/2 is a convention"
D510_ROW = "23/32 in sanded"

_check = partial(check, part="board")


@formula(symbol="b", source="mean moment over the wood a hole shares", evidence="convention",
         known_by="derived", typical={"share": 4.0})  # fmt: skip
def strip_about_hole(backing: MM, d_h: MM, share: ONE = 4.0) -> MM:
    """Width over which the moment at a hole is taken: the backing's or four holes'."""
    return maximum(backing, share * d_h)


@formula(symbol="b", source="mean moment over the wood a hole shares", evidence="convention",
         known_by="derived")  # fmt: skip
def strip_to_edge(b: MM, z_u: MM, least: MM = 0.001) -> MM:
    """The same, ended at the nearer edge and as far on the other side; next to nothing where a bolt touches the edge."""
    return maximum(minimum(b, 2.0 * z_u), least)


@formula(symbol="1 - d_h/b", source="net section", evidence="published", known_by="derived",
         typical={"d_h": 25.0, "b": 100.0})  # fmt: skip
def net_share(d_h: MM, b: MM) -> ONE:
    """Share of the section left beside a hole."""
    return positive(1.0 - d_h / b)


@formula(symbol="b_p", source="the wood that a pad finds", evidence="published", known_by="derived")
def pad_on_wood(y: MM, b: MM, W: MM, notch: MM, least: MM = 0.01) -> MM:
    """Width of a pad b wide at y that lies between the board's side and half a notch; next to nothing off it."""
    return maximum(minimum(y + b / 2.0, W / 2.0) - maximum(y - b / 2.0, notch / 2.0), least)


@formula(symbol="M_net", source="net section", evidence="published", known_by="derived",
         typical={"least": 1e-6})  # fmt: skip
def moment_on_net_section(M: N, share: ONE, least: ONE = 1e-6) -> N:
    """Moment per width that the whole section would need to feel what the net one does."""
    return M / maximum(share, least)


@formula(symbol="a_p", source="contact about the hand method's pivot", evidence="convention",
         known_by="computed", typical={"share": 0.4})  # fmt: skip
def pad_contact_height(h: MM, share: ONE = 0.4) -> MM:
    """Height of the pad that pushes when its middle is at 0.8 (or 0.2) of the pad's height."""
    return share * h


@formula(symbol="f_b/F'_b", source="APA D510 (2012)", known_by="transcribed")
def ratio(f_b: MPA, F_b: MPA) -> ONE:
    """Stress over allowable stress."""
    return f_b / F_b


@formula(symbol="b_p", source="two pads", evidence="published", known_by="derived")
def both_pads(b: MM) -> MM:
    """Width of both pads together."""
    return 2.0 * b


@formula(symbol="l", source="two reaches", evidence="published", known_by="derived")
def across_bolt(one: MM, other: MM) -> MM:
    """Length of a patch from its reach on both sides of the bolt."""
    return one + other


@formula(symbol="u", source="the worse of what the board may be: corners cut or whole, plates loose or bonded",
         evidence="convention", known_by="derived")  # fmt: skip
def worse_of_boards(u: ONE, u_other: ONE) -> ONE:
    """Share of the limit as drawn, or of what the board may be instead."""
    return maximum(u, u_other)


@formula(symbol="l", source="a notch and two cut corners", evidence="published", known_by="derived")
def taken_of_level(notch: MM, corner: MM) -> MM:
    """Width that a notch and the corners beside it take of the board."""
    return notch + 2.0 * corner


def bending(trial: Trial) -> CheckArray:
    """Bending both ways with twist, per veneer: of the whole section, and of what the bolts' holes leave of it.

    Holes count whatever is used of the strength: a rule that leaves them out of a board little used makes a step, and
    EN 1995-1-1:2004, 5.2 knows none.
    """
    return _check(trial, "bending", "ec5", _bending(trial), trial.strength_share, VENEERS, "", method=trial.method,
                  note="share of each veneer's strength, bending and twist together, holes taken out")  # fmt: skip


def _bending(trial: Trial) -> Array:
    """Share of the strength, its edge free to lift between bolts; cut corners whole too, bonded plates loose and bonded, (n, v)."""
    u = _worse(trial)
    if not isinstance(trial, Careful):
        return u
    u = np.asarray(where_it_lifts(u, lifting(trial, _worse, u)))
    for other in trial.instead:
        u = np.asarray(worse_of_boards(u, _bending(on_frame(other, trial.setup.frame))))
    return u


def times_more_of(plate: Careful) -> dict[str, Array]:
    """How many times more each case bends the board, and its bolts and pads carry, where its edge may lift; by symbol, (v,)."""
    lifting(plate, _worse)
    return plate.kept


def _worse(trial: Trial) -> Array:
    """Bending of the whole section or of what holes leave, (n, v)."""
    return np.maximum(*_whole_and_net(trial))


def _whole_and_net(trial: Trial) -> tuple[Array, Array]:
    """Utilisation of the whole section and of what the bolts' holes and openings leave, (n, v)."""
    across, up = _left_of_strips(trial)
    whole = _utilisation(trial, trial.moments, across, up)
    strips = hole_strips(trial)
    at_bolts = trial.moments_at_bolts(*strips)
    hole_across, hole_up = _hole_shares(trial, strips)
    if trial.openings:
        across, up = _at_each(at_bolts, _beside_bolts(trial, strips))
    net = _utilisation(trial, at_bolts, both_shares(across, hole_across), both_shares(up, hole_up))
    if not trial.openings:
        return whole, net
    about = strips_about(trial, trial.openings)
    at_openings = trial.moments_at_openings(about)
    return whole, np.maximum(
        net, _utilisation(trial, at_openings, *_at_each(at_openings, _beside_openings(trial, about)))
    )


def _beside_bolts(trial: Trial, strips: tuple[Value, Value, Value]) -> tuple[Array, Array]:
    """Share that openings leave of the strips about each bolt's hole, across and up; clamp screws bore no holes."""
    openings = trial.openings or ()
    each = [shares(strips_at_bolts(trial, *strips, i), openings, _near(trial, i)) for i in range(len(trial.over_bore))]
    return _side_by_side(trial, each)


def _beside_openings(trial: Trial, about: Sequence[Strip]) -> tuple[Array, Array]:
    """The same of the strips about each opening, of all openings and the bolts' holes."""
    openings = trial.setup.job.board.openings
    each = [shares(about, (*openings, *bolt_holes(trial, i)), _near(trial, i)) for i in range(len(trial.over_bore))]
    return _side_by_side(trial, each)


def _side_by_side(trial: Trial, each: Sequence[tuple[Array, Array]]) -> tuple[Array, Array]:
    """Shares (k, 1) of each candidate as the moments at such places are laid out: (k, n, 1) where several stand abreast."""
    across, up = (np.stack(s, axis=1) if isinstance(trial, Abreast) else s[0] for s in zip(*each, strict=True))
    return across, up


def _near(trial: Trial, i: int) -> float:
    """Holes so near to a section count in it: half the least spacing of bolts, EN 1995-1-1:2004, 5.2."""
    return scalar(trial.over_bore[i])


def _at_each(moments: Moments, left: tuple[Array, Array]) -> tuple[Array, Array]:
    """Shares of k places as often as these come again in the moments, with other stiffnesses; one of no places."""
    if not len(left[0]):
        return np.ones((1, 1)), np.ones((1, 1))
    times = len(moments.Mx) // len(left[0])
    return np.concatenate([left[0]] * times), np.concatenate([left[1]] * times)


def _utilisation(trial: Trial, moments: Moments, across: Value, up: Value) -> Array:
    """Worst place of the board, (n, v), its sections reduced to shares across and up."""
    Mx, My = moment_on_net_section(moments.Mx, across), moment_on_net_section(moments.My, up)
    return _worst_veneer(trial, np.asarray(Mx), np.asarray(My), moments.Mxy)


def _worst_veneer(trial: Trial, Mx: Array, My: Array, Mxy: Array) -> Array:
    """Share of the worst veneer's strength at the worst of the places that moments per width are given for, (n, v)."""
    if isinstance(trial, Careful):
        return trial.worst_veneer(Mx, My, Mxy)
    return trial.stacks.veneer_utilisation(Mx, My, Mxy, trial.k)


def moments_beside_openings(trial: Trial) -> tuple[Array, Array]:
    """Moments across and up as the whole section would feel them beside openings and notch, (n, v)."""
    m, (across, up) = trial.moments, _left_of_strips(trial)
    return np.asarray(moment_on_net_section(m.Mx, across)), np.asarray(moment_on_net_section(m.My, up))


def _left_of_strips(trial: Trial) -> tuple[Value, Value]:
    """Share left beside openings, notch and cut corners for bending across and up: of the pencil's strips; the plate has
    them itself."""
    one, place = np.ones((1, 1)), trial.setup.place
    across, up = by_strips(trial) if trial.setup.job.board.openings and trial.openings is None else (one, one)
    if trial.openings is not None or not (trial.notched or cut(place.top_cut) or cut(place.bottom_cut)):
        return across, up
    s, taken = trial.strips, taken_of_level(place.notch_width, place.top_cut[0])
    beside_top = share_beside(maximum(place.notch_depth, place.top_cut[1]), s.b1)
    beside = minimum(beside_top, share_beside(place.bottom_cut[1], s.b2))
    level = share_beside(maximum(taken, taken_of_level(0.0, place.bottom_cut[0])), place.width)
    return both_shares(across, beside), both_shares(up, level)


def bending_without_holes(trial: Trial) -> Array:
    """Bending and twist of the whole section, (n, v): what the yardsticks are stated for."""
    m = trial.moments
    return _worst_veneer(trial, m.Mx, m.My, m.Mxy)


def hole_strips(trial: Trial) -> tuple[Value, Value, Value]:
    """Width of wood that shares the moment at a hole: up and down at an upper and a lower bolt, and sideways."""
    d_h, u, low = trial.over_bore, trial.upper_patch, trial.lower_patch
    upper = strip_to_edge(strip_about_hole(across_bolt(u.up, u.down), d_h), trial.upper_edge)
    p = trial.setup.holding.pattern
    lower = strip_to_edge(strip_about_hole(across_bolt(low.up, low.down), d_h), trial.below(p.y_l, p.z_l))
    wide = strip_about_hole(minimum(across_bolt(u.inner, u.outer), across_bolt(low.inner, low.outer)), d_h)
    beside = minimum(_room_beside(trial, p.y_u, p.z_u), _room_beside(trial, p.y_l, p.z_l))
    return upper, lower, strip_to_edge(wide, beside)


def _room_beside(trial: Trial, y: Value, z: Value) -> Value:
    """From a bolt to the board's side or a cut corner, or to the side of the notch where that comes down as far."""
    notch = where(np.asarray(z) < trial.setup.place.notch_depth, trial.free_inward(y), FAR)
    return minimum(trial.outward(y, z), notch)


def _hole_shares(trial: Trial, strips: tuple[Value, Value, Value]) -> tuple[Value, Value]:
    """Share of the section left for bending across and up the board, the worse row, (n, v)."""
    upper, lower, wide = (net_share(trial.over_bore, b) for b in strips)
    return minimum(upper, lower), wide


def _sliding(trial: Trial, what: str, V: tuple[Value, Value], p: Around) -> CheckArray:
    """`V` is the force of the worse of two and their mean."""
    s = trial.stacks
    tau = worse_sliding(sliding_stress(V[0], p.own, trial.t), sliding_stress(V[1], p.shared, trial.t))
    f_r = found_strength(s.f_r[:, None], trial.strength_share)
    note = "rolling shear on the perimeter, open at the top edge too, under a cap rail as well (conservative); also the plug and the glue line, epoxy is never credited beyond the wood"
    return _check(trial, what, "ec5", tau, design_value(f_r, trial.k), SLIDING, "MPa", method=trial.method,
                  evidence="convention", known_by="derived", note=note)  # fmt: skip


def sliding_at_bolts(trial: Trial) -> tuple[CheckArray, CheckArray]:
    """Plies sliding round an upper and a lower bolt."""
    return (
        _sliding(trial, "plies-sliding-upper-bolts", (trial.upper_tension, trial.upper_mean), trial.upper_patch.around),
        _sliding(trial, "plies-sliding-lower-bolts", (trial.lower_tension, trial.lower_mean), trial.lower_patch.around),
    )


def sliding_at_pads(trial: Trial) -> CheckArray:
    """Plies sliding round one pad: at the foot when the upper bolts pull, else at the top; where soft, usual and stiff
    wood do not agree on which, round the shorter perimeter."""
    pattern = trial.setup.holding.pattern
    foot, top = foot_pivot(pattern.h), top_pivot(pattern.h, pattern.top_share)
    low, high = _pushed(trial)
    p = _round_pad(trial, where(low, foot, top))
    if np.any(low & high):
        other = _round_pad(trial, where(high, top, foot))
        p = Around(minimum(p.own, other.own), minimum(p.shared, other.shared))
    return _sliding(trial, "plies-sliding-pads", (trial.pad_push, trial.pad_mean), p)


def _pushed(trial: Trial) -> tuple[NDArray[np.bool_], NDArray[np.bool_]]:
    """Whether the pads may push at their foot, and whether at their top, (n, v)."""
    if not isinstance(trial, Careful):
        alone = np.asarray(trial.pushes_low, dtype=bool)
        return alone, ~alone
    answer = trial.answer
    lower = answer.seat.middles[1] < -scalar(half_of(trial.setup.holding.pattern.h))
    low = np.array([b.pads[lower].sum(axis=0) >= b.pads[~lower].sum(axis=0) for b in (answer.borne, *answer.bounds)])
    n = len(trial.stacks)
    return np.reshape(np.any(low, axis=0), (n, -1)), np.reshape(np.any(~low, axis=0), (n, -1))


def _round_pad(trial: Trial, z: Value) -> Around:
    """Perimeters round what bears of one pad, its middle at a depth."""
    h = trial.setup.holding
    y = h.pattern.y_pad
    edges = Edges(
        inner=trial.towards_middle(y),
        outer=trial.outward(y, z),
        up=trial.above(y, z),
        down=trial.below(y, z),
        free_inner=trial.free_inward(y),
        free_outer=free_outward(trial.setup.place, y, z),
        free_up=trial.above(y, z),
        free_down=free_below(trial.setup.place, y, z),
    )
    reach_x, reach_z = half_of(h.pad_width), half_of(pad_contact_height(h.pattern.h))
    reach = (reach_x, reach_x, reach_z, reach_z)
    holes = ((o.y, o.down, o.diameter) for o in trial.setup.job.board.openings)
    return perimeters_of(reach, edges, trial.t, trial.planar_factors, lost_to_openings(holes, y, z, reach).length)


def pads(trial: Trial) -> CheckArray:
    """The bracket's pads crushing the face: the block they need against half their height.

    Only their width on wood counts, beside the notch and between cut corners too (conservative at the foot).
    """
    h, place, pattern = trial.setup.holding, trial.setup.place, trial.setup.holding.pattern
    notch = place.notch_width if trial.notched else 0.0
    width = pad_on_wood(pattern.y_pad, h.pad_width, trial.pads_on, notch)
    block = pad_block(
        N=trial.actions.N,
        M=trial.actions.M,
        f=trial.crush,
        b=both_pads(width),
        h=pattern.h,
        z_u=pattern.z_u,
        z_l=pattern.z_l,
    )
    return _check(trial, "pad-bearing", "ec5", block.y, block.limit,
                  "EN 1995-1-1:2004, 8.5.2(2) for 3.0 f_c,90; half the pad's height is a convention", "mm",
                  note="height of pad that must press at full strength; peak pressure is reported, never checked")  # fmt: skip


def d510(trial: Trial) -> CheckArray:
    """Second opinion on bending, for information: gross stress by service loads against APA D510's allowable."""
    service = Trial(trial.setup, replace(trial.cases, design=trial.cases.wrench), trial.stacks, trial.hardware)
    s, factor = service.strips, trial.factor
    row = next(r for r in trial.setup.tables.rows("d510") if r.name == D510_ROW)
    C_D = load_duration_factor(trial, "d510")
    shares = [
        ratio(gross_stress(M, trial.t), allowable_stress(gross_bending_stress(F_bS, row.thickness_mm), C_D, C_M))
        for M, F_bS in ((s.Mx, row.FbS_par_N_mm_mm), (s.My, row.FbS_perp_N_mm_mm))
        for C_M in (factor("d510.C_M_strength"),)
    ]
    return _check(trial, "bending", "d510", maximum(shares[0], shares[1]), 1.0,
                  "APA D510 (2012), Table 9, sanded Group 1 23/32 in, gross section; C_D, C_M 0.75", "",
                  note="service loads, all faces across; twist and holes left out; for information", information=True)  # fmt: skip
