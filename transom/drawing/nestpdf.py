"""The cut list on Letter pages: every sheet drawn with its blanks, the cuts in order, what is left and what to buy."""

from collections.abc import Iterator
from typing import Any

from transom.drawing import nestwords, notes
from transom.drawing.cutlist import CutList, SheetCuts
from transom.drawing.flowables import BLACK, GRAY, SMALL, beside, color, heading, table, words
from transom.drawing.ink import written
from transom.drawing.letter import letter_pages
from transom.drawing.records import Identity
from transom.nesting.records import Box, Nest
from transom.nesting.saw import KEEP

SIZES = (9.0, 8.6, 8.2, 7.8, 7.4, 7.0, 6.6)  # points; on more than one page the last
HIGHEST = 17.0  # of a drawn sheet, in sizes of the type


def cut_pdf(c: CutList, i: Identity, to_buy: tuple[tuple[str, ...], ...] = ()) -> bytes:
    """The cut list as a PDF; the same list gives the same bytes. `to_buy` are rows of count, spare, size, what."""
    return letter_pages(i, "CUT LIST", lambda size, room: _story(c, i, to_buy, size, room), SIZES)


def _story(c: CutList, i: Identity, to_buy: tuple[tuple[str, ...], ...], size: float, room: float) -> Iterator[Any]:
    units = i.units
    yield words(nestwords.head_words(c, units), size)
    yield heading("BLANKS", size)
    yield table(nestwords.HEAD, list(nestwords.rows(c, units)), nestwords.WIDTHS, size, room)
    yield words(nestwords.MARK, size)
    for s in c.sheets:
        yield from _sheet(s, units, size, room)
    if to_buy:
        yield heading("ALSO TO BUY", size)
        yield table(("QTY", "SPARE", "SIZE", "WHAT"), to_buy, (7, 8, 45, 19), size, room)
    yield heading("HAZARDS", size)
    yield from (words(f"- {text}", size) for text in notes.HAZARDS)
    yield heading("CAREFUL", size)
    yield from (words(f"- {text}", size * SMALL) for text in i.cautions)


def _sheet(s: SheetCuts, units: str, size: float, room: float) -> Iterator[Any]:
    yield heading(nestwords.buy_words(s) if s.too_large else f"BUY {nestwords.buy_words(s)}", size)
    gap = 2 * size
    half = (room - gap) / 2
    for nest in s.nests:
        steps = [(str(n), cut.piece, f"{cut.how}, {cut.fence}", "; ".join(cut.gives))
                 for n, cut in enumerate(nestwords.cuts_of(nest, units), 1)]  # fmt: skip
        left = [words(nestwords.kind_words(nest, units), size), _drawn(nest, units, size, half)]
        yield beside(
            left,
            [table(("", "ON THE SAW", "CUT, KEPT AT THE FENCE", "GIVES"), steps, (2, 12, 12, 17), size * 0.9, half)],
            half,
            gap,
        )
    if s.nests:
        yield words(f"Left over: {nestwords.left_words(s, units)}", size)


def _drawn(nest: Nest, units: str, size: float, room: float) -> Any:
    """The sheet to scale, its face grain running left to right, the marked end on the left."""
    from reportlab.graphics.shapes import Drawing as Picture  # type: ignore[import-untyped]

    k = min((room - 4) / nest.stuff.length, HIGHEST * size / nest.stuff.width)
    picture = Picture(room, nest.stuff.width * k + size * 1.6)
    base = size * 1.4
    whole = Box(0.0, 0.0, nest.stuff.length, nest.stuff.width)
    for shape in (
        *_box(whole, k, base, BLACK, None, 1.0),
        *(s for cut in nest.cuts for s in _box(cut.box, k, base, BLACK, BLACK, 0.2)),
        *(
            s
            for b in nest.left
            if min(b.length, b.width) >= KEEP
            for s in _said(b, "left over", units, k, base, size * SMALL)
        ),
        *(s for p in nest.placed for s in _placed(p.blank.name, p.box, units, k, base, size)),
        *_arrow(nest.stuff.length * k, size),
    ):
        picture.add(shape)
    return picture


def _box(b: Box, k: float, base: float, stroke: tuple[float, float, float], fill: Any, line: float) -> list[Any]:
    from reportlab.graphics.shapes import Rect

    made = Rect(b.x0 * k, base + b.y0 * k, b.length * k, b.width * k, strokeColor=color(stroke), strokeWidth=line,
                fillColor=None if fill is None else color(fill))  # fmt: skip
    return [made]


def _placed(name: str, b: Box, units: str, k: float, base: float, size: float) -> list[Any]:
    return [*_box(b, k, base, BLACK, (0.9, 0.9, 0.9), 0.8), *_said(b, name, units, k, base, size)]


def _said(b: Box, name: str, units: str, k: float, base: float, size: float) -> list[Any]:
    """A name and a size in the middle of a box, in type that the box has room for; turned in a narrow one."""
    from reportlab.graphics.shapes import Group, String
    from reportlab.pdfbase.pdfmetrics import stringWidth  # type: ignore[import-untyped]

    lines = (name, nestwords.size(b, units))
    wide = max(stringWidth(written(line), "Helvetica", size) for line in lines)
    turned = b.length * k < wide < b.width * k
    room = (b.width if turned else b.length) * k - 3
    small = min(size, size * room / wide)
    group = Group(*(String(0, (0.15 - 1.15 * n) * small, written(line), fontSize=small, fontName="Helvetica", textAnchor="middle")
                    for n, line in enumerate(lines)))  # fmt: skip
    group.translate((b.x0 + b.x1) / 2 * k, base + (b.y0 + b.y1) / 2 * k)
    if turned:
        group.rotate(90)
    return [group]


def _arrow(length: float, size: float) -> list[Any]:
    """Under the sheet: which end is marked, and which way the face grain runs."""
    from reportlab.graphics.shapes import Line, Polygon, String

    y = size * 0.6
    start, end = 13 * size * 0.5, length * 0.6
    head = Polygon([end, y, end - 4, y + 2, end - 4, y - 2], fillColor=color(BLACK), strokeWidth=0.1)
    return [
        String(0, y - size * 0.3, "marked end", fontName="Helvetica", fontSize=size * SMALL),
        Line(start, y, end, y, strokeColor=color(GRAY), strokeWidth=0.7),
        head,
        String(end + 3, y - size * 0.3, "face grain", fontName="Helvetica", fontSize=size * SMALL),
    ]
