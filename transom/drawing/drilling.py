"""What is drilled in which order, how far a hole may be off, how near it is to edges and neighbors, what the tape must read.

All numbers, mm; `transom.drawing.bench` puts them in words.
"""

import math
from collections.abc import Iterator, Sequence

from transom.drawing.distances import circle_to_edge
from transom.drawing.records import ENGINE, FRAME, OPENING, Circle, Drawing, Hole, Outline, Plate
from transom.frozen import dataclass
from transom.result import Check

PILOT = {"us": 25.4 / 8, "si": 3.0}
WALL_SHARE = 3.0  # an over-bore off by a third of its epoxy wall leaves two thirds
PILOTS, BORES, FILL, FINALS, PLATES, OPENINGS, MARKED = "pilot", "bore", "fill", "final", "plates", "openings", "marked"


@dataclass(frozen=True)
class Step:
    """One bit in the chuck, or the filling between two. `off` is how far a middle may be from its mark; 0: as it falls."""

    kind: str
    diameter: float
    holes: tuple[str, ...]
    off: float = 0.0


@dataclass(frozen=True)
class Room:
    """How near a hole's middle is to the board's edge and to the next hole of its kind, and how near it may be.

    `least_edge` and `least_next` are what the checks ask; 0 where they ask nothing. `next` is "" where it stands alone.
    """

    hole: Hole
    edge: float
    least_edge: float
    next: str
    apart: float
    least_next: float

    @property
    def holds(self) -> bool:
        """True where neither is nearer than it may be."""
        return self.edge >= self.least_edge - NEAR and (not self.next or self.apart >= self.least_next - NEAR)


@dataclass(frozen=True)
class Taped:
    """A hole's middle from the two ends of the board's top edge."""

    hole: str
    port: float
    starboard: float


NEAR = 1e-6
LEAST = {
    ENGINE: (("engine-bolts", "edge-distance"), ("engine-bolts", "bolt-spacing")),
    FRAME: (("frame", "hole-to-board-edge"), ("frame", "spacing")),
}


def steps(d: Drawing) -> Iterator[Step]:
    """Bits in the order they go in the chuck: what is glued later comes before what is drilled through the glue."""
    own = [h for h in d.holes if not h.kept]
    if own:
        yield Step(PILOTS, PILOT[d.identity.units], tuple(h.name for h in own))
    bored = [h for h in own if h.over_bore]
    yield from _by_size(BORES, [(h, h.over_bore, (h.over_bore - h.final) / 2 / WALL_SHARE) for h in bored])
    yield from _by_size(OPENINGS, [(h, h.final, 0.0) for h in own if h.purpose == OPENING])
    if bored:
        yield Step(FILL, 0.0, tuple(h.name for h in bored))
    engine = [h for h in own if h.purpose == ENGINE]
    yield from _by_size(FINALS, [(h, h.final, slack(h)) for h in engine])
    yield from _by_size(PLATES, [(c, c.diameter, 0.0) for p in d.plates for c in p.holes])
    yield from _by_size(FINALS, [(h, h.final, slack(h)) for h in own if h.purpose == FRAME])
    yield from _by_size(MARKED, [(h, h.final, 0.0) for h in d.holes if h.kept])


def slack(h: Hole) -> float:
    """How far a hole may be off and still take its bolt: half of what it is larger."""
    return max((h.final - h.bolt) / 2, 0.0)


def _by_size(kind: str, found: Sequence[tuple[Hole | Circle, float, float]]) -> Iterator[Step]:
    """One step for each diameter, smallest first."""
    for diameter in sorted({round(size, 6) for _, size, _ in found}):
        same = [(h, off) for h, size, off in found if round(size, 6) == diameter]
        names = dict.fromkeys(h.name if isinstance(h, Hole) else h.what for h, _ in same)
        yield Step(kind, diameter, tuple(names), min(off for _, off in same))


def rooms(d: Drawing, checks: Sequence[Check]) -> tuple[Room, ...]:
    """Edge and neighbor of every hole but those already in the frame, whose places are only assumed."""
    return tuple(_room(h, d, checks) for h in d.holes if not h.kept)


def _room(h: Hole, d: Drawing, checks: Sequence[Check]) -> Room:
    edge, spacing = (least_of(checks, *names) for names in LEAST.get(h.purpose, ((), ())))
    others = [(math.hypot(o.y - h.y, o.down - h.down), o.name) for o in d.of(h.purpose) if o is not h]
    apart, name = min(others, default=(math.inf, ""))
    return Room(h, to_edge(h, d.outline), edge, name, apart, spacing)


def least_of(checks: Sequence[Check], part: str = "", what: str = "") -> float:
    """What a check asks for at least; 0 where there is no such check."""
    return max((c.demand for c in checks if (c.part, c.what) == (part, what)), default=0.0)


def to_edge(h: Hole, o: Outline) -> float:
    """From a hole's middle to the nearest edge, the notch's too."""
    return circle_to_edge(Circle(h.y, h.down, 0.0), o)


def plate_rooms(p: Plate) -> tuple[float, float]:
    """Nearest edge to a hole's middle in a plate, and the two holes nearest to each other; infinite where there is one."""
    r = p.rect
    edge = min(min(c.y - r.y_lo, r.y_hi - c.y, c.down - r.top, r.bottom - c.down) for c in p.holes)
    pairs = (math.hypot(a.y - b.y, a.down - b.down) for i, a in enumerate(p.holes) for b in p.holes[i + 1 :])
    return edge, min(pairs, default=math.inf)


def taped(d: Drawing) -> tuple[Taped, ...]:
    """Each engine hole and opening from both ends of the top edge, its corners where none is cut off; of a pair, one to port is the other to starboard."""
    half = d.outline.top_half
    return tuple(
        Taped(h.name, math.hypot(h.y + half, h.down), math.hypot(h.y - half, h.down))
        for h in d.holes
        if h.purpose in (ENGINE, OPENING)
    )


def diagonals(d: Drawing) -> tuple[tuple[str, float], ...]:
    """The board's two diagonals, and those of the engine's pattern where it is two rows of two."""
    board = math.hypot(d.outline.top_half + d.outline.bottom_half, d.outline.height)
    ends = "end of the top edge to end of the bottom edge" if d.outline.cut else "corner to corner"
    found = [(f"board, {ends}, both ways", board)]
    rows = sorted({round(h.down, 1) for h in d.of(ENGINE)})
    pairs = [sorted((h for h in d.of(ENGINE) if round(h.down, 1) == row), key=lambda h: h.y) for row in rows]
    if [len(pair) for pair in pairs] == [2, 2]:
        (a, b), (c, e) = pairs
        for one, other in ((a, e), (b, c)):
            found.append((f"{one.name} to {other.name}", math.hypot(one.y - other.y, one.down - other.down)))
    return tuple(found)
