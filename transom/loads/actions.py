"""Actions on the mount and their sums: what acts in each case, characteristic, factored and apart.

An action is one force at one point (and a couple), in level axes from the datum; a situation is the actions
of v cases that differ only in numbers. Everything broadcasts to (v,), or to (n, v) where inputs are arrays.
"""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from transom.frozen import dataclass
from transom.loads.geometry import (
    moment_x,
    moment_y,
    moment_z,
    resultant_force,
    resultant_moment,
    scaled_couple,
    scaled_force,
)
from transom.statics.wrench import turned
from transom.units import Array, Value

Triple = tuple[Value, Value, Value]


@dataclass(frozen=True)
class Action:
    """A force (N) at a point (mm), a couple about x and y (N*mm), and the partial factor on them."""

    name: str
    force: Triple
    point: Triple
    gamma: Value
    couple: tuple[Value, Value] = (0.0, 0.0)

    @property
    def dead(self) -> bool:
        """True for plain weight, which an own case does not multiply."""
        return self.name.endswith("weight")

    @property
    def six(self) -> tuple[Value, ...]:
        """Force and moment about the datum, level axes."""
        (F_x, F_y, F_z), (x, y, z), (C_x, C_y) = self.force, self.point, self.couple
        moments = (
            moment_x(y, z, F_y, F_z, C_x),
            moment_y(x, z, F_x, F_z, C_y),
            moment_z(x, y, F_x, F_y),
        )
        return (F_x, F_y, F_z, *moments)


@dataclass(frozen=True)
class Situation:
    """The cases of one situation: their names, what acts, the factors as printed, and why an own case is."""

    of: str
    names: tuple[str, ...]
    duration: str
    actions: tuple[Action, ...]
    factor: Value
    weight_factor: Value
    reason: str = ""


@dataclass(frozen=True)
class Component:
    """One action of one case: its characteristic wrench (6,) or (n, 6) in board axes and its factor."""

    case: str
    action: str
    gamma: Value
    wrench: Array


def level_wrench(situation: Situation, factored: bool) -> Array:
    """Sum of the actions about the datum in level axes, (v, 6) or (n, v, 6)."""
    parts = [(*action.six, action.gamma if factored else 1.0) for action in situation.actions]
    shape = np.broadcast_shapes((len(situation.names),), *(np.shape(x) for part in parts for x in part))
    stack = np.empty((7, *shape, len(parts)))
    for a, part in enumerate(parts):
        for i, x in enumerate(part):
            stack[i, ..., a] = x
    gamma = stack[6]
    sums = (resultant_force(gamma, stack[:3]), resultant_moment(gamma, stack[3:6]))
    return np.moveaxis(np.concatenate(sums), 0, -1)


def per_case(value: Value, v: int) -> Array:
    """A value that broadcasts to v cases, with all v of them on its last axis."""
    return np.broadcast_to(value, np.broadcast_shapes(np.shape(value), (v,)))


def side_by_side(arrays: Sequence[Array], axis: int = -1) -> Array:
    """Join arrays along the axis of the cases (counted from the end), after making the leading ones agree."""
    lead = np.broadcast_shapes(*(a.shape[:axis] for a in arrays))
    return np.concatenate([np.broadcast_to(a, (*lead, *a.shape[axis:])) for a in arrays], axis=axis)


def like(
    situation: Situation, of: str, names: tuple[str, ...], cases: Sequence[int], times: float, reason: str
) -> Situation:
    """Some cases of a situation again, with thrust and inertia `times` as large; dead weight stays."""
    v, index = len(situation.names), list(cases)

    def pick(value: Value) -> Array:
        return per_case(value, v)[..., index]

    def again(action: Action) -> Action:
        k = 1.0 if action.dead else times
        F_x, F_y, F_z = (scaled_force(k, pick(f)) for f in action.force)
        C_x, C_y = (scaled_couple(k, pick(c)) for c in action.couple)
        x, y, z = (pick(p) for p in action.point)
        return Action(action.name, (F_x, F_y, F_z), (x, y, z), pick(action.gamma), (C_x, C_y))

    return Situation(
        of, names, situation.duration, tuple(again(a) for a in situation.actions),
        pick(situation.factor), pick(situation.weight_factor), reason,
    )  # fmt: skip


def components_of(situation: Situation, lean: Value) -> tuple[Component, ...]:
    """Each action of each case apart: their wrenches add up to the case's."""
    v = len(situation.names)
    found = []
    for action in situation.actions:
        alone = replace(situation, actions=(action,))
        wrench = turned(level_wrench(alone, factored=False), lean)
        gamma = per_case(action.gamma, v)
        found += [
            Component(name, action.name, gamma[..., i], wrench[..., i, :]) for i, name in enumerate(situation.names)
        ]
    return tuple(sorted(found, key=lambda c: situation.names.index(c.case)))
