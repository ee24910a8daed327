"""Words put where nothing else is: beside what they name, clear of holes and of each other."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from transom.drawing.shapes import FLANGE, PAD, WASHER, Box, Label, Path, Shape, text_width
from transom.frozen import dataclass

GAP = 2.0  # mm between a thing and its words
STROKE = 0.4  # mm that words keep off a line
LIGHT = (WASHER, PAD, FLANGE)
HARD, OUTSIDE, FARTHER = 20.0, 200.0, 0.5  # against 1 for a light line crossed
RINGS = 6  # how many times further out a place is looked for


def block(lines: Sequence[str], x: float, y: float, size: float, anchor: str, bold: bool = False) -> tuple[Label, ...]:
    """Lines under each other about a middle height."""
    pitch = size * 1.25
    top = y + pitch * (len(lines) - 1) / 2
    return tuple(Label(x, top - i * pitch, words, size, anchor, bold=bold and i == 0) for i, words in enumerate(lines))


@dataclass(frozen=True)
class Taken:
    """Where words may not lie (`hard`), and light lines that they cross where there is no better place (`soft`)."""

    hard: tuple[Box, ...]
    soft: tuple[Box, ...] = ()

    @classmethod
    def by(cls, shapes: Iterable[Shape]) -> "Taken":
        """What shapes take."""
        listed = list(shapes)
        light = [x for x in listed if x.purpose in LIGHT and isinstance(x, Path)]
        return cls(tuple(obstacles(x for x in listed if x not in light)), tuple(obstacles(light)))

    def cost(self, boxes: Iterable[Box], within: Box) -> float:
        """How bad a place is: 0 where it is clear."""
        return sum(
            HARD * sum(b.grown(0.6).meets(t) for t in self.hard)
            + sum(b.grown(0.6).meets(t) for t in self.soft)
            + OUTSIDE * (not within.holds(b))
            for b in boxes
        )


def beside(
    lines: Sequence[str], about: Box, size: float, taken: Taken, within: Box, bold: bool = False
) -> tuple[Label, ...]:
    """Lines beside a thing, at the first place that is clear of all that is taken; else at the least bad one."""
    best: tuple[float, tuple[Label, ...]] | None = None
    for n, x, y, anchor in _places(lines, about, size):
        labels = block(lines, x, y, size, anchor, bold)
        cost = taken.cost([label.box for label in labels], within) + FARTHER * n
        if best is None or cost < best[0]:
            best = (cost, labels)
        if best[0] <= FARTHER * n:
            break
    return best[1] if best else ()


def _places(lines: Sequence[str], about: Box, size: float) -> Iterator[tuple[int, float, float, str]]:
    """Right, left, below, above, and the corners; then farther out, counted from 0."""
    x, y = (about.x_lo + about.x_hi) / 2, (about.y_lo + about.y_hi) / 2
    half = size * 1.25 * len(lines) / 2
    wide = max(text_width(w, size) for w in lines) / 2
    for n in range(RINGS):
        gap = GAP + n * size
        right, left, below, above = about.x_hi + gap, about.x_lo - gap, about.y_lo - gap - half, about.y_hi + gap + half
        near = [(right, y, "start"), (left, y, "end"), (x, below, "middle"), (x, above, "middle")]
        near += [(right, below, "start"), (left, below, "end"), (right, above, "start"), (left, above, "end")]
        near += [(x + wide, below, "middle"), (x - wide, below, "middle")]
        yield from ((n, *place) for place in near)


def named(wanted: Iterable[tuple[Sequence[str], Box]], size: float, taken: Taken, within: Box) -> tuple[Label, ...]:
    """Words for many things, each clear of what came before."""
    found: list[Label] = []
    for lines, about in wanted:
        before = replace(taken, hard=(*taken.hard, *(label.box for label in found)))
        found += beside(lines, about, size, before, within, bold=True)
    return tuple(found)


def obstacles(shapes: Iterable[Shape]) -> list[Box]:
    """What words keep off: circles, other words, and each stroke of a path."""
    found: list[Box] = []
    for shape in shapes:
        if isinstance(shape, Path):
            ends = (*shape.points, shape.points[0]) if shape.closed else shape.points
            found += [Path(shape.purpose, pair).box.grown(STROKE) for pair in pairwise(ends)]
        else:
            found.append(shape.box.grown(STROKE))
    return found


def free_spot(width: float, height: float, taken: Sequence[Box], within: Box, cells: int = 24) -> tuple[float, float]:
    """The middle of a clear place of this size, as near the middle of `within` as there is one; else left of it all."""
    room_x, room_y = within.width - width, within.height - height
    middle = (within.x_lo + within.x_hi) / 2, (within.y_lo + within.y_hi) / 2
    if room_x > 0 and room_y > 0:
        spots = [
            (within.x_lo + width / 2 + room_x * i / cells, within.y_lo + height / 2 + room_y * j / cells)
            for i in range(cells + 1)
            for j in range(cells + 1)
        ]
        for x, y in sorted(spots, key=lambda p: (abs(p[0] - middle[0]) + abs(p[1] - middle[1]), p)):
            box = Box(x - width / 2, y - height / 2, x + width / 2, y + height / 2)
            if not any(box.meets(t) for t in taken):
                return x, y
    left = min([within.x_lo, *(t.x_lo for t in taken)])
    return left - width / 2, middle[1]
