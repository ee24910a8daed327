"""What the boat has to hold: the force of every frame bolt and bearing place, and of each line together.

One candidate, characteristic loads. In the plane of the board each bolt takes its share by the elastic vector
method. Out of it the strips' rows and ends act as points on their lines; bolts share them as a lever does, aft
as pull in the bolt, forward as push on the metal at its place. Own weight, and the little that the strips leave
open in moment (a push within the pads, a board of clipped measures), goes to the ends of the side lines.
"""

from dataclasses import replace

import numpy as np

from transom.checks.frame_pull import (
    bolt_places,
    depth_as_height,
    first_of_even,
    gaps,
    own_mass,
    stations,
)
from transom.checks.patch import half_of
from transom.checks.trial import Trial
from transom.formula import formula
from transom.frozen import dataclass
from transom.maths import scalar, total
from transom.statics.bolt_group import bolt_group
from transom.statics.wrench import moment_about_x, moment_about_y, moment_about_z, turned
from transom.units import KG, M_PER_S2, MM, MMS, N_MM, NS, ONE, Array, N, Value

STATICS = "statics, equilibrium of the board"
G = 9.80665


@formula(symbol="W", source="ISO 80000-3, standard gravity", typical={"m": 10.0, "g": 9.80665})
def weight(m: KG, g: M_PER_S2) -> N:
    """Weight of a mass."""
    return m * g


@formula(symbol="-F", source=STATICS, known_by="derived")
def opposed(F: N) -> N:
    """The same force in the opposite sense."""
    return -F


@formula(symbol="V", source=STATICS, known_by="derived")
def row_on_line(sense: ONE, P: N, q: N) -> N:
    """Force aft of a row's strip on one side line; sense is 1 where the row pulls aft, -1 where it pushes."""
    return sense * (P - q)


@formula(symbol="1 - s", source=STATICS, known_by="derived")
def rest_of(s: ONE) -> ONE:
    """The other bolt's share."""
    return 1.0 - s


@formula(symbol="s - i", source=STATICS, known_by="derived")
def past(s: ONE, i: ONE) -> ONE:
    """How far past bolt i, in pitches."""
    return s - i


@formula(symbol="f_a", source=STATICS, known_by="derived", typical={"z_a": -20.0, "z_b": -430.0})
def upper_end_force(F: N, M: N_MM, z_a: MM, z_b: MM) -> N:
    """Force at the upper end of one of two side lines that together carry F and the moment M, heights z."""
    return (M - z_b * F) / (2.0 * (z_a - z_b))


@formula(symbol="f_b", source=STATICS, known_by="derived", typical={"z_a": -20.0, "z_b": -430.0})
def lower_end_force(F: N, M: N_MM, z_a: MM, z_b: MM) -> N:
    """Force at the lower end of one of them."""
    return (z_a * F - M) / (2.0 * (z_a - z_b))


@formula(symbol="M_z/(2 W)", source=STATICS, known_by="derived")
def couple_at_end(M_z: N_MM, W: MM) -> N:
    """Force of the couple about the upward axis at either end of a side line, aft to port."""
    return M_z / (2.0 * W)


@formula(symbol="sum", source=STATICS, known_by="derived")
def added(a: N, b: N) -> N:
    """Two forces at one place."""
    return a + b


@formula(symbol="rest", source=STATICS, known_by="derived")
def left_over(whole: N, part: N) -> N:
    """What is left of a force."""
    return whole - part


@formula(symbol="rest", source=STATICS, known_by="derived")
def moment_left_over(whole: N_MM, part: N_MM) -> N_MM:
    """What is left of a moment."""
    return whole - part


@formula(symbol="M_y", source=STATICS, known_by="derived")
def moment_of_rows(F_x: NS, z: MMS) -> N_MM:
    """Moment about the y axis of forces aft at heights z."""
    return total(F_x * z)


@dataclass(frozen=True)
class Reactions:
    """Forces on the boat at places (k, 3) mm, board axes, (v, k, 3) N, by line; and the board's own weight.

    `lines` (k,) names each place's line; `own_weight` (3,) N acts on the mount at `weight_at` (3,) mm.
    """

    lines: tuple[str, ...]
    at: Array
    force: Array
    own_weight: Array
    weight_at: Array

    def resultant(self, point: Array, which: Array | None = None) -> Array:
        """Wrench (v, 6) of the forces at some places, all by default, about a point."""
        chosen = np.ones(len(self.lines), dtype=bool) if which is None else which
        return wrench_of(self.force[:, chosen], self.at[chosen], point)

    def of_lines(self) -> tuple[tuple[str, Array, Array], ...]:
        """Each line's name, its middle (3,) and its wrench (v, 6) about there."""
        names = np.array(self.lines)
        out = []
        for name in dict.fromkeys(self.lines):
            which = names == name
            middle = np.asarray(self.at[which].mean(axis=0))
            out.append((name, middle, self.resultant(middle, which)))
        return tuple(out)


def wrench_of(force: Array, at: Array, point: Array) -> Array:
    """Resultant (..., 6) about a point of forces (..., k, 3) at places (k, 3)."""
    F = np.moveaxis(force, -1, 0)
    # The moment about the origin of a force at r is minus the change on moving the point by r.
    x, y, z = (point[i] for i in range(3))
    X, Y, Z = (at[..., i] for i in range(3))
    moments = (
        moment_about_x(0.0, F[1], F[2], gap(y, Y), gap(z, Z)),
        moment_about_y(0.0, F[0], F[2], gap(x, X), gap(z, Z)),
        moment_about_z(0.0, F[0], F[1], gap(x, X), gap(y, Y)),
    )
    return np.stack([np.asarray(total(part)) for part in (*F, *moments)], axis=-1)


@formula(symbol="r", source="geometry", known_by="derived")
def gap(x: MM, X: MM) -> MM:
    """From a place to a point."""
    return x - X


def _lever(values: Array, where: Array, first: float, pitch: float, n: int) -> Array:
    """Forces (v,) at places (v,) on an even line of n bolts, shared by the two next to each: (v, n)."""
    s = np.asarray(stations(where, first, pitch))
    i = np.clip(np.floor(s), 0, max(int(gaps(int(gaps(n)))), 0)).astype(int)
    beyond = np.asarray(past(s, i.astype(float)))
    out = np.zeros((len(values), n))
    rows = np.arange(len(values))
    out[rows, i] += np.asarray(row_on_line(np.asarray(rest_of(beyond)), values, 0.0))
    out[rows, np.minimum(np.add(i, 1), np.subtract(n, 1))] += np.asarray(row_on_line(beyond, values, 0.0))
    return out


def turned_force(force: Array, theta: Value) -> Array:
    """A force or a place (3,) in axes turned by theta, rad, about y."""
    return turned(np.concatenate([force, np.zeros_like(force)]), theta)[: len(force)]


def own_weight(trial: Trial) -> tuple[Array, Array]:
    """The board's weight as a force on the mount, board axes, (3,) N, and where it acts, (3,) mm."""
    place = trial.setup.place
    down = np.array([0.0, 0.0, scalar(opposed(weight(own_mass(trial), G)))])
    at = np.array([scalar(depth_as_height(half_of(trial.t))), 0.0, scalar(depth_as_height(half_of(place.height)))])
    return turned_force(down, scalar(place.lean)), at


def with_weight(trial: Trial) -> tuple[Array, Array, Array]:
    """Characteristic wrenches (v, 6) about the datum with the board's weight in; that weight and its place."""
    v = len(trial.cases)
    W, at_w = own_weight(trial)
    loads = np.asarray(trial.cases.wrench).reshape(v, 6)
    weight_there = wrench_of(np.broadcast_to(W, (v, 1, 3)), at_w[None, :], np.zeros(3))
    return np.stack([np.asarray(added(loads[:, i], weight_there[:, i])) for i in range(6)], axis=-1), W, at_w


def reactions(trial: Trial) -> Reactions:
    """Forces on the boat under the characteristic loads and the board's own weight. `trial` holds one candidate."""
    service = replace(trial, cases=replace(trial.cases, design=trial.cases.wrench))
    both, W, at_w = with_weight(trial)
    lines, y, z, out = _out_of_plane(service, both, at_w[0])
    # At mid-thickness: the couple of in-plane forces about the axis square to the board is the same there.
    shares = bolt_group(F_y=both[:, 1], F_z=both[:, 2], M_x=both[:, 3], y=y, z=z)
    force = np.stack([out, shares.across, shares.up], axis=-1)
    at = np.stack([np.full(len(y), at_w[0]), y, z], axis=-1)
    return Reactions(lines, at, force, W, at_w)


def _out_of_plane(trial: Trial, both: Array, x: float) -> tuple[tuple[str, ...], Array, Array, Array]:
    """Lines, places y and z (k,) and forces aft on the boat (v, k) that balance the loads about mid-thickness."""
    f, s, v = trial.setup.frame, trial.strips, len(trial.cases)
    lines, y, z = bolt_places(trial)
    n, n_b, n_t = (round(scalar(x)) for x in (f.n_side, f.n_bottom, f.n_top))
    W, first, pitch = scalar(f.span), scalar(f.first), scalar(f.side_pitch)

    def row(value: Value) -> Array:
        return np.asarray(np.broadcast_to(np.asarray(value, dtype=float), (1, v))[0])

    upper = row(np.asarray(s.ahead | s.lifted, dtype=float)) > 0
    sense = np.where(upper, 1.0, -1.0)
    side = _lever(np.asarray(row_on_line(sense, row(s.P1), row(s.q1))), row(s.z1), first, pitch, n)
    back = np.where(upper, -1.0, 1.0)
    side = np.asarray(
        added(side, _lever(np.asarray(row_on_line(back, row(s.P2), row(s.q2))), row(s.z2), first, pitch, n))
    )
    ends = [_end(trial, row(opposed(force)), count) for force, count in ((s.bottom_force, n_b), (s.top_force, n_t))]
    out = np.concatenate([side, side, *ends], axis=1)
    out = _closed(out, y, z, both, x, n, W)
    return lines, y, z, out


def _end(trial: Trial, force: Array, n: int) -> Array:
    """Forces of an end line's bolts, (v, n); half the line's force at either pad's distance."""
    if n == 0:
        return np.zeros((len(force), 0))
    if n == 1:
        return force[:, None]
    pitch = scalar(trial.setup.frame.end_pitch)
    half, start = np.asarray(half_of(force)), scalar(first_of_even(float(n), pitch))
    there = scalar(trial.setup.holding.pattern.y_pad)
    one = _lever(half, np.full(len(force), there), start, pitch, n)
    return np.asarray(added(one, one[:, ::-1]))


def _closed(out: Array, y: Array, z: Array, both: Array, x: float, n: int, W: float) -> Array:
    """The same with what is left of F_x, M_y and M_z put on the ends of the side lines."""
    M_y = np.asarray(moment_about_y(both[:, 4], both[:, 0], both[:, 2], x, 0.0))
    M_z = np.asarray(moment_about_z(both[:, 5], both[:, 0], both[:, 1], x, 0.0))
    F = np.asarray(left_over(both[:, 0], total(out)))
    M = np.asarray(moment_left_over(M_y, moment_of_rows(out, z)))
    turn = np.asarray(couple_at_end(M_z, W))
    out = out.copy()
    for end, force in ((0, upper_end_force), (int(gaps(n)), lower_end_force)):
        share = np.asarray(force(F, M, float(z[0]), float(z[int(gaps(n))])))
        out[:, end] += np.asarray(added(share, turn))
        out[:, n:][:, end] += np.asarray(left_over(share, turn))
    return out
