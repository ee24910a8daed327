"""The share of the limit as a small map of digits, for any terminal."""

from collections.abc import Iterator

import numpy as np

from transom.judge.records import Judgement
from transom.report.maps import board
from transom.report.text import block, rule

ACROSS = 60
TALL = 2.0  # a character is about twice as tall as wide


def plain_map(j: Judgement) -> Iterator[str]:
    """Rows of digits: tens of percent of the limit; # is over it, o an engine bolt."""
    plate = j.careful
    if plate is None:
        return
    grid = plate.answer.grid
    w, h = grid.y[-1] - grid.y[0], grid.z[-1] - grid.z[0]
    up = max(4, round(ACROSS * h / w / TALL))
    r = board.raster(plate, board.share_of_limit(plate), ACROSS, up)
    rows = [[_digit(v) for v in column] for column in r.values.T]
    for f in board.fasteners(plate, 0):
        i = int(np.clip(np.searchsorted(r.y, f.y) - 1, 0, ACROSS - 1))
        k = int(np.clip(np.searchsorted(r.z, f.z) - 1, 0, up - 1))
        rows[k][i] = "o"
    yield rule("=")
    yield from block(
        "",
        "SHARE OF THE LIMIT over the board from aft, bending and twist, worst case of each point, holes not taken out:"
        " 0 is 0 to 10 %, 9 is 90 to 100 %, # over it, o a bolt (--maps DIR draws it)",
        at=0,
    )
    yield f"   port {'top edge':^{ACROSS - 15}} starboard"
    for row in reversed(rows):
        yield f"   {''.join(row)}"


def _digit(share: float) -> str:
    if np.isnan(share):
        return " "
    return "#" if share > 1.0 else str(min(9, int(10 * share)))
