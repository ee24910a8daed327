"""Forces of bolts and pads where the board's edge may lift between the frame's bolts; how many times more, `lifting` finds."""

from typing import TYPE_CHECKING

import numpy as np

from transom.board.answer import Answer
from transom.formula import formula
from transom.units import ONE, Array, N

if TYPE_CHECKING:
    from transom.checks.careful import Careful


@formula(
    symbol="F k", source="plate on flanges that push and bolts that hold", evidence="convention", known_by="derived"
)
def force_where_it_lifts(F: N, k: ONE) -> N:
    """Pull of a bolt or push of a pad with the edge free to lift between the frame's bolts."""
    return F * k


def lifted(plate: "Careful", times: str, F: Array) -> Array:
    """Forces (k, v) of upper bolts (`times` k_u), lower bolts (k_o) or pads (k_p); as they are in a quick look."""
    if not plate.two_grids:
        return F
    from transom.checks.board import times_more_of  # that module reads these forces

    return np.asarray(force_where_it_lifts(F, times_more_of(plate)[times]))


def held_pads(a: Answer) -> Array:
    """Push of each pad as lines hold the board, N, (2, v): with softer and stiffer wood too."""
    port = a.seat.middles[0] < 0.0
    each = (b.pads for b in (a.borne, *a.bounds))
    return np.asarray(np.max([np.stack([p[port].sum(axis=0), p[~port].sum(axis=0)]) for p in each], axis=0))
