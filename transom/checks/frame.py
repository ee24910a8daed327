"""Board to frame: the bolts along side, bottom and top lines, the wood and the flange under them.

Each line's pull comes from the crossed strips and is uneven: it acts as a point at its row's depth and the
two bolts next to it share it as a lever does, none farther off helps, and no push beside it relieves it.
In the plane of the board all bolts share by the elastic vector method, the signs taken as the worst.
"""

from dataclasses import dataclass
from functools import partial

import numpy as np

from transom.checks.joints import PUNCH, pull_over, punching, wall_bearing, washer_on_wood
from transom.checks.patch import half_of
from transom.checks.trial import Trial, design_value, found_strength
from transom.formula import formula
from transom.loads.crossing import length_in_m
from transom.maths import absolute, maximum, minimum, positive
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
from transom.statics.bolt_group import couple_force, direct_force, resultant
from transom.statics.wrench import moment_about_x
from transom.units import KG, KG_PER_M2, MM, MPA, N_MM, ONE, Array, M, N, Value

LEVER = "bolts beside a row of the bracket share its pull as a lever does"
VECTOR = "Budynas and Nisbett, Mechanical Engineering Design, 9th ed., section 8-12"
BOLT = "EN 1993-1-8:2005, Table 3.4"
WOOD = "EN 1995-1-1:2004, 8.2.3; aluminum flange as steel plate and edges from 1.5 d at e/4d are conventions"
ALUMINIUM = "EN 1999-1-1:2007, Table 8.5"
LINE = "flange as a cantilever from its root; length that works, EN 1993-1-8:2005, Table 6.4, bolt row apart"


@formula(symbol="s", source=LEVER, evidence="convention", known_by="derived")
def stations(z: MM, first: MM, pitch: MM) -> ONE:
    """Where a depth lies along a line, counted in pitches from its first bolt."""
    return (z - first) / pitch


@formula(symbol="n - 1", source=LEVER, evidence="convention", known_by="derived", typical={"n": 4.0})
def gaps(n: ONE) -> ONE:
    """Pitches between n bolts."""
    return n - 1.0


@formula(symbol="k_n", source=LEVER, evidence="convention", known_by="derived")
def nearer_share(part: ONE) -> ONE:
    """Share of the nearer of two bolts, a part of the pitch from one of them."""
    return maximum(part, 1.0 - part)


@formula(symbol="k_n", source=LEVER, evidence="convention", known_by="derived")
def share_with_overhang(k: ONE, s: ONE, last: ONE) -> ONE:
    """The same beyond the end bolts, where the pull lies outside them."""
    return k + positive(-s) + positive(s - last)


@formula(symbol="T_z", source="statics, couple about the upward axis between the side lines", known_by="derived")
def couple_on_sides(M_z: N_MM, W: MM) -> N:
    """Pull on the worse side line by the couple about the upward axis."""
    return absolute(M_z) / W


@formula(symbol="T", source=LEVER, evidence="convention", known_by="derived")
def bolt_pull(V: N, T_z: N, k_n: ONE) -> N:
    """Pull of the worst bolt of a line."""
    return (positive(V) + T_z) * k_n


@formula(symbol="F_z", source="own weight in the ratio of masses, in every case", evidence="convention",
         known_by="derived", typical={"m": 10.0, "m_e": 120.0})  # fmt: skip
def with_own_weight(F_z: N, m: KG, m_e: KG) -> N:
    """Force along the board with the board's own weight, as if all of it came from weight."""
    return F_z * (1.0 + m / m_e)


@formula(symbol="m", source="mass of an area", evidence="published", known_by="derived",
         typical={"width": 0.6, "height": 0.45, "per_area": 20.0})  # fmt: skip
def mass_of_board(width: M, height: M, per_area: KG_PER_M2) -> KG:
    """Mass of the board."""
    return width * height * per_area


@formula(symbol="V", source=VECTOR, known_by="derived")
def worst_component(direct: N, couple: N) -> N:
    """Largest component of a bolt's force along one axis, signs taken as the worst."""
    return absolute(direct) + absolute(couple)


@formula(symbol="z - z_c", source="statics", known_by="derived")
def depth_as_height(z_c: MM) -> MM:
    """Height of a depth."""
    return -z_c


@formula(symbol="y", source="half of the span", known_by="derived")
def half_span(W: MM) -> MM:
    """A side line from the center line."""
    return W / 2.0


@formula(symbol="l_eff", source=LINE, known_by="memory")
def working_length(pitch: MM, m: MM, e: MM) -> MM:
    """Length of flange that bends with one bolt m from its root and e from its edge, never past the pitch."""
    return minimum(pitch, 4.0 * m + 1.25 * e)


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


@formula(symbol="F_v,Rd", source="EN 1995-1-1:2004, 2.4.3 (2.17) with the edge and the row's share",
         typical={"k": 0.54})  # fmt: skip
def sideways_resistance(F_v_Rk: N, k: ONE, k_e: ONE, n_ef: ONE, n: ONE) -> N:
    """Design resistance of one bolt in a row of n."""
    return F_v_Rk * k * k_e * n_ef / n


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


@dataclass(frozen=True)
class FrameForces:
    """What the worst bolt of each line carries, N, (n, v): pull on a side, bottom or top line, in-plane force."""

    side: Array
    bottom: Array
    top: Array
    shear: Array

    @property
    def pull(self) -> Array:
        """The largest pull of any line."""
        return np.asarray(maximum(maximum(self.side, self.bottom), self.top))


def _share(z: Value, first: Value, pitch: Value, n: Value) -> Array:
    """Share of the bolt nearest to a pull at z on a line of n bolts; all of it and more beyond the ends."""
    s, last = np.asarray(stations(z, first, pitch)), gaps(n)
    part = np.mod(np.clip(s, 0.0, last), 1.0)
    return np.asarray(share_with_overhang(nearer_share(part), s, last))


def _end_share(trial: Trial, n: Value) -> Value:
    """Share of an end line's pull on its worst bolt: half of it acts at either pad's distance from the center line.

    Bolts no farther apart than that distance carry of one half alone; wider ones are taken to carry of both.
    """
    f, p = trial.setup.frame, trial.setup.holding.pattern
    here = np.maximum(np.asarray(n), 1.0)
    start = np.asarray(first_of_even(here, f.end_pitch))
    share = _share(p.y_pad, start, f.end_pitch, here)
    share = np.where(np.asarray(f.end_pitch <= p.y_pad), half_of(share), share)
    return np.where(np.asarray(n) > 0, share, 1.0)


@formula(symbol="y_1", source="bolts evenly about the center line", known_by="derived", typical={"n": 4.0})
def first_of_even(n: ONE, pitch: MM) -> MM:
    """Where the first of n bolts stands that are evenly spaced about the center line."""
    return -(n - 1.0) * pitch / 2.0


def own_mass(trial: Trial) -> Array:
    """Mass of the board, kg, (n, 1)."""
    place = trial.setup.place
    return np.asarray(mass_of_board(length_in_m(place.width), length_in_m(place.height), trial.stacks.mass[:, None]))


def forces(trial: Trial) -> FrameForces:
    """Pulls and in-plane force of the worst bolts, factored."""
    f, s, a = trial.setup.frame, trial.strips, trial.actions
    share = maximum(_share(s.z1, f.first, f.side_pitch, f.n_side), _share(s.z2, f.first, f.side_pitch, f.n_side))
    none = np.zeros((1, 1))
    return FrameForces(
        side=np.asarray(bolt_pull(s.side_pull, couple_on_sides(a.M_z, f.span), share)),
        bottom=np.asarray(bolt_pull(np.negative(s.bottom_force), 0.0, _end_share(trial, f.n_bottom))),
        top=np.asarray(bolt_pull(np.negative(s.top_force), 0.0, _end_share(trial, f.n_top)))
        if np.any(f.n_top)
        else none,
        shear=in_plane(trial, trial.cases.design),
    )


def in_plane(trial: Trial, wrench: Array) -> Array:
    """Force on the worst bolt in the plane of the board under wrenches (..., v, 6), N."""
    f, w = trial.setup.frame, np.moveaxis(np.asarray(wrench), -1, 0)
    F_y, F_z = w[1], with_own_weight(w[2], own_mass(trial), column_of(trial.setup.loads.mass_light_kg))
    M = moment_about_x(w[3], F_y, F_z, 0.0, depth_as_height(f.z_c))
    across = worst_component(direct_force(F_y, f.n), couple_force(M, f.far, f.J))
    up = worst_component(direct_force(F_z, f.n), couple_force(M, half_span(f.span), f.J))
    return np.asarray(resultant(across, up))


def column_of(x: Value) -> Value:
    """A float as it is, an array (n,) as a column (n, 1)."""
    return x if np.ndim(x) == 0 else np.asarray(x).reshape(-1, 1)


def _check(trial: Trial, what: str, rule: str, demand: Value, limit: Value, source: str, unit: str = "N",
           note: str = "", information: bool = False, known_by: str = "transcribed", evidence: str = "published",
           cases: tuple[str, ...] | None = None) -> CheckArray:  # fmt: skip
    return CheckArray(
        part="frame",
        what=what,
        rule=rule,
        method="hand",
        unit=unit,
        source=source,
        evidence=evidence,
        known_by=known_by,
        cases=trial.cases.names if cases is None else cases,
        demand=np.atleast_2d(np.asarray(demand, dtype=float)),
        resistance=np.atleast_2d(np.asarray(limit, dtype=float)),
        note=note,
        information=information,
    )


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
        _check(trial, "bolt-tension", "ec3", F.pull, F_t, BOLT, note="uneven pull, shared as by a lever"),
        _check(trial, "bolt-shear", "ec3", F.shear, F_v, BOLT, note="thread taken in the shear plane"),
        _check(trial, "bolt-tension-and-shear", "ec3", both, 1.0, BOLT, unit=""),
    )


def sideways(trial: Trial) -> Array:
    """Design resistance of one bolt sideways in the wood, (n, v); no rope effect."""
    f = trial.setup.frame
    b = f.bolts
    f_h = embedment_plywood(b.d, trial.stacks.rho[:, None])
    F_v_Rk = one_plate(f_h, trial.t, b.d, yield_moment(b.f_ub, b.d), f.flange)
    n_ef = effective_number(f.n_side, f.side_pitch, b.d)
    k = trial.setup.factors.connection(trial.cases.duration)
    return np.asarray(sideways_resistance(F_v_Rk, k, cross_banded_edge_factor(f.edge, b.d), n_ef, f.n_side))


def _in_wood(trial: Trial, F: FrameForces) -> tuple[CheckArray, ...]:
    R_v = sideways(trial)
    f_c = found_strength(trial.stacks.f_c_90[:, None], trial.setup.crush_share)
    R_ax = washer_on_wood(
        trial.setup.frame.bolts,
        design_value(f_c, trial.k),
        trial.setup.factors.gamma_M1,
        trial.factor("washer.yield_MPa"),
    )
    both = axial_lateral_utilisation(F_ax_Ed=F.pull, F_ax_Rd=np.maximum(R_ax, 1e-9), F_v_Ed=F.shear, F_v_Rd=R_v)
    return (
        _check(trial, "washer-on-wood", "ec5", F.pull, R_ax, "EN 1995-1-1:2004, 8.5.2(2)",
               note="three times the face's strength only under a washer of 3 d across and 0.3 d thick"),
        _check(trial, "sideways-in-wood", "ec5", F.shear, R_v, WOOD, evidence="convention"),
        _check(trial, "pull-and-sideways-in-wood", "ec5", both, 1.0, "EN 1995-1-1:2004, 8.3.3 in form", unit=""),
    )  # fmt: skip


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
               known_by="memory"),
        _check(trial, "flange-pull-through", "adm", F.pull,
               pull_over(f.bolts, t, f.f_u, trial.factor("adm.phi_pull_over")),
               "Aluminum Design Manual, J.5, sheet over a washer", known_by="memory",
               note="for sheet; the flange's own bending is checked apart", information=True),
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
        _check(trial, "flange-bending-side", "ec9", side, R, LINE, known_by="memory", note=note),
        _check(trial, "flange-bending-end", "ec9", end, R, LINE, known_by="memory", note=note),
    )


def _places(trial: Trial) -> tuple[CheckArray, ...]:
    f = trial.setup.frame
    d, once = f.bolts.d, (ONCE,)
    practice = "common practice"
    return (
        _check(trial, "hole-to-board-edge", "", least_hole_edge(d, trial.factor("frame.least_edge_d")), f.edge,
               "NDS 2018, Table 12.5.1C", unit="mm", cases=once, note="resistance falls with e/4d"),
        _check(trial, "spacing", "", practice_pitch(d), np.minimum(f.side_pitch, f.end_pitch),
               "3 d between holes", unit="mm", cases=once, evidence=practice, known_by="memory"),
        _check(trial, "count", "", f.least, f.bolts.count, "two bolts on each line at least", unit="",
               cases=once, evidence="convention", known_by="derived"),
    )  # fmt: skip
