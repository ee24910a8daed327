"""Dimension lines: what is measured, between which two points, kept off the things drawn."""

from collections.abc import Iterable, Sequence

from transom.drawing.shapes import DIMENSION, EXTENSION, Arrow, Box, Label, Path, Point, Shape, text_width
from transom.frozen import dataclass

REACH = 1.5  # mm that an extension line runs past its dimension line
CLEAR = 1.5  # mm about a hole that no extension line enters


@dataclass(frozen=True)
class Style:
    """Size of the words and distance between dimension lines, mm."""

    text: float
    step: float

    @property
    def head(self) -> float:
        """Length of an arrow's head."""
        return self.text * 0.7


def across(x_1: float, x_2: float, from_1: float, from_2: float, y: float, words: str, style: Style,
           holes: Sequence[Box] = ()) -> tuple[Shape, ...]:  # fmt: skip
    """A level dimension at height y between two x, with extension lines from the heights where they are."""
    ends = (x_1, from_1), (x_2, from_2)
    beyond = REACH if y >= max(from_1, from_2) else -REACH
    lines = [part for x, start in ends for part in broken((x, start), (x, y + beyond), holes)]
    label = Label((x_1 + x_2) / 2, y, words, style.text)
    return (*lines, *_line((x_1, y), (x_2, y), label, style))


def up(y_1: float, y_2: float, from_1: float, from_2: float, x: float, words: str, style: Style,
       holes: Sequence[Box] = ()) -> tuple[Shape, ...]:  # fmt: skip
    """An upright dimension at x between two heights, with extension lines from where they are."""
    beyond = REACH if x >= max(from_1, from_2) else -REACH
    lines = [part for y, start in ((y_1, from_1), (y_2, from_2)) for part in broken((start, y), (x + beyond, y), holes)]
    label = Label(x, (y_1 + y_2) / 2, words, style.text, upright=True)
    return (*lines, *_line((x, y_1), (x, y_2), label, style))


def _line(a: Point, b: Point, label: Label, style: Style) -> tuple[Shape, ...]:
    """The line broken for its words; where they do not fit, arrows from outside and the words beyond the end."""
    room = abs(b[0] - a[0]) + abs(b[1] - a[1])
    wide = text_width(label.words, style.text) + 2.0
    level = a[1] == b[1]
    if wide + 2 * style.head < room:
        middle = (label.x, label.y)
        half = wide / 2
        one, other = _at(middle, -half, level), _at(middle, half, level)
        low, high = sorted((a, b))
        return Arrow(DIMENSION, one, low, head=style.head), Arrow(DIMENSION, other, high, head=style.head), label
    low, high = sorted((a, b))
    tail = 2.2 * style.head
    outside = _at(high, tail + 1.0 + wide / 2, level)
    moved = Label(*outside, label.words, label.size, upright=label.upright)
    return (
        Arrow(DIMENSION, _at(low, -tail, level), low, head=style.head),
        Arrow(DIMENSION, _at(high, tail, level), high, head=style.head),
        Path(DIMENSION, (low, high)),
        moved,
    )


def _at(p: Point, by: float, level: bool) -> Point:
    return (p[0] + by, p[1]) if level else (p[0], p[1] + by)


def broken(a: Point, b: Point, holes: Iterable[Box]) -> tuple[Path, ...]:
    """A level or upright line with gaps where it would cross a hole; it begins beside the hole it starts in."""
    level = a[1] == b[1]
    fixed = a[1] if level else a[0]
    start, end = (a[0], b[0]) if level else (a[1], b[1])
    low, high = min(start, end), max(start, end)
    gaps = sorted(_gap(box.grown(CLEAR), level) for box in holes if _crosses(box.grown(CLEAR), fixed, level))
    pieces, at = [], low
    for g_lo, g_hi in gaps:
        if g_hi <= low or g_lo >= high:
            continue
        if g_lo > at:
            pieces.append((at, g_lo))
        at = max(at, g_hi)
    if at < high:
        pieces.append((at, high))
    return tuple(Path(EXTENSION, _both(p, q, fixed, level)) for p, q in pieces if q - p > 0.5)


def off_words(shapes: Sequence[Shape]) -> tuple[Shape, ...]:
    """The same with extension lines broken where they would run through the words of another dimension."""
    words = [x.box for x in shapes if isinstance(x, Label)]
    out: list[Shape] = []
    for x in shapes:
        if isinstance(x, Path) and x.purpose == EXTENSION:
            out += broken(x.points[0], x.points[-1], words)
        else:
            out.append(x)
    return tuple(out)


def _gap(box: Box, level: bool) -> tuple[float, float]:
    return (box.x_lo, box.x_hi) if level else (box.y_lo, box.y_hi)


def _crosses(box: Box, fixed: float, level: bool) -> bool:
    return box.y_lo < fixed < box.y_hi if level else box.x_lo < fixed < box.x_hi


def _both(p: float, q: float, fixed: float, level: bool) -> tuple[Point, Point]:
    return ((p, fixed), (q, fixed)) if level else ((fixed, p), (fixed, q))
