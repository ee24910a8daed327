"""The board and its plates as a cut file: DXF R2010 in millimeters, one layer for each purpose, nominal size."""

import io
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from transom.drawing import notes
from transom.drawing.no_fonts import without_fonts
from transom.drawing.records import ASSUMED, ENGINE, FRAME, OPENING, Circle, Drawing, Hole, Plate, Rect
from transom.drawing.views import plate_kinds
from transom.drawing.words import hole_lines, layer_words, plate_size
from transom.frozen import dataclass
from transom.report.text import clean
from transom.report.words import plural, spelled

TEXT = 5.0  # mm
GAP = 40.0  # mm between board, plates and notes
LONGEST = 240  # characters of a line; readers of the format differ in what they take
# tan(90 deg / 4): a bulge of a quarter circle, going with the clock.
QUARTER = -0.41421356237309503

NOTE = (
    "NOMINAL SIZE, units mm. NO KERF OFFSET: lines and circles are the finished edge. Set cutter compensation at the"
    " machine, outside for BOARD_OUTLINE and PLATE_OUTLINE, inside for holes."
)
# Layer, color index, what it is for. Only the first seven are cut.
LAYERS = (
    ("BOARD_OUTLINE", 7, "edge of the board and of each of its layers: cut"),
    ("HOLES_ENGINE_BORE", 1, "over-bore for the epoxy plug, through the glued board: bore first"),
    ("HOLES_ENGINE_DRILL", 3, "final hole, drilled when the epoxy is hard: not at the same setting as the bore"),
    ("HOLES_FRAME_NEW", 3, "new frame holes: drill"),
    ("HOLES_OPENINGS", 3, "openings: cut"),
    ("PLATE_OUTLINE", 5, "metal plates: cut"),
    ("PLATE_HOLES", 3, "holes in metal plates: drill"),
    ("REF_HOLES_FRAME_KEPT", 8, "places assumed: DO NOT CUT, mark through from the frame"),
    ("REF_HOLES_ENGINE_ASSUMED", 8, "bracket not measured: DO NOT CUT, drill to the bracket"),
    ("REF_CENTERLINE", 8, "not cut"),
    ("REF_BRACKET_PADS", 8, "where the engine's bracket bears, aft face: not cut"),
    ("REF_KEEP_OUT", 8, "what is behind the board: not cut"),
    ("REF_PLATES_ON_BOARD", 8, "plates and washers where they lie: not cut"),
    ("NOTES", 7, "words: not cut"),
)


@dataclass(frozen=True)
class Writer:
    """A model space and what goes into it. y is up, the board's top edge at 0, its center line at x = 0."""

    space: Any

    def circle(self, layer: str, c: Circle) -> None:
        """A circle."""
        self.space.add_circle((c.y, -c.down), c.diameter / 2, dxfattribs={"layer": layer})

    def closed(self, layer: str, points: list[tuple[float, float]]) -> None:
        """A closed outline of straight lines."""
        self.space.add_lwpolyline(points, close=True, dxfattribs={"layer": layer})

    def rect(self, layer: str, r: Rect, shift: tuple[float, float] = (0.0, 0.0)) -> None:
        """A closed rectangle, its corners arcs."""
        x_lo, x_hi, y_lo, y_hi = r.y_lo + shift[0], r.y_hi + shift[0], -r.bottom + shift[1], -r.top + shift[1]
        c = r.radius
        if not c:
            self.closed(layer, [(x_lo, y_hi), (x_hi, y_hi), (x_hi, y_lo), (x_lo, y_lo)])
            return
        points = [
            (x_lo, y_hi - c, QUARTER), (x_lo + c, y_hi, 0.0), (x_hi - c, y_hi, QUARTER), (x_hi, y_hi - c, 0.0),
            (x_hi, y_lo + c, QUARTER), (x_hi - c, y_lo, 0.0), (x_lo + c, y_lo, QUARTER), (x_lo, y_lo + c, 0.0),
        ]  # fmt: skip
        self.space.add_lwpolyline(points, format="xyb", close=True, dxfattribs={"layer": layer})

    def words(self, x: float, y: float, words: str, size: float = TEXT) -> None:
        """A line of words."""
        self.space.add_text(escaped(words), height=size, dxfattribs={"layer": "NOTES", "insert": (x, y)})


def escaped(words: str) -> str:
    """On one line, so that nothing in it is a code of the format: %%c, ^J, \\U+0000 and the like stay as typed."""
    plain = "".join(c for c in clean(words) if c.isprintable())
    if len(plain) > LONGEST:
        plain = plain[: LONGEST - 3].rstrip() + "..."
    return plain.replace("\\", "/").replace("%%", "% %").replace("%%", "% %").replace("^", "^ ")


def dxf(d: Drawing) -> str:
    """The whole file; the same drawing gives the same bytes."""
    with without_fonts():
        from ezdxf import units
        from ezdxf.filemanagement import new

    with _fixed():
        document = new("R2010", setup=False)
        document.units = units.MM
        document.header["$MEASUREMENT"] = 1
        for name, color, says in LAYERS:
            document.layers.add(name, color=color).description = says
        w = Writer(document.modelspace())
        _board(w, d)
        below = _plates(w, d)
        _notes(w, d, below)
        # Left to itself the library lists them in the order of a set, which differs from run to run.
        for kind in sorted({entity.dxftype() for entity in document.entitydb.values()}):
            document.classes.add_class(kind)
        out = io.StringIO()
        document.write(out)
    return out.getvalue()


@contextmanager
def _fixed() -> Iterator[None]:
    """No clock and no random number in the file; ezdxf has a switch for it, put back as it was."""
    from ezdxf._options import options

    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before


def _board(w: Writer, d: Drawing) -> None:
    """The board as seen from aft, with what is cut and what is only shown."""
    w.closed("BOARD_OUTLINE", [(y, -down) for y, down in d.outline.corners])
    w.space.add_line((0.0, 10.0), (0.0, -d.outline.height - 10.0), dxfattribs={"layer": "REF_CENTERLINE"})
    for h in d.holes:
        for layer, diameter in _circles(h):
            w.circle(layer, Circle(h.y, h.down, diameter))
        w.words(
            h.y + h.largest / 2 + 2.0, -h.down - h.largest / 2 - TEXT, " ".join(hole_lines(h, d.identity.units)), 3.5
        )
    for p in d.pads:
        w.rect("REF_BRACKET_PADS", p.rect)
    for k in d.keep_outs:
        if k.rect is not None:
            w.rect("REF_KEEP_OUT", k.rect)
        if k.circle is not None:
            w.circle("REF_KEEP_OUT", k.circle)
    for plate in d.plates:
        w.rect("REF_PLATES_ON_BOARD", plate.rect)
    for washer in d.washers:
        if washer.square:
            w.rect("REF_PLATES_ON_BOARD", washer.rect)
        else:
            w.circle("REF_PLATES_ON_BOARD", Circle(washer.y, washer.down, washer.outside))


def _circles(h: Hole) -> list[tuple[str, float]]:
    if h.purpose == ENGINE and h.place == ASSUMED:
        return [("REF_HOLES_ENGINE_ASSUMED", h.over_bore), ("REF_HOLES_ENGINE_ASSUMED", h.final)]
    if h.purpose == ENGINE:
        return [("HOLES_ENGINE_BORE", h.over_bore), ("HOLES_ENGINE_DRILL", h.final)]
    if h.purpose == FRAME:
        return [("REF_HOLES_FRAME_KEPT" if h.kept else "HOLES_FRAME_NEW", h.final)]
    assert h.purpose == OPENING
    return [("HOLES_OPENINGS", h.final)]


def _plates(w: Writer, d: Drawing) -> float:
    """Each kind of plate once, under each other to the right of the board; the height below them."""
    x, top = d.outline.width / 2 + GAP, 0.0
    for kind in plate_kinds(d.plates):
        p = kind.one
        shift = x - p.rect.y_lo, top + p.rect.top
        w.rect("PLATE_OUTLINE", p.rect, shift)
        for c in p.holes:
            w.circle("PLATE_HOLES", Circle(c.y + shift[0], c.down - shift[1], c.diameter))
        words = f"PLATE {', '.join(kind.names)}: make {len(kind.names)}, {plate_size(p, d.identity.units)} {spelled(p.title, d.identity.units)}, {_seen(p)}"
        top -= p.rect.height + 2 * TEXT
        w.words(x, top, words)
        top -= GAP / 2
    return min(top, -d.outline.height)


def _seen(p: Plate) -> str:
    return f"lies on the {p.face} face, drawn as seen from aft"


def _notes(w: Writer, d: Drawing, below: float) -> None:
    """The paper's word over the board; everything else under it."""
    x = -d.outline.width / 2
    above = [*notes.page_words(d.identity), *notes.reasons(d.identity), NOTE]
    for i, words in enumerate(reversed([line for said in above for line in notes.folded(said, TEXT, 640.0)])):
        w.words(x, 20.0 + i * 1.6 * TEXT, words)
    said = [
        f"Seen from aft, top edge up. {plural(len(d.layers), 'layer')}, all of this outline:",
        *(f"{p.number}: {layer_words(p, d.identity.units)}" for p in d.layers),
        *notes.about(d),
        *(f"{name}: {says}" for name, _, says in LAYERS),
        "CAREFUL",
        *notes.cautions(d),
        d.identity.tool,
    ]
    lines = [line for words in said for line in notes.folded(words, TEXT, 640.0)]
    for i, words in enumerate(lines):
        w.words(x, below - GAP - i * 1.6 * TEXT, words)
