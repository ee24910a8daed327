"""The engine on its bracket cut free from the board: what acts on it in a case and what holds it, in balance.

Level axes from the datum (middle of the top edge, aft face): x aft, y starboard, z up; N, mm, N*mm, factored.
"""

import math
from collections.abc import Iterator

import numpy as np

from transom.checks.trial import Trial
from transom.frozen import dataclass
from transom.judge.records import Judgement
from transom.loads.actions import Action, Situation
from transom.loads.cases import situations
from transom.loads.inputs import checked, columns
from transom.maths import scalar
from transom.result import Check
from transom.statics.wrench import mid_thickness_moment_y

Triple = tuple[float, float, float]
TINY = 1e-6  # share of the largest force below which none is drawn


@dataclass(frozen=True)
class Push:
    """One force at one place. `factor` is the one inside `force`; None for what holds, which follows from the rest.

    `couple` is about the x and y axes, factored like the force.
    """

    name: str
    force: Triple
    at: Triple
    factor: float | None = None
    couple: tuple[float, float] = (0.0, 0.0)

    @property
    def size(self) -> float:
        """Of the force, N."""
        return math.hypot(*self.force)


@dataclass(frozen=True)
class Body:
    """A situation in the case that comes nearest to a limit: `check` is the link that does."""

    of: str
    case: str
    check: Check
    acts: tuple[Push, ...]
    holds: tuple[Push, ...]
    lean: float  # rad
    height: float  # of the board, mm
    thickness: float  # of wood, mm

    @property
    def sideways(self) -> bool:
        """True where something pushes sideways."""
        return any(abs(p.force[1]) > TINY * p.size for p in self.acts)

    @property
    def turning(self) -> float:
        """Moment about the upward level axis of what acts, which the bolts hold by uneven pull, N*mm."""
        return sum(p.at[0] * p.force[1] - p.at[1] * p.force[0] for p in self.acts)


def bodies(j: Judgement, trial: Trial) -> tuple[Body, ...]:
    """One for each situation, in the order in which they are judged; none where no check has a case."""
    out = []
    for s in situations(columns(checked(trial.setup.loads))):
        mine = [c for c in j.deciding if c.case in s.names]
        if mine:
            out.append(_body(trial, s, max(mine, key=lambda c: (c.utilisation, c.id))))
    return tuple(out)


def _body(trial: Trial, s: Situation, worst: Check) -> Body:
    k, place = s.names.index(worst.case), trial.setup.place
    lean, t = scalar(place.lean), float(trial.t[0, 0])
    acts = tuple(p for p in (_acting(a, k, len(s.names)) for a in s.actions) if p.size > 0)
    holds = tuple(_holding(trial, trial.cases.names.index(worst.case), lean, t))
    return Body(s.of, worst.case, worst, acts, holds, lean, scalar(place.height), t)


def _acting(a: Action, k: int, v: int) -> Push:
    """An action of the k-th of v cases, times its factor."""

    def at(x: object) -> float:
        return float(np.broadcast_to(np.asarray(x, dtype=float), (1, v))[0, k])

    gamma = at(a.gamma)
    x, y, z = (at(p) for p in a.point)
    f_x, f_y, f_z = (gamma * at(f) for f in a.force)
    c_x, c_y = (gamma * at(c) for c in a.couple)
    return Push(a.name.replace("-", " "), (f_x, f_y, f_z), (x, y, z), gamma, (c_x, c_y))


def _holding(trial: Trial, i: int, lean: float, t: float) -> Iterator[Push]:
    """Bolts pull forward, pads push aft, and the board holds what lies in its plane, at mid-thickness."""
    s, p = trial.strips, trial.setup.holding.pattern
    upper, lower, bearing = (float(np.broadcast_to(x, (1, len(trial.cases)))[0, i]) for x in (s.T_u, s.T_l, s.C))
    rows = ("upper bolts pull", 2 * upper, scalar(p.z_u)), ("lower bolts pull", 2 * lower, scalar(p.z_l))
    clamps = trial.setup.holding.by == "clamps"
    for name, force, depth in rows:
        if force > 0:
            yield _square(name.replace("bolts pull", "clamp screws hold") if clamps else name, -force, depth, lean)
    if bearing > TINY * (bearing + abs(upper) + abs(lower)):
        yield _square("bracket bears on the board", bearing, _bearing(trial, i), lean)
    _, f_y, f_z, *_ = trial.cases.design.reshape(-1, 6)[i]
    along = _turned(0.0, -float(f_z), lean)
    yield Push("board holds in its plane", (along[0], -float(f_y), along[1]), _level(-t / 2, 0.0, lean))


def _bearing(trial: Trial, i: int) -> float:
    """Depth at which the pads push: that of the strips' row; where no bolt pulls, where the balance puts it."""
    s, v = trial.strips, len(trial.cases)
    flags = [bool(np.broadcast_to(x, (1, v))[0, i]) for x in (s.pressed, s.ahead)]
    if flags[0]:
        w = trial.cases.design.reshape(-1, 6)[i]
        moment = float(np.ravel(mid_thickness_moment_y(float(w[4]), float(w[2]), float(trial.t[0, 0])))[0])
        return moment / -float(w[0])
    return float(np.broadcast_to(s.z2 if flags[1] else s.z1, (1, v))[0, i])


def _square(name: str, force: float, depth: float, lean: float) -> Push:
    """A force square to the board at a depth below its top edge; aft is positive."""
    f_x, f_z = _turned(force, 0.0, lean)
    return Push(name, (f_x, 0.0, f_z), _level(0.0, -depth, lean))


def _turned(x: float, z: float, lean: float) -> tuple[float, float]:
    """Board axes to level ones."""
    return x * math.cos(lean) + z * math.sin(lean), -x * math.sin(lean) + z * math.cos(lean)


def _level(x: float, z: float, lean: float) -> Triple:
    aft, up = _turned(x, z, lean)
    return aft, 0.0, up
