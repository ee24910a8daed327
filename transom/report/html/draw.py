"""A free body as SVG: the side seen from port, and from above where something pushes sideways. Numbers, no words,
so that it reads at any size; the table beside it says what each number is."""

import math
from collections.abc import Callable, Iterable, Sequence

from transom.frozen import dataclass
from transom.report.html.body import TINY, Body, Push

Point = tuple[float, float]
ACROSS, MOST_HIGH = 240.0, 300.0  # points that the places of forces take at most
EDGE, FOOT = 14.0, 24.0  # points round everything drawn, and below it for which way is which
LEAST_ACROSS = 190.0
LONGEST, SHORTEST, HEAD, RADIUS = 70.0, 20.0, 9.0, 10.0
ROOM = 2 * RADIUS + 2  # between the middles of two numbers


@dataclass(frozen=True)
class View:
    """Two of the three axes on paper, `per_mm` points to a millimeter."""

    axes: Callable[[Sequence[float]], Point]
    per_mm: float

    def at(self, place: Sequence[float]) -> Point:
        """A place on paper, x to the right, y down, the datum at nought."""
        x, y = self.axes(place)
        return x * self.per_mm, y * self.per_mm


@dataclass(frozen=True)
class Arrow:
    """A numbered arrow on paper from tail to tip; its number stands at `label`."""

    number: int
    tail: Point
    tip: Point
    label: Point
    holds: bool

    @property
    def corners(self) -> tuple[Point, ...]:
        """What paper must hold: both ends, and the number with its ring."""
        x, y = self.label
        return self.tail, self.tip, (x - RADIUS, y - RADIUS), (x + RADIUS, y + RADIUS)


def from_port(p: Sequence[float]) -> Point:
    """Aft to the right, up is up."""
    return p[0], -p[2]


def from_above(p: Sequence[float]) -> Point:
    """Starboard to the right, forward is up."""
    return p[1], p[0]


def side(body: Body) -> str:
    """The board and every force, seen from port."""
    outline = _side_outline(body)
    return _drawing(body, from_port, outline, "Seen from port", ("aft", "forward"))


def above(body: Body, width: float) -> str:
    """The same from above, on a board `width` mm across."""
    half, t = width / 2, body.thickness
    outline = ((0.0, -half, 0.0), (0.0, half, 0.0), (-t, half, 0.0), (-t, -half, 0.0))
    return _drawing(body, from_above, outline, "Seen from above", ("starboard", "port"))


def _side_outline(body: Body) -> tuple[tuple[float, float, float], ...]:
    """Corners of the board in level axes, aft face first."""
    sin, cos = math.sin(body.lean), math.cos(body.lean)
    corners = ((0.0, 0.0), (0.0, -body.height), (-body.thickness, -body.height), (-body.thickness, 0.0))
    return tuple((x * cos + z * sin, 0.0, -x * sin + z * cos) for x, z in corners)


def _drawing(
    body: Body,
    axes: Callable[[Sequence[float]], Point],
    outline: Sequence[Sequence[float]],
    title: str,
    ends: tuple[str, str],
) -> str:
    spread = [axes(p) for p in (*outline, *(p.at for p in (*body.acts, *body.holds)))]
    view = View(axes, min(ACROSS / max(_range(spread, 0), 1.0), MOST_HIGH / max(_range(spread, 1), 1.0)))
    arrows = _arrows(view, body)
    left, top, wide, high = _box([*map(view.at, outline), *(p for a in arrows for p in a.corners)])
    parts = [
        f'<polygon class="wood" points="{_points(view.at(p) for p in outline)}"/>',
        *(f'<path class="reach" d="M{_pair(view.at((0.0, 0.0, 0.0)))} L{_pair(view.at(p.at))}"/>' for p in body.acts),
        *(part for a in arrows for part in _arrow(a)),
        f'<text x="{left + wide - 6:.1f}" y="{top + high - 8:.1f}" text-anchor="end">{ends[0]} &#8594;</text>',
        f'<text x="{left + 6:.1f}" y="{top + high - 8:.1f}">&#8592; {ends[1]}</text>',
    ]
    return (
        f'<svg class="body" viewBox="{left:.0f} {top:.0f} {wide:.0f} {high:.0f}" role="img" aria-label="{title}">'
        f"<title>{title}</title>{''.join(parts)}</svg>"
    )


def _range(places: Sequence[Point], axis: int) -> float:
    values = [p[axis] for p in places]
    return max(values) - min(values)


def _box(places: Sequence[Point]) -> tuple[float, float, float, float]:
    """Left, top, width and height of paper that holds all of them."""
    left, top = min(p[0] for p in places) - EDGE, min(p[1] for p in places) - EDGE
    wide, high = _range(places, 0) + 2 * EDGE, _range(places, 1) + 2 * EDGE + FOOT
    more = max(0.0, LEAST_ACROSS - wide)
    return left - more / 2, top, wide + more, high


def _arrows(view: View, body: Body) -> list[Arrow]:
    """Every force that shows in this view, numbered as in the table; numbers stand clear of each other."""
    pushes = (*body.acts, *body.holds)
    largest = max(p.size for p in pushes)
    out: list[Arrow] = []
    for n, p in enumerate(pushes, 1):
        x, y = view.axes(p.force)
        seen = math.hypot(x, y)
        if seen <= TINY * largest:
            continue
        along, length = (x / seen, y / seen), max(SHORTEST, LONGEST * seen / largest)
        tail, tip = _ends(view.at(p.at), along, length, p)
        free = tail if _comes_to(p) else tip
        out.append(Arrow(n, tail, tip, _clear(free, along, -1.0 if _comes_to(p) else 1.0, out), p.factor is None))
    return out


def _comes_to(p: Push) -> bool:
    """What bears on the bracket comes up to it; the rest sets out from its place."""
    return p.factor is None and p.name.startswith("bracket bears")


def _ends(at: Point, along: Point, length: float, p: Push) -> tuple[Point, Point]:
    other = (at[0] + length * along[0], at[1] + length * along[1])
    back = (at[0] - length * along[0], at[1] - length * along[1])
    return (back, at) if _comes_to(p) else (at, other)


def _clear(free: Point, along: Point, sense: float, others: Sequence[Arrow]) -> Point:
    """The place for a number beyond an arrow's free end, moved on along it past the numbers that stand there."""
    for step in range(40):
        d = sense * (RADIUS + 3 + step * ROOM / 2)
        place = (free[0] + d * along[0], free[1] + d * along[1])
        if all(math.dist(place, a.label) >= ROOM for a in others):
            return place
    return free


def _arrow(a: Arrow) -> tuple[str, ...]:
    angle = math.atan2(a.tip[1] - a.tail[1], a.tip[0] - a.tail[0])
    wings = [(a.tip[0] - HEAD * math.cos(angle + s), a.tip[1] - HEAD * math.sin(angle + s)) for s in (0.42, -0.42)]
    kind = "holds" if a.holds else "acts"
    return (
        f'<path class="{kind}" d="M{_pair(a.tail)} L{_pair(a.tip)}"/>',
        f'<polygon class="{kind}" points="{_points((a.tip, *wings))}"/>',
        f'<circle class="{kind}" cx="{a.label[0]:.1f}" cy="{a.label[1]:.1f}" r="{RADIUS:g}"/>',
        f'<text class="number" x="{a.label[0]:.1f}" y="{a.label[1] + 4.5:.1f}">{a.number}</text>',
    )


def _pair(p: Point) -> str:
    return f"{p[0]:.1f} {p[1]:.1f}"


def _points(places: Iterable[Point]) -> str:
    return " ".join(f"{x:.1f},{y:.1f}" for x, y in places)
