"""What a template must measure once its pages are taped together, and by how much it may be out."""

import math
from collections.abc import Iterator
from itertools import combinations

from transom.drawing.records import ENGINE, Drawing
from transom.frozen import dataclass
from transom.quantity import show
from transom.report.words import spelled

# mm: what a careful person tapes and reads; a page printed to fit is out by ten times as much.
LENGTH_OUT = {"us": 25.4 / 32, "si": 1.0}
DIAGONALS_APART = {"us": 25.4 / 16, "si": 1.5}


@dataclass(frozen=True)
class Length:
    """A length to measure between two marks."""

    words: str
    mm: float


def board_lengths(d: Drawing) -> tuple[Length, ...]:
    """The board's edges and its two diagonals, corner to corner; between the cuts where corners are cut off."""
    o = d.outline
    diagonal = math.hypot(o.top_half + o.bottom_half, o.height)
    ends = "end of edge to end of edge" if o.cut else "corner to corner"
    level = ", ends of the top and bottom edges" if o.cut else ""
    return (
        Length(f"bottom edge, {ends}", 2 * o.bottom_half),
        Length(f"port edge, {ends}", o.side),
        Length(f"starboard edge, {ends}", o.side),
        Length(f"diagonal, top port to bottom starboard{level}", diagonal),
        Length(f"diagonal, top starboard to bottom port{level}", diagonal),
    )


def hole_lengths(d: Drawing) -> tuple[Length, ...]:
    """Engine holes, each to each, middle to middle, and the top edge to each of the upper ones."""
    engine = d.of(ENGINE)
    pairs = [
        Length(f"{a.name} to {b.name}", math.hypot(a.y - b.y, a.down - b.down)) for a, b in combinations(engine, 2)
    ]
    top = min((h.down for h in engine), default=0.0)
    return (*(Length(f"top edge to {h.name}", h.down) for h in engine if abs(h.down - top) < 0.05), *pairs)


def check_words(d: Drawing, holes_only: bool) -> Iterator[str]:
    """The lengths and what is accepted, a line each."""
    units = d.identity.units
    lengths = hole_lengths(d) if holes_only else (*board_lengths(d), *hole_lengths(d))
    yield from (f"{x.words}: {shown(x.mm, units)}" for x in lengths)
    out = show.length(LENGTH_OUT[units], units, step="1/32")
    apart = show.length(DIAGONALS_APART[units], units, step="1/32")
    pair = "A to D and B to C" if holes_only else "the two diagonals"
    yield spelled(
        f"Accept: each within {out}, and {pair} alike within {apart}. Else: wrong print size, or taped askew.", units
    )


def shown(mm: float, units: str) -> str:
    """A length to 1/32 in or half a millimeter."""
    return show.length(mm, units, step="1/32", step_mm="0.5")
