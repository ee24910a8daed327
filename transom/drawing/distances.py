"""Room between round and square things on the board, mm; negative where they overlap."""

import math

from transom.drawing.records import Circle, Cut, Outline, Rect


def between_circles(a: Circle, b: Circle) -> float:
    """From rim to rim."""
    return math.hypot(a.y - b.y, a.down - b.down) - (a.diameter + b.diameter) / 2


def circle_to_rect(c: Circle, r: Rect) -> float:
    """From the rim of a circle to a rectangle (its corners taken square); its middle inside counts as overlap."""
    dy = max(r.y_lo - c.y, c.y - r.y_hi)
    dz = max(r.top - c.down, c.down - r.bottom)
    if dy <= 0 and dz <= 0:
        return max(dy, dz) - c.diameter / 2
    return math.hypot(max(dy, 0.0), max(dz, 0.0)) - c.diameter / 2


def between_rects(a: Rect, b: Rect) -> float:
    """Between two rectangles; where they overlap, the least that one must move."""
    dy = max(a.y_lo - b.y_hi, b.y_lo - a.y_hi)
    dz = max(a.top - b.bottom, b.top - a.bottom)
    if dy < 0 and dz < 0:
        return max(dy, dz)
    return math.hypot(max(dy, 0.0), max(dz, 0.0))


def notch_of(o: Outline) -> Rect | None:
    """What is cut out of the top edge; it reaches up past the edge, so that only its sides and floor count."""
    if not o.notched:
        return None
    return Rect(-o.notch_width / 2, o.notch_width / 2, -o.height, o.notch_depth)


def point_to_cuts(y: float, down: float, o: Outline) -> float:
    """Wood left between a point and the nearest cut corner, as it is cut; infinite where none is."""
    found = (_to_cut(o.width / 2 - abs(y), z, cut) for z, cut in ((down, o.top), (o.height - down, o.bottom)) if cut)
    return min(found, default=math.inf)


def _to_cut(aside: float, away: float, cut: Cut) -> float:
    """The same of one corner, from a point so far in from its side and its edge."""
    w, h = cut.width, cut.height
    if cut.shape == "straight":
        return (aside / w + away / h - 1.0) * w * h / math.hypot(w, h)
    if cut.shape == "round":
        return w - math.hypot(w - aside, h - away) if aside < w and away < h else math.inf
    dy, dz = aside - w, away - h
    return math.hypot(max(dy, 0.0), max(dz, 0.0)) if dy > 0 or dz > 0 else max(dy, dz)


def circle_to_edge(c: Circle, o: Outline) -> float:
    """Wood left between a hole's rim and the nearest edge; negative where it breaks out or lies off the board."""
    room = min(o.width / 2 - abs(c.y), c.down, o.height - c.down, point_to_cuts(c.y, c.down, o)) - c.diameter / 2
    notch = notch_of(o)
    return room if notch is None else min(room, circle_to_rect(c, notch))


def rect_to_edge(r: Rect, o: Outline) -> float:
    """Board left outside a rectangle on it; negative by how far it reaches past an edge, a cut corner or over the notch."""
    room = min(o.width / 2 + r.y_lo, o.width / 2 - r.y_hi, r.top, o.height - r.bottom)
    for y in (r.y_lo, r.y_hi):
        room = min(room, *(point_to_cuts(y, down, o) for down in (r.top, r.bottom)))
    notch = notch_of(o)
    return room if notch is None else min(room, between_rects(r, notch))
