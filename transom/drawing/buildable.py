"""What cannot be built is refused, with the pair and the distance."""

from collections.abc import Iterator
from itertools import combinations, pairwise

from transom.catalogue import SHIPPED, Catalogue
from transom.drawing.distances import between_circles, between_rects, circle_to_edge, circle_to_rect, rect_to_edge
from transom.drawing.records import ENGINE, FRAME, OPENING, Circle, Drawing, Hole, Plate
from transom.quantity import show

TOUCH = 1e-6  # mm; below it two things only touch


def faults(d: Drawing, tables: Catalogue = SHIPPED) -> tuple[str, ...]:
    """One line for each pair that cannot be built as drawn: what, by how much, what to do. Empty where all can.

    Frame holes that are there already stand at assumed places, so that they raise doubts, not faults.
    """
    web = tables.factor("drawing.least_web_mm").value
    return tuple(f"[mount] {line}" for line in (*_holes(d, web), *_plates(d), *_bolt(d)))


def at(h: Hole) -> Circle:
    """The largest hole ever cut at a place."""
    return Circle(h.y, h.down, h.largest, name_of(h))


def name_of(h: Hole) -> str:
    """A hole as people say it."""
    opening = h.words if h.words.startswith("opening") else f"opening {h.words}"
    return {ENGINE: f"engine hole {h.name}", FRAME: f"frame hole {h.name}", OPENING: opening}[h.purpose]


def _holes(d: Drawing, web: float) -> Iterator[str]:
    """Holes in the edge, off the board or in each other; `web` of wood is the least left between."""
    units = d.identity.units
    sure = [h for h in d.holes if not h.kept]
    for h in sure:
        room = circle_to_edge(at(h), d.outline)
        if room < web - TOUCH:
            yield f"{_cut(h, units)} {_room(room, units, 'off the board or through its edge', 'to the board edge')}: {_cure(h)}"
    for a, b in combinations(sure, 2):
        room = between_circles(at(a), at(b))
        if room < web - TOUCH:
            what = f"{_cut(a, units)} and {_cut(b, units)}"
            yield f"{what} {_room(room, units, 'in each other', 'between them')}: move or shrink one"


def _cure(h: Hole) -> str:
    if h.purpose != FRAME:
        return "move it"
    return "the tool lays frame bolts evenly, so state another count in [frame.bolts]"


def _cut(h: Hole, units: str) -> str:
    return f"{name_of(h)} ({show.length(h.largest, units)} {'bore' if h.over_bore else 'hole'})"


def _room(room: float, units: str, inside: str, between: str) -> str:
    if room < 0:
        return f"{show.length(-room, units, towards='up')} {inside}"
    return f"leaves {show.length(room, units, towards='down')} of wood {between}"


def _plates(d: Drawing) -> Iterator[str]:
    units = d.identity.units
    for p in d.plates:
        over = rect_to_edge(p.rect, d.outline)
        if over < -TOUCH:
            edge = "edge or over its notch" if d.outline.notched else "edge or cut corner" if d.outline.cut else "edge"
            yield f"plate {p.name} reaches {_up(over, units)} past the board's {edge}: a smaller plate, or move the bolts"
        yield from _through(p, units)
        for k in (k for k in d.keep_outs if k.face == p.face):
            room = between_rects(p.rect, k.rect) if k.rect else circle_to_rect(k.circle or Circle(0, 0, 0), p.rect)
            if room < -TOUCH:
                what = k.what if k.rect else f"{k.what}, room for tools counted"
                yield f"plate {p.name} lies {_up(room, units)} over {what}: a smaller plate, or clear it"
    for a, b in combinations(d.plates, 2):
        room = between_rects(a.rect, b.rect)
        if a.face == b.face and room < -TOUCH:
            yield f"plates {a.name} and {b.name} lie {_up(room, units)} over each other: smaller plates, or one piece"


def _through(p: Plate, units: str) -> Iterator[str]:
    """Every bolt's hole lies whole in its plate."""
    for c in p.holes:
        r, half = p.rect, c.diameter / 2
        room = min(c.y - r.y_lo, r.y_hi - c.y, c.down - r.top, r.bottom - c.down) - half
        if room < -TOUCH:
            yield f"bolt {c.what} is {_up(room, units)} outside plate {p.name}: a larger plate"


def _up(negative: float, units: str) -> str:
    return show.length(-negative, units, towards="up")


def _bolt(d: Drawing) -> Iterator[str]:
    b, units = d.stack.bolt, d.identity.units
    if b is None:
        return
    if b.beyond < -TOUCH:
        yield f"bolt {b.name} x {show.length(b.length, units)} is {_up(b.beyond, units)} too short for its nut: a longer bolt"
    if b.shank > b.grip + TOUCH:
        yield (
            f"bolt {b.name} x {show.length(b.length, units)}: its plain shank runs {_up(b.grip - b.shank, units)} past the"
            " grip, so that the nut jams on it: a shorter bolt, or washers"
        )


def slices_meet(d: Drawing) -> bool:
    """True where the stack has neither gap nor overlap."""
    return all(abs(a.x_fore - b.x_aft) < TOUCH for a, b in pairwise(d.stack.slices))
