"""Words put where nothing else is: beside what they name, clear of holes and of each other."""

from collections.abc import Iterable, Iterator, Sequence
from itertools import chain, pairwise

from transom.drawing.shapes import Box, Label, Path, Shape, text_width

GAP = 2.0  # mm between a thing and its words
STROKE = 0.4  # mm that words keep off a line
RINGS = 6  # how many times further out a place is looked for


def block(lines: Sequence[str], x: float, y: float, size: float, anchor: str, bold: bool = False) -> tuple[Label, ...]:
    """Lines under each other about a middle height."""
    pitch = size * 1.25
    top = y + pitch * (len(lines) - 1) / 2
    return tuple(Label(x, top - i * pitch, words, size, anchor, bold=bold and i == 0) for i, words in enumerate(lines))


def beside(
    lines: Sequence[str], about: Box, size: float, taken: Sequence[Box], within: Box, bold: bool = False
) -> tuple[Label, ...]:
    """Lines beside a thing, at the first place that is clear of all that is taken; else at the least bad one."""
    best: tuple[int, tuple[Label, ...]] | None = None
    for x, y, anchor in _places(lines, about, size):
        labels = block(lines, x, y, size, anchor, bold)
        boxes = [label.box for label in labels]
        hits = sum(box.grown(0.6).meets(t) for box in boxes for t in taken)
        hits += sum(100 for box in boxes if not within.holds(box))
        if not hits:
            return labels
        if best is None or hits < best[0]:
            best = (hits, labels)
    return best[1] if best else ()


def _places(lines: Sequence[str], about: Box, size: float) -> Iterator[tuple[float, float, str]]:
    """Right, left, below, above, and the corners; then farther out."""
    x, y = (about.x_lo + about.x_hi) / 2, (about.y_lo + about.y_hi) / 2
    half = size * 1.25 * len(lines) / 2
    wide = max(text_width(w, size) for w in lines) / 2
    for n in range(RINGS):
        gap = GAP + n * size
        right, left, below, above = about.x_hi + gap, about.x_lo - gap, about.y_lo - gap - half, about.y_hi + gap + half
        yield from ((right, y, "start"), (left, y, "end"), (x, below, "middle"), (x, above, "middle"))
        yield from ((right, below, "start"), (left, below, "end"), (right, above, "start"), (left, above, "end"))
        yield from ((x + wide, below, "middle"), (x - wide, below, "middle"))


def named(
    wanted: Iterable[tuple[Sequence[str], Box]], size: float, taken: Sequence[Box], within: Box
) -> tuple[Label, ...]:
    """Words for many things, each clear of what came before."""
    found: list[tuple[Label, ...]] = []
    for lines, about in wanted:
        before = [*taken, *(label.box for label in chain.from_iterable(found))]
        found.append(beside(lines, about, size, before, within, bold=True))
    return tuple(chain.from_iterable(found))


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
