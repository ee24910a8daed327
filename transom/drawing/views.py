"""The board's faces, its layers and its plates as views, full size, for the writers."""

from collections.abc import Iterable, Iterator, Sequence

from transom.drawing import shapes as s
from transom.drawing.labels import Taken, free_spot, named, obstacles
from transom.drawing.records import AFT, ENGINE, FORWARD, FRAME, OPENING, Drawing, Hole, Plate, Rect
from transom.drawing.words import hole_lines, layer_words, plate_place, plate_size, short, size
from transom.frozen import dataclass
from transom.report.words import plural, spelled

TEXT = 5.0  # mm, read at arm's length
AROUND = 8.0  # mm of paper kept round the board


@dataclass(frozen=True)
class Face:
    """Places on the page of places on the board; the forward face is seen from forward, port on the right."""

    name: str

    @property
    def mirrored(self) -> bool:
        """True where starboard is on the left."""
        return self.name == FORWARD

    def at(self, y: float, down: float) -> s.Point:
        """A point."""
        return (-y if self.mirrored else y), -down

    def box(self, r: Rect) -> s.Box:
        """A rectangle."""
        lo, hi = (-r.y_hi, -r.y_lo) if self.mirrored else (r.y_lo, r.y_hi)
        return s.Box(lo, -r.bottom, hi, -r.top)

    def rect(self, purpose: str, r: Rect) -> s.Path:
        """A rectangle's path."""
        return s.rectangle(purpose, self.box(r), r.radius)

    def ring(self, purpose: str, y: float, down: float, diameter: float) -> s.Ring:
        """A circle."""
        return s.Ring(purpose, *self.at(y, down), diameter)


def edges(d: Drawing, face: Face, beyond: float = 3.0) -> Iterator[s.Shape]:
    """Outline, top edge and center line."""
    yield s.Path(s.OUTLINE, tuple(face.at(*c) for c in d.outline.corners), closed=True)
    half = d.outline.top_half
    if d.outline.notched:
        n = d.outline.notch_width / 2
        yield s.Path(s.TOP_EDGE, (face.at(-half, 0), face.at(-n, 0)))
        yield s.Path(s.TOP_EDGE, (face.at(n, 0), face.at(half, 0)))
    else:
        yield s.Path(s.TOP_EDGE, (face.at(-half, 0), face.at(half, 0)))
    yield s.Path(s.CENTER, ((0.0, beyond), (0.0, -d.outline.height - beyond)))


def hole_shapes(h: Hole, face: Face) -> Iterator[s.Shape]:
    """A hole's circles and the cross at its middle."""
    x, y = face.at(h.y, h.down)
    if h.purpose == ENGINE:
        yield from (s.Ring(s.BORE, x, y, h.over_bore), s.Ring(s.DRILL, x, y, h.final))
    else:
        new = s.OPENING_HOLE if h.purpose == OPENING else s.FRAME_NEW
        yield s.Ring(s.FRAME_KEPT if h.kept else new, x, y, h.final)
    yield from s.cross(s.MARK, x, y, h.largest / 2 + 2.0)


def on_face(d: Drawing, face: Face) -> Iterator[s.Shape]:
    """What lies on a face: pads aft, flanges and keep-outs inside, plates and washers on either."""
    if face.name == AFT:
        yield from (face.rect(s.PAD, p.rect) for p in d.pads)
    for k in (k for k in d.keep_outs if k.face == face.name):
        if k.rect is not None:
            yield face.rect(s.FLANGE, k.rect)
        if k.circle is not None:
            yield face.ring(s.KEEP_OUT, k.circle.y, k.circle.down, k.circle.diameter)
    yield from (face.rect(s.PLATE, p.rect) for p in d.plates if p.face == face.name)
    for w in (w for w in d.washers if w.face == face.name):
        yield face.rect(s.WASHER, w.rect) if w.square else face.ring(s.WASHER, w.y, w.down, w.outside)


def face_shapes(d: Drawing, name: str) -> tuple[s.Shape, ...]:
    """Everything of a face but its words."""
    face = Face(name)
    holes = (shape for h in d.holes for shape in hole_shapes(h, face))
    return (*on_face(d, face), *edges(d, face), *holes)


def face_view(d: Drawing, name: str, text: float = TEXT) -> s.Scene:
    """A face with names on what is there, which way is up, and on the aft face the grain of the first layer."""
    face, shapes = Face(name), face_shapes(d, name)
    within = face.box(d.outline.rect).grown(AROUND + text * 3)
    mark = sign(d, name, text, shapes, face.box(d.outline.rect))
    words = named(names(d, face, text), text, Taken.by((*shapes, *mark)), within)
    all_of_it = (*shapes, *mark, *words)
    seen = "seen from aft" if name == AFT else "seen from inside, looking aft"
    return s.Scene(f"{name.upper()} FACE, {seen}", all_of_it, s.around(all_of_it).grown(2.0))


def names(d: Drawing, face: Face, text: float, brief: bool = False) -> Iterator[tuple[Sequence[str], s.Box]]:
    """What is named, holes first, and where it is; `brief` leaves the frame's drill to the legend."""
    units = d.identity.units
    for h in d.holes:
        # What the aft face says of the engine's holes need not be said again.
        known = (face.mirrored and h.purpose == ENGINE) or (brief and h.purpose == FRAME)
        lines = hole_lines(h, units)[: 1 if known else None]
        yield lines, face.ring(s.DRILL, h.y, h.down, h.largest).box
    for p in (p for p in d.plates if p.face == face.name):
        lines = (f"plate {p.name}", plate_size(p, units), plate_place(p, units))
        yield lines, _inside(face.box(p.rect), lines, text)
    for k in (k for k in d.keep_outs if k.face == face.name and k.circle is not None):
        assert k.circle is not None
        yield (
            (f"KEEP CLEAR: {short(k.what, 28)}",),
            face.ring(s.KEEP_OUT, k.circle.y, k.circle.down, k.circle.diameter).box,
        )


def _inside(box: s.Box, lines: Sequence[str], text: float) -> s.Box:
    """The middle of a thing with room for words in it, else all of it, so that they go beside it."""
    if box.height < 6 * text or box.width < 3 * max(s.text_width(w, text) for w in lines):
        return box
    x, y = (box.x_lo + box.x_hi) / 2, (box.y_lo + box.y_hi) / 2
    return s.Box(x, y, x, y)


def sign(d: Drawing, name: str, text: float, shapes: tuple[s.Shape, ...], within: s.Box) -> tuple[s.Shape, ...]:
    """Which face this is, UP, port and starboard, and the way of the grain, where nothing else lies."""
    title = f"{name.upper()} FACE"
    wide, high = s.text_width(title, text) + 1.5 * text, 8.0 * text
    x, y = free_spot(wide, high, obstacles(shapes), within)
    left, top = x - wide / 2 + 0.75 * text, y + high / 2 - text
    return (
        s.Label(left, top, title, text, "start", bold=True),
        *_grain(d.layers[0 if name == AFT else -1].grain, left + 1.2 * text, top - 2.3 * text, text),
        s.Label(left + 3.2 * text, top - 2.3 * text, "grain", text, "start"),
        s.Arrow(s.GRAIN, (left + 1.2 * text, top - 6.4 * text), (left + 1.2 * text, top - 4.2 * text), head=text),
        s.Label(left + 3.2 * text, top - 5.3 * text, "UP", text, "start"),
    )


def _grain(way: str, x: float, y: float, text: float) -> tuple[s.Arrow]:
    """The way of the face grain: sideways or up the board."""
    reach = 1.2 * text
    ends = ((x - reach, y), (x + reach, y)) if way == "across" else ((x, y - reach), (x, y + reach))
    return (s.Arrow(s.GRAIN, *ends, both=True, head=0.8 * text),)


def layers_view(d: Drawing, text: float = TEXT) -> s.Scene:
    """The outline that every layer is cut to, with the sheet and the grain of each.

    Holes are bored through the glued board, so that none is drawn.
    """
    face, o = Face(AFT), d.outline
    first = (
        "LAYER 1, the only one"
        if len(d.layers) == 1
        else f"LAYERS 1 TO {len(d.layers)}, aft face first, all cut to this outline"
    )
    lines = [first, *(f"{p.number}: {layer_words(p, d.identity.units)}" for p in d.layers)]
    top = -o.height / 2 + (len(lines) - 1) * 0.8 * text
    words = [s.Label(4 * text, top - i * 1.6 * text, w, text, "start", bold=not i) for i, w in enumerate(lines)]
    arrows = [
        arrow
        for i, p in enumerate(d.layers, 1)
        for arrow in _grain(p.grain, 2.0 * text, top - i * 1.6 * text, 0.55 * text)
    ]
    shapes = (*edges(d, face), *arrows, *words)
    return s.Scene("LAYERS, seen from aft", shapes, s.around(shapes).grown(2.0))


@dataclass(frozen=True)
class PlateKind:
    """Plates that are cut alike: one of them, and all their names."""

    one: Plate
    names: tuple[str, ...]


def plate_kinds(plates: Iterable[Plate]) -> list[PlateKind]:
    """Plates alike in metal, size and holes."""
    found: dict[object, list[Plate]] = {}
    for p in plates:
        y, down = p.rect.middle
        holes = tuple((round(c.y - y, 3), round(c.down - down, 3), round(c.diameter, 3)) for c in p.holes)
        key = (p.metal, p.thickness, round(p.rect.width, 3), round(p.rect.height, 3), p.face, holes)
        found.setdefault(key, []).append(p)
    return [PlateKind(group[0], tuple(p.name for p in group)) for group in found.values()]


def plate_view(d: Drawing, kind: PlateKind, text: float = TEXT) -> s.Scene:
    """A plate full size, as it lies seen from aft, its holes and their names."""
    p, face = kind.one, Face(AFT)
    box = face.box(p.rect)
    x, y = (box.x_lo + box.x_hi) / 2, (box.y_lo + box.y_hi) / 2
    shapes: list[s.Shape] = [face.rect(s.PLATE, p.rect)]
    shapes += s.cross(s.MARK, x, y, 6.0)
    for c in p.holes:
        shapes.append(face.ring(s.PLATE_HOLE, c.y, c.down, c.diameter))
        shapes += s.cross(s.MARK, *face.at(c.y, c.down), c.diameter / 2 + 2.0)
    title = f"PLATE {', '.join(kind.names)}: make {len(kind.names)}"
    units = d.identity.units
    drilled = f"{plural(len(p.holes), 'hole')} {size(p.holes[0].diameter, units)}" if p.holes else "no hole"
    corners = f"corners rounded {size(p.rect.radius, units)}, {drilled}"
    lines = (title, plate_size(p, units), spelled(p.title, units), corners)
    below = box.y_lo - 2.0 * text
    left = min(box.x_lo, x - max(s.text_width(w, text) for w in lines) / 2)
    shapes += [s.Label(left, below - i * 1.5 * text, w, text, "start", bold=not i) for i, w in enumerate(lines)]
    return s.Scene(title, tuple(shapes), s.around(tuple(shapes)).grown(3.0))


def holes_view(d: Drawing, text: float = TEXT) -> s.Scene:
    """Center line, top edge and holes alone, for a board whose outline is the old one's."""
    face = Face(AFT)
    holes = d.of(ENGINE)
    shapes: list[s.Shape] = [shape for h in holes for shape in hole_shapes(h, face)]
    rings = s.around(tuple(shapes))
    lo, hi = min(rings.x_lo, -10.0), max(rings.x_hi, 10.0)
    shapes += [s.Path(s.TOP_EDGE, ((lo, 0.0), (hi, 0.0))), s.Path(s.CENTER, ((0.0, 0.0), (0.0, rings.y_lo)))]
    box = s.Box(lo, rings.y_lo, hi, 0.0)
    top = s.Label(0.0 + 2 * text, -1.2 * text, "TOP EDGE of the board", text, "start")
    middle = s.Label(-15.0, rings.y_lo / 2, "CENTER LINE", text, upright=True)
    taken = Taken.by((*shapes, top, middle))
    wanted = [(hole_lines(h, d.identity.units), face.ring(s.BORE, h.y, h.down, h.largest).box) for h in holes]
    words = named(wanted, text, taken, box)
    return s.Scene("HOLES, seen from aft", (*shapes, top, middle, *words), box.grown(0.3))
