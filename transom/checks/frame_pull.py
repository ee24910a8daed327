"""What each bolt from board to frame carries: uneven pull along its line, and its share of the push in the plane.

By the plate, every line's force is pull where the board is held back; the bolts next to it share it as a lever
does, a push beside it relieves nothing, and where the board's edge turns into the frame it pries. By the pencil a
row of the bracket acts as one point at its depth. Bolts under a cap rail lie below the edge that is held in their
place, and carry more by levers. In the plane of the board all bolts share by the elastic vector method, the signs taken
as the worst.

The wood is taken as stiff as usual. Lines that hold rigidly pull harder on these bolts than flanges that push and bolts
that hold, in wood half or twice as stiff too (`tests/bench/frame_bolts.py`, `tests/checks/test_frame_bolts.py`).
"""

from dataclasses import fields, replace

import numpy as np

from transom.checks.careful import Careful
from transom.checks.edge_lines import EdgeLine, travel_between
from transom.checks.instead import on_frame
from transom.checks.patch import half_of
from transom.checks.trial import Trial
from transom.formula import formula
from transom.frozen import dataclass
from transom.loads.crossing import length_in_m
from transom.maths import absolute, maximum, minimum, positive, scalar, total
from transom.standards.ec5 import round_net_area
from transom.statics.bolt_group import couple_force, direct_force, resultant
from transom.statics.wrench import moment_about_x
from transom.units import KG, KG_PER_M2, MM, MM2, MM_PER_N, MPA, N_MM, NS, ONE, ONES, Array, M, N, Value

LEVER = "bolts beside a row of the bracket share its pull as a lever does"
VECTOR = "Budynas and Nisbett, Mechanical Engineering Design, 9th ed., section 8-12"
PRY = "board's edge turning into the frame about the bolts; the board's own give there not counted"
LINE = "flange as a cantilever from its root; length that works, EN 1993-1-8:2005, Table 6.4, bolt row apart"
INSIDE = "levers about the inner edge of the bottom flange, bolts being below the edge that the plate holds"
STEEL = 210_000.0  # MPa
LINES = ("port side", "starboard side", "bottom", "top")


@formula(symbol="s", source=LEVER, evidence="convention", known_by="derived")
def stations(z: MM, first: MM, pitch: MM) -> ONE:
    """Where a depth lies along a line, counted in pitches from its first bolt."""
    return (z - first) / pitch


@formula(symbol="n - 1", source=LEVER, evidence="convention", known_by="derived", typical={"n": 4.0})
def gaps(n: ONE) -> ONE:
    """Pitches between n bolts."""
    return n - 1.0


@formula(symbol="s'", source="geometry", known_by="derived", typical={"s": 1.3, "last": 3.0, "whole": 1.0})
def part_of_pitch(s: ONE, last: ONE, whole: ONE) -> ONE:
    """What lies beyond a whole number of spacings, within the line."""
    return minimum(maximum(s, 0.0), last) - whole


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


@formula(symbol="c_f", source=f"{PRY}; beam tables, cantilever", evidence="convention", known_by="derived",
         typical={"m": 19.0, "l_eff": 100.0, "t": 5.0, "t_d": 6.0, "E": 70e3})  # fmt: skip
def flange_give(m: MM, l_eff: MM, t: MM, t_d: MM, E: MPA = 70_000.0) -> MM_PER_N:
    """How far a flange and the angle laid into it give under a bolt's pull, m from their corner."""
    return 4.0 * m * m * m / (E * l_eff * (t * t * t + t_d * t_d * t_d))


@formula(symbol="c_s", source=f"{PRY}; tie rod", evidence="convention", known_by="derived")
def bolt_give(t: MM, t_f: MM, A_s: MM2, E: MPA) -> MM_PER_N:
    """How far a bolt stretches over its grip."""
    return (t + t_f) / (E * A_s)


@formula(symbol="c_w", source=f"{PRY}; elastic layer", evidence="convention", known_by="derived")
def wood_give(t: MM, A: MM2, E_90: MPA) -> MM_PER_N:
    """How far wood gives through its thickness under a washer or an edge."""
    return t / (E_90 * A)


@formula(symbol="A_e", source=f"{PRY}; half of the strip bears", evidence="convention", known_by="derived")
def edge_area(pitch: MM, e: MM) -> MM2:
    """Wood that bears at the board's edge for one bolt."""
    return pitch * e / 2.0


@formula(symbol="c", source="springs in a row", known_by="derived")
def gives_together(c_1: MM_PER_N, c_2: MM_PER_N, c_3: MM_PER_N) -> MM_PER_N:
    """Gives that add."""
    return c_1 + c_2 + c_3


@formula(symbol="w_e", source=f"{PRY}; straight past the line", evidence="convention", known_by="derived")
def edge_travel(w: MM, reach: MM, overhang: MM) -> MM:
    """How far the board's edge would travel into the frame at its reach from the bolts; nothing where it lifts."""
    return positive(-w) * reach / overhang


@formula(symbol="Q", source=PRY, evidence="convention", known_by="derived",
         typical={"w_e": 0.6, "T": 1000.0, "c_b": 1e-4, "c_e": 8e-5})  # fmt: skip
def prying(w_e: MM, T: N, c_b: MM_PER_N, c_e: MM_PER_N) -> N:
    """Push at the board's edge beside a bolt: what it would travel, less what the bolt gives, over both gives."""
    return positive(w_e - T * c_b) / (c_b + c_e)


@formula(symbol="T + Q", source=PRY, evidence="convention", known_by="derived")
def pried(T: N, Q: N) -> N:
    """Pull of a bolt with its prying."""
    return T + Q


@formula(symbol="V_b", source=INSIDE, evidence="convention", known_by="derived",
         typical={"z_b": 420.0, "a": 25.0, "m": 25.0})  # fmt: skip
def pull_at_bolts(V: N, z_b: MM, a: MM, m: MM, least: MM = 1.0) -> N:
    """Pull of bolts that lie a below the edge that was held in their place, by levers from the bottom flange's inner edge."""
    return V * z_b / maximum(z_b - a - m, least)


@formula(symbol="k_i", source=LEVER, evidence="convention", known_by="derived")
def hat(away: ONE) -> ONE:
    """Share of a bolt in a pull so many pitches away, between bolts."""
    return positive(1.0 - absolute(away))


@formula(symbol="s - i", source=LEVER, evidence="convention", known_by="derived")
def pitches_away(s: ONE, i: ONE) -> ONE:
    """Pitches from bolt i."""
    return s - i


@dataclass(frozen=True)
class FrameForces:
    """What the worst bolt of each line carries, N, (n, v): pull on a side, bottom or top line, in-plane force."""

    side: Array
    bottom: Array
    top: Array
    shear: Array

    def or_worse(self, other: "FrameForces") -> "FrameForces":
        """The larger of each."""
        return FrameForces(
            *(np.asarray(maximum(getattr(self, f.name), getattr(other, f.name))) for f in fields(FrameForces))
        )

    @property
    def pull(self) -> Array:
        """The largest pull of any line."""
        return np.asarray(maximum(maximum(self.side, self.bottom), self.top))


def _share(z: Value, first: Value, pitch: Value, n: Value) -> Array:
    """Share of the bolt nearest to a pull at z on a line of n bolts; all of it and more beyond the ends."""
    s, last = np.asarray(stations(z, first, pitch)), gaps(n)
    part = part_of_pitch(s, last, np.floor(np.clip(s, 0.0, last)))
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
    """Pulls and in-plane force of the worst bolts, factored, by the trial's own method."""
    if not isinstance(trial, Careful):
        return _by_strips(trial)
    sides, (bottom, top) = trial.edge_lines[:2], _ends(trial.edge_lines[2:])
    f = trial.setup.frame
    pulls = [_line_pull(trial, line, f.n_side, f.first, f.side_pitch) for line in sides]
    here = FrameForces(
        side=np.maximum(*pulls),
        bottom=_end_pull(trial, bottom, f.n_bottom),
        top=_end_pull(trial, top and replace(top, pull=np.asarray(_at_bolts(trial, top.pull))), f.n_top),
        shear=in_plane(trial, trial.cases.design),
    )
    for other in trial.instead:
        here = here.or_worse(forces(on_frame(other, f)))
    return here


def _ends(lines: tuple[EdgeLine, ...]) -> tuple[EdgeLine | None, EdgeLine | None]:
    """Bottom and top line, where there are."""
    bottom, top, *_ = (*lines, None, None)
    return bottom, top


def _at_bolts(trial: Trial, V: Value) -> Value:
    """What the bolts along the top carry of a pull on the edge above them."""
    return pull_at_bolts(V, trial.setup.place.z_bottom, trial.setup.frame.top, trial.setup.frame.arm)


def _end_pull(trial: Careful, line: EdgeLine | None, n: Value) -> Array:
    """Pull of the worst bolt of the bottom or top line, (n, v); without a bolt there is none to pull."""
    count = scalar(n)
    if line is None or count < 1.0:
        return np.zeros((len(trial.stacks), len(trial.cases)))
    pitch = trial.setup.frame.end_pitch
    return _line_pull(trial, line, count, np.asarray(first_of_even(count, pitch)), pitch)


def _line_pull(trial: Careful, line: EdgeLine, n: Value, first: Value, pitch: Value) -> Array:
    """Pull of the worst bolt of a line by the plate, its prying in, (n, v)."""
    bolts = np.arange(round(scalar(n)), dtype=float)
    shares = _shares(line.along, bolts, scalar(first), scalar(pitch))
    T = np.asarray(pull_on_bolt(shares.T[:, None, :], np.maximum(line.pull, 0.0).T))
    w = _interpolated(line, np.asarray(place_of(scalar(first), bolts, scalar(pitch))))
    return trial.by_candidate(np.max(pried(T, _prying(trial, line, w, T, pitch)), axis=0))


def _shares(along: Array, bolts: Array, first: float, pitch: float) -> Array:
    """Share (k, n) of each bolt in a pull at each place along its line; past an end all of it and more."""
    s = np.asarray(stations(along, first, pitch))[:, None]
    share = np.asarray(hat(pitches_away(np.clip(s, bolts[0], bolts[-1]), bolts)))
    return np.asarray(weighed(share, np.asarray(share_with_overhang(1.0, s, bolts[-1]))))


@formula(symbol="T_i", source=LEVER, evidence="convention", known_by="derived")
def pull_on_bolt(k: ONES, V: NS) -> N:
    """Pull of a bolt: its shares in what the line pulls at each place."""
    T: N = total(k * V)
    return T


@formula(symbol="k_i k_n", source=LEVER, evidence="convention", known_by="derived")
def weighed(share: ONE, more: ONE) -> ONE:
    """A share, larger by what lies past the end."""
    return share * more


def _interpolated(line: EdgeLine, at: Array) -> Array:
    """Travel of the board's edge beside each bolt, (n, v)."""
    a, w, last = line.along, line.edge, len(line.along[1:])
    # A bolt that rounding puts a hair before a place still lies on it.
    i = np.searchsorted(a[1:-1], np.add(at, HAIR), "right")
    after = np.minimum(np.add(i, 1), last)
    return np.asarray(travel_between(at[:, None], a[i, None], a[after, None], w[i], w[after]))


def _prying(trial: Careful, line: EdgeLine, w: Array, T: Array, pitch: Value) -> Value:
    """Prying of each bolt, (n, v): none where no wood lies beyond the bolts."""
    f, E_90 = trial.setup.frame, trial.factor("board.pad_stiffness_MPa")
    reach = min(line.overhang, scalar(f.arm))
    if reach < LEAST_REACH:
        return np.zeros_like(T)
    c_b = holding_give(trial, pitch)
    c_e = wood_give(scalar(trial.t), edge_area(pitch, reach), E_90)
    return prying(edge_travel(w, reach, line.overhang), T, c_b, c_e)


def holding_give(trial: Careful, pitch: Value) -> Value:
    """How far a frame bolt of such a pitch, the wood under its washer and the flange give, mm/N."""
    f, b, t = trial.setup.frame, trial.setup.frame.bolts, scalar(trial.t)
    area = np.maximum(np.asarray(round_net_area(b.washer, b.hole)), LEAST_AREA)
    return gives_together(
        bolt_give(t, f.flange, b.A_s, STEEL),
        wood_give(t, area, trial.factor("board.pad_stiffness_MPa")),
        flange_give(f.arm, working_length(pitch, f.arm, f.arm), f.flange, f.doubler),
    )


HAIR = 1e-6  # mm
LEAST_REACH = 1.0  # mm
LEAST_AREA = 1.0  # mm2; a washer no larger than its hole fails on its own


@formula(symbol="z", source="geometry", known_by="derived")
def place_of(first: MM, i: ONE, pitch: MM) -> MM:
    """Place of bolt i of an even line, counted from nought."""
    return first + i * pitch


def _by_strips(trial: Trial) -> FrameForces:
    f, s, a = trial.setup.frame, trial.strips, trial.actions
    share = maximum(_share(s.z1, f.first, f.side_pitch, f.n_side), _share(s.z2, f.first, f.side_pitch, f.n_side))
    none = np.zeros((1, 1))
    return FrameForces(
        side=np.asarray(bolt_pull(s.side_pull, couple_on_sides(a.M_z, f.span), share)),
        bottom=np.asarray(bolt_pull(np.negative(s.bottom_force), 0.0, _end_share(trial, f.n_bottom))),
        top=np.asarray(bolt_pull(_at_bolts(trial, np.negative(s.top_force)), 0.0, _end_share(trial, f.n_top)))
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


def bolt_places(trial: Trial) -> tuple[tuple[str, ...], Array, Array]:
    """Every bolt of the frame: its line, y and z (b,)."""
    f = trial.setup.frame
    n, n_b, n_t = (round(scalar(x)) for x in (f.n_side, f.n_bottom, f.n_top))
    down = np.asarray(place_of(scalar(f.first), np.arange(n, dtype=float), scalar(f.side_pitch)))
    half = scalar(half_span(f.span))
    y = np.concatenate([np.full(n, -half), np.full(n, half), _across(f.end_pitch, n_b), _across(f.end_pitch, n_t)])
    depths = np.concatenate([down, down, np.full(n_b, scalar(trial.setup.place.z_bottom)), np.full(n_t, scalar(f.top))])
    names = (LINES[0],) * n + (LINES[1],) * n + (LINES[2],) * n_b + (LINES[3],) * n_t
    return names, y, np.asarray(depth_as_height(depths))


def _across(pitch: Value, n: int) -> Array:
    first = np.asarray(first_of_even(float(n), scalar(pitch)))
    return np.asarray(place_of(scalar(first), np.arange(n, dtype=float), scalar(pitch)))
