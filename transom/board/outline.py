"""What is cut out of a board, what lies beside it, and what the plate is worth at its inner corners.

At an inner corner of a cut the moments of any plate theory grow without end as the grid gets finer. Over a length
their mean does not, and no wood fails by a point: so within a thickness of a corner no moment counts for more than its
mean along the cut through the corner, a thickness long (average stress criterion, Whitney and Nuismer, Journal of
Composite Materials 8 (1974) 253; from memory. The length is a convention: nearer than that a board is no plate).
"""

from collections.abc import Iterable, Iterator, Sequence

import numpy as np

from transom.board.answer import Answer
from transom.board.grid import Bools, Grid, Rectangle
from transom.frozen import dataclass
from transom.units import Array

LEAST = 0.1  # mm; a patch smaller than this is a point


@dataclass(frozen=True)
class Corner:
    """An inner corner at (y, z) mm of something cut out; wood goes on beside it in the senses `outward` of y, `upward` of z."""

    y: float
    z: float
    outward: float
    upward: float

    def cuts(self, length: float) -> tuple[Rectangle, Rectangle]:
        """The upright and the level line from the corner into the wood, each so long."""
        y, z = self.y + self.outward * length, self.z + self.upward * length
        return (
            Rectangle(self.y, self.y, min(self.z, z), max(self.z, z)),
            Rectangle(min(self.y, y), max(self.y, y), self.z, self.z),
        )

    def near(self, grid: Grid, within: float, points: Sequence[tuple[float, float]]) -> Bools:
        """Nodes within a distance of the corner that lie nearer to it than to any of the points, (p+1, q+1)."""
        away = np.hypot(grid.y[:, None] - self.y, grid.z - self.z)
        others = (np.hypot(grid.y[:, None] - y, grid.z - z) for y, z in points)
        return np.asarray((away <= within) & grid.nodes & np.all([away < o for o in others], axis=0))


def notch(width: float, depth: float) -> tuple[Rectangle, ...]:
    """What a notch in the middle of the top edge takes, none where it has no size; the top edge is at z = 0."""
    return (Rectangle(-width / 2, width / 2, -depth, 0.0),) if width > 0 and depth > 0 else ()


def cut_corners(board: Rectangle, width: float, height: float, *, top: bool) -> tuple[Rectangle, ...]:
    """The rectangles about both top or both bottom corners of a board that are cut off, none where they have no size."""
    if not (width > 0 and height > 0):
        return ()
    z = (board.z_hi - height, board.z_hi) if top else (board.z_lo, board.z_lo + height)
    return Rectangle(board.y_lo, board.y_lo + width, *z), Rectangle(board.y_hi - width, board.y_hi, *z)


def square(y: float, z: float, side: float, board: Rectangle) -> Rectangle:
    """The square about a round opening, as far as it lies on the board."""
    return on_wood(Rectangle(y - side / 2, y + side / 2, z - side / 2, z + side / 2), board)


def corners(cut: Rectangle, board: Rectangle) -> Iterator[Corner]:
    """The inner corners of what is cut out: those that do not lie on an edge of the board."""
    for y, outward in ((cut.y_lo, -1.0), (cut.y_hi, 1.0)):
        for z, upward in ((cut.z_lo, -1.0), (cut.z_hi, 1.0)):
            if board.y_lo < y < board.y_hi and board.z_lo < z < board.z_hi:
                yield Corner(y, z, outward, upward)


def beside(r: Rectangle, cuts: Iterable[Rectangle]) -> tuple[Rectangle, ...]:
    """What of a rectangle lies on wood: to port and to starboard of each thing cut out, below and above it."""
    parts: tuple[Rectangle, ...] = (r,)
    for cut in cuts:
        parts = tuple(p for part in parts for p in _beside(part, cut))
    return parts


def _beside(r: Rectangle, cut: Rectangle) -> tuple[Rectangle, ...]:
    if r.y_hi <= cut.y_lo or r.y_lo >= cut.y_hi or r.z_hi <= cut.z_lo or r.z_lo >= cut.z_hi:
        return (r,)
    middle = max(r.y_lo, cut.y_lo), min(r.y_hi, cut.y_hi)
    parts = (
        Rectangle(r.y_lo, cut.y_lo, r.z_lo, r.z_hi), Rectangle(cut.y_hi, r.y_hi, r.z_lo, r.z_hi),
        Rectangle(*middle, r.z_lo, cut.z_lo), Rectangle(*middle, cut.z_hi, r.z_hi),
    )  # fmt: skip
    return tuple(p for p in parts if p.y_hi - p.y_lo > LEAST and p.z_hi - p.z_lo > LEAST)


def about(y: float, z: float, reach: tuple[float, float], board: Rectangle, cuts: Iterable[Rectangle]) -> Rectangle:
    """The rectangle about a point, as far as `reach` across and up, that lies on wood alike on both sides of it."""
    across = min(reach[0], board.y_hi - y, y - board.y_lo)
    up = min(reach[1], board.z_hi - z, z - board.z_lo)
    for cut in cuts:
        free_across, free_up = max(cut.y_lo - y, y - cut.y_hi), max(cut.z_lo - z, z - cut.z_hi)
        if free_across < across and free_up < up:
            # Out of the cut by the way that leaves more.
            if free_across * up > free_up * across:
                across = free_across
            else:
                up = free_up
    across, up = (v if v > LEAST else 0.0 for v in (across, up))
    return Rectangle(y - across, y + across, z - up, z + up)


def on_wood(r: Rectangle, board: Rectangle) -> Rectangle:
    """The part of a rectangle that lies on a board."""
    return Rectangle(max(r.y_lo, board.y_lo), min(r.y_hi, board.y_hi), max(r.z_lo, board.z_lo), min(r.z_hi, board.z_hi))


def relieved(answer: Answer, at: Iterable[Corner], t: float) -> tuple[Array, Array, Array]:
    """Moments M_1, M_2, M_12 of every node (p+1, q+1, v), inner corners by their mean over a thickness t, mm."""
    f = answer.fields
    moments = f.M_1, f.M_2, f.M_12
    places = list(at)
    if not places:
        return moments
    out = tuple(m.copy() for m in moments)
    bolts = [(b.y, b.z) for b in answer.seat.bolts]
    for corner in places:
        near = corner.near(answer.grid, t, bolts)
        for m, most in zip(out, _means(answer, corner, t, moments), strict=True):
            m[near] = np.clip(m[near], -most, most)
    return out[0], out[1], out[2]


def _means(answer: Answer, corner: Corner, t: float, moments: Sequence[Array]) -> Iterator[Array]:
    """Mean size of each moment over its cut through a corner, (v,): of the twist over the worse of both."""
    upright, level = corner.cuts(t)
    over = [[answer.mean(np.abs(m), line) for line in (upright, level)] for m in moments]
    yield over[0][0]
    yield over[1][1]
    yield np.maximum(*over[2])
