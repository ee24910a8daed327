"""Board to frame: the bolts along side, bottom and top lines, the wood and the flange under them.

What each bolt carries is worked out in `frame_pull`.
"""

from functools import partial

import numpy as np

from transom.checks import wood_about
from transom.checks.check import check, load_duration_factor
from transom.checks.frame_pull import LINE, FrameForces, first_of_even, forces, in_plane, working_length
from transom.checks.joints import PUNCH, pull_over, punching, wall_bearing, washer_on_wood
from transom.checks.patch import half_of, remaining
from transom.checks.places import distance, past
from transom.checks.sideways import row_share, sideways_resistance
from transom.checks.trial import Trial, design_value, found_strength
from transom.formula import formula
from transom.maths import maximum, minimum
from transom.result import ONCE, CheckArray
from transom.standards import adm
from transom.standards.ec3 import (
    bolt_shear_resistance,
    bolt_tension_resistance,
    practice_pitch,
    shear_tension_interaction,
)
from transom.standards.ec5 import axial_lateral_utilisation, embedment_plywood, yield_moment
from transom.standards.ec5_lateral import one_plate
from transom.standards.ec5_spacing import cross_banded_edge_factor, effective_number
from transom.standards.lag_screws import EC5 as EC5_SCREW
from transom.standards.lag_screws import NDS as NDS_SCREW
from transom.standards.lag_screws import (
    least_thread,
    specific_gravity,
    thread_in_wood,
    withdrawal_of_screw,
    withdrawal_resistance,
    withdrawal_strength,
    withdrawal_value,
    working_diameter,
)
from transom.standards.nds import adjusted_value
from transom.units import MM, MPA, ONE, Array, N, Value

BOLT = "EN 1993-1-8:2005, Table 3.4"
WOOD = "EN 1995-1-1:2004, 8.2.3; aluminum flange as steel plate and edges from 1.5 d at e/4d are conventions"
ALUMINIUM = "EN 1999-1-1:2007, Table 8.5"


@formula(symbol="m_Ed", source=LINE, known_by="memory")
def flange_moment(T: N, m: MM, l_eff: MM) -> N:
    """Moment per length at the flange's root."""
    return T * m / l_eff


@formula(
    symbol="m_Rd", source="plastic section, EN 1999-1-1:2007, 6.2.5; a loose doubler adds its own", known_by="memory"
)
def flange_resistance(t: MM, f_y: MPA, t_d: MM, f_y_d: MPA, gamma_M1: ONE) -> N:
    """Moment per length of a flange and of the doubler laid into it, each fully yielded."""
    return (t * t * f_y + t_d * t_d * f_y_d) / (4.0 * gamma_M1)


@formula(
    symbol="e_min", source="NDS 2018, Table 12.5.1C, edge loaded along, l/D to 6", typical={"d": 10.0, "times": 1.5}
)
def least_hole_edge(d: MM, times: ONE) -> MM:
    """Smallest distance from a hole to the board's edge that is accepted, with less resistance."""
    return times * d


@formula(symbol="t_sum", source="one on the other", evidence="published", known_by="derived")
def both_thicknesses(t: MM, t_d: MM) -> MM:
    """Flange and doubler under the nut."""
    return t + t_d


_check = partial(check, part="frame")


def checks(trial: Trial) -> tuple[CheckArray, ...]:
    """Everything about the bolts from board to frame; nothing of it depends on what backs the engine's bolts."""
    F = forces(trial)
    return (*_bolts(trial, F), *_in_wood(trial, F), *_in_flange(trial, F), *_places(trial))


def _bolts(trial: Trial, F: FrameForces) -> tuple[CheckArray, ...]:
    b, gamma = trial.setup.frame.bolts, trial.setup.factors.gamma_M2
    F_t = bolt_tension_resistance(b.f_ub, b.A_s, gamma)
    F_v = bolt_shear_resistance(b.f_ub, b.A_s, b.alpha_v, gamma)
    both = shear_tension_interaction(F.shear, F_v, F.pull, F_t)
    return (
        _check(
            trial,
            "bolt-tension",
            "ec3",
            F.pull,
            F_t,
            BOLT,
            note="uneven pull, shared as by a lever; lines held rigidly pull harder than bolts do that give, whether the"
            " wood is soft or stiff",
            method=trial.method,
        ),
        _check(trial, "bolt-shear", "ec3", F.shear, F_v, BOLT, note="thread taken in the shear plane"),
        _check(trial, "bolt-tension-and-shear", "ec3", both, 1.0, BOLT, unit="", method=trial.method),
    )


def sideways(trial: Trial) -> Array:
    """Design resistance of one bolt sideways in the wood, (n, v); no rope effect."""
    f = trial.setup.frame
    b = f.bolts
    screwed = b.kind == "lag screws"
    d, t = (working_diameter(b.d), held_thread(trial)) if screwed else (b.d, trial.t)
    f_h = embedment_plywood(d, trial.stacks.rho[:, None])
    F_v_Rk = one_plate(f_h, t, d, yield_moment(b.f_ub, d), f.flange)
    n_ef = effective_number(f.n_side, f.side_pitch, b.d)
    k = trial.setup.factors.connection(trial.cases.duration)
    return np.asarray(
        sideways_resistance(F_v_Rk, k, cross_banded_edge_factor(edge_of_holes(trial), b.d), row_share(n_ef, f.n_side))
    )


def _in_wood(trial: Trial, F: FrameForces) -> tuple[CheckArray, ...]:
    R_v = sideways(trial)
    pulled, R_ax = _screwed(trial, F) if trial.setup.frame.bolts.kind == "lag screws" else _washered(trial, F)
    both = axial_lateral_utilisation(
        F_ax_Ed=F.pull, F_ax_Rd=np.maximum(R_ax, 1e-9), F_v_Ed=F.shear, F_v_Rd=np.maximum(R_v, 1e-9)
    )
    return (
        *pulled,
        _check(trial, "sideways-in-wood", "ec5", F.shear, R_v, WOOD, evidence="convention"),
        _check(trial, "pull-and-sideways-in-wood", "ec5", both, 1.0, "EN 1995-1-1:2004, 8.3.3 in form", unit="",
               method=trial.method),
    )  # fmt: skip


def _washered(trial: Trial, F: FrameForces) -> tuple[tuple[CheckArray, ...], Array]:
    """Through-bolts: their washers on the wood, and what these carry."""
    f_c = found_strength(trial.stacks.f_c_90[:, None], trial.setup.crush_share)
    R_ax = washer_on_wood(
        trial.setup.frame.bolts,
        design_value(f_c, trial.k),
        trial.setup.factors.gamma_M1,
        trial.factor("washer.yield_MPa"),
        edge_of_holes(trial),
        np.minimum(trial.setup.frame.side_pitch, trial.setup.frame.end_pitch),
    )
    washers = _check(trial, "washer-on-wood", "ec5", F.pull, R_ax, "EN 1995-1-1:2004, 8.5.2(2)", method=trial.method,
                   note="three times the face's strength only under a washer of 3 d across and 0.3 d thick; what"
                   " hangs off the board or over the next bolt's bears nothing")  # fmt: skip
    return (washers,), R_ax


def held_thread(trial: Trial) -> Array:
    """Thread of a lag screw in the wood, mm, (n, 1); of one whose length nobody knows, what four diameters leave."""
    f = trial.setup.frame
    b = f.bolts
    metal = both_thicknesses(both_thicknesses(f.flange, f.doubler), b.washer_t)
    length = np.where(np.asarray(b.length) > 0, b.length, both_thicknesses(metal, least_thread(b.d, SHORT)))
    return np.asarray(thread_in_wood(length, metal, b.d, trial.t))


SHORT = 4.0  # diameters


def _screwed(trial: Trial, F: FrameForces) -> tuple[tuple[CheckArray, ...], Array]:
    """Lag screws: drawn out of the wood by two documents, and thread enough in it; what one carries by the deciding one."""
    b, us = trial.setup.frame.bolts, trial.setup.job.head.code == "US"
    thread, rho = held_thread(trial), trial.stacks.rho[:, None]
    some = np.maximum(thread, 1e-3)
    k = trial.setup.factors.connection(trial.cases.duration)
    R_ec5 = design_value(withdrawal_resistance(withdrawal_strength(b.d, some, rho), b.d, thread), k)
    C_D = load_duration_factor(trial, "nds")
    W = withdrawal_value(specific_gravity(rho), b.d)
    R_nds = adjusted_value(withdrawal_of_screw(W, thread), C_D, trial.factor("nds.C_M"))
    service = design_value(F.pull, opposite_of(np.ravel(trial.cases.factor)))
    note = "written for solid wood, taken for the board's face"
    times = trial.factor("lag.least_thread_nds_d" if us else "lag.least_thread_ec5_d")
    checks = (
        _check(trial, "withdrawal", "ec5", F.pull, R_ec5, EC5_SCREW, known_by="memory", note=note, method=trial.method,
               information=us),
        _check(trial, "withdrawal", "nds", service, R_nds, NDS_SCREW, known_by="memory", note=f"{note}; service loads",
               method=trial.method, information=not us),
        _check(trial, "screw-thread", "", least_thread(b.d, times), thread, "least thread in the wood", unit="mm",
               cases=(ONCE,), known_by="memory"),
    )  # fmt: skip
    return checks, np.asarray(R_ec5)


@formula(symbol="1/gamma", source="what undoes a factor", known_by="derived", typical={"gamma": 1.5})
def opposite_of(gamma: ONE) -> ONE:
    """One over a factor."""
    return 1.0 / gamma


def _in_flange(trial: Trial, F: FrameForces) -> tuple[CheckArray, ...]:
    f, factors = trial.setup.frame, trial.setup.factors
    bearing = wall_bearing(f.bolts, f.flange, f.f_u, f.arm, minimum(f.side_pitch, f.end_pitch), factors)
    t = both_thicknesses(f.flange, f.doubler)
    torn = adm.allowable_strength(adm.bearing_strength(f.arm, f.bolts.d, f.flange, f.f_u))
    return (
        _check(trial, "flange-bearing", "ec9", F.shear, bearing, ALUMINIUM, known_by="memory"),
        _check(trial, "flange-bearing", "adm", in_plane(trial, trial.cases.wrench), torn,
               "Aluminum Design Manual, J.3", known_by="memory", note="service loads", information=True),
        _check(trial, "flange-pull-through", "ec9", F.pull, punching(f.bolts, t, f.f_u, factors.gamma_M2), PUNCH,
               known_by="memory", method=trial.method),
        _check(trial, "flange-pull-through", "adm", F.pull,
               pull_over(f.bolts, t, f.f_u, trial.factor("adm.phi_pull_over")),
               "Aluminum Design Manual, J.5, sheet over a washer", known_by="memory",
               note="for sheet; the flange's own bending is checked apart", information=True, method=trial.method),
        *_flange_bending(trial, F),
    )  # fmt: skip


def _flange_bending(trial: Trial, F: FrameForces) -> tuple[CheckArray, ...]:
    f = trial.setup.frame
    R = flange_resistance(f.flange, f.f_y, f.doubler, f.f_y_doubler, trial.setup.factors.gamma_M1)
    line = partial(flange_moment, m=f.arm)
    side = line(F.side, l_eff=working_length(f.side_pitch, f.arm, f.arm))
    end = line(maximum(F.bottom, F.top), l_eff=working_length(f.end_pitch, f.arm, f.arm))
    note = "moment per mm at the corner; no prying: beside it the bolt's own pull is checked, so the T-stub rule holds"
    return (
        _check(trial, "flange-bending-side", "ec9", side, R, LINE, known_by="memory", note=note, method=trial.method),
        _check(trial, "flange-bending-end", "ec9", end, R, LINE, known_by="memory", note=note, method=trial.method),
    )


def edge_of_holes(trial: Trial) -> Value:
    """From the frame bolts to the board's nearest edge; the notch and cut corners, as rectangles, are edges too."""
    f, place = trial.setup.frame, trial.setup.place
    edge = _edge_at_corners(trial)
    if not trial.notched:
        return edge
    half = half_of(place.notch_width)
    beside = minimum(edge, distance(past(half_of(f.span), half, half), past(f.first, place.notch_depth, 0.0)))
    even = np.asarray(f.n_top) % 2 == 0
    innermost = np.where(even, half_of(f.end_pitch), np.zeros_like(np.asarray(f.end_pitch)))
    top = distance(past(innermost, half, half), past(f.top, place.notch_depth, 0.0))
    return np.where(np.asarray(f.n_top) > 0, minimum(beside, top), beside)


def _edge_at_corners(trial: Trial) -> Value:
    """From the frame bolts to the board's side, or to a cut corner: of the first and last of a side, and of the outermost
    on top and bottom line."""
    f, place = trial.setup.frame, trial.setup.place
    edge, side = f.edge, half_of(f.span)
    last = remaining(place.height, f.first)
    rows = (
        (wood_about.top_corner, f.first, f.n_top, f.top),
        (wood_about.bottom_corner, last, f.n_bottom, place.z_bottom),
    )
    for corner, first, n, down in rows:
        beside = corner(place, side, first)
        if beside is None:
            continue
        edge = minimum(edge, distance(beside.aside, beside.away))
        row = corner(place, np.negative(np.asarray(first_of_even(n, f.end_pitch))), down)
        assert row is not None
        edge = np.where(np.asarray(n) > 0, minimum(edge, distance(row.aside, row.away)), edge)
    return edge


def _places(trial: Trial) -> tuple[CheckArray, ...]:
    f = trial.setup.frame
    d, once = f.bolts.d, (ONCE,)
    practice = "common practice"
    return (
        _check(trial, "hole-to-board-edge", "", least_hole_edge(d, trial.factor("frame.least_edge_d")), edge_of_holes(trial),
               "NDS 2018, Table 12.5.1C", unit="mm", cases=once, note="resistance falls with e/4d; a notch and cut corners, as rectangles, are edges too"),
        _check(trial, "spacing", "", practice_pitch(d), np.minimum(f.side_pitch, f.end_pitch),
               "3 d between holes", unit="mm", cases=once, evidence=practice, known_by="memory"),
        _check(trial, "count", "", f.least, f.bolts.count, "two bolts on each line at least", unit="",
               cases=once, evidence="convention", known_by="derived"),
    )  # fmt: skip
