"""What the boat has to hold by the plate: its own forces along every line, and the bolts' shares in the plane.

One candidate, characteristic loads. Out of the plane each node of a line holds what the plate says; nothing is
closed up. In the plane every bolt takes its share by the elastic vector method. The board's own weight leans on the
bolts of the sides alike.
"""

import numpy as np

from transom.board.answer import Answer
from transom.checks.careful import Careful, wrenches_of
from transom.checks.edge_lines import edge_line
from transom.checks.frame_pull import LINES, bolt_places
from transom.checks.reactions import Reactions, reactions, with_weight
from transom.checks.trial import Trial
from transom.statics.bolt_group import bolt_group, direct_force
from transom.statics.wrench import board_actions
from transom.units import Array


def held(trial: Trial) -> Reactions:
    """Forces on the boat by the trial's own method."""
    return by_plate(trial) if isinstance(trial, Careful) else reactions(trial)


def by_plate(plate: Careful) -> Reactions:
    """Forces on the boat under the characteristic loads and the board's own weight, from the plate."""
    both, W, at_w = with_weight(plate)
    lines, places, pulls = _along_lines(plate)
    names, y, z = bolt_places(plate)
    shares = bolt_group(F_y=both[:, 1], F_z=both[:, 2], M_x=both[:, 3], y=y, z=z)
    sides = np.isin(names, LINES[:2])
    leaning = np.asarray(direct_force(W[0], float(sides.sum())))
    out = np.broadcast_to(np.where(sides, leaning, 0.0), shares.across.shape)
    nothing = np.zeros_like(pulls)
    force = np.concatenate(
        [np.stack([pulls, nothing, nothing], axis=-1), np.stack([out, shares.across, shares.up], axis=-1)], axis=1
    )
    at = np.concatenate([places, np.stack([y, z], axis=-1)])
    at = np.concatenate([np.full((len(at), 1), at_w[0]), at], axis=1)
    return Reactions((*lines, *names), at, force, W, at_w)


def _along_lines(plate: Careful) -> tuple[tuple[str, ...], Array, Array]:
    """Each node once, the line it lies on first; its place (k, 2) and the force aft on the boat (v, k)."""
    answer, seen = at_service(plate), set[tuple[float, float]]()
    names, places, pulls = [], [], []
    for name, line in zip(_names(plate), plate.lines, strict=True):
        found = edge_line(answer, line)
        for place, pull in zip(found.places, found.pull, strict=True):
            key = (round(float(place[0]), 6), round(float(place[1]), 6))
            if key not in seen:
                seen.add(key)
                names.append(name)
                places.append(place)
                pulls.append(pull)
    return tuple(names), np.array(places), np.array(pulls).T


def _names(plate: Careful) -> tuple[str, ...]:
    return LINES[: len(plate.lines)]


def at_service(plate: Careful) -> Answer:
    """The plate on its finest grid under the characteristic loads."""
    a = board_actions(plate.cases.wrench, plate.t)
    wrenches = wrenches_of(a, len(plate.cases))
    finest = plate.answer.seated[-1]
    return Answer((finest,), (finest.bear(wrenches, plate.cases.names, plate.answer.borne),))
