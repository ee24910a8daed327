"""Words, tables, boxes to write in and a sketch of the board, as things that flow down a page of a PDF; points."""

from collections.abc import Sequence
from typing import Any

from transom.drawing.ink import written
from transom.drawing.records import FRAME, Drawing

SMALL = 0.86  # of the size: cautions, captions
LEADING = 1.16
HIGHEST = 16.0  # of a sketch, in sizes of the type
GRAY, BLACK = (0.6, 0.6, 0.6), (0.0, 0.0, 0.0)


def words(text: str, size: float, *, bold: bool = False, over: float = 0.0) -> Any:
    """A paragraph; one that begins with a dash hangs under itself."""
    from reportlab.lib.styles import ParagraphStyle  # type: ignore[import-untyped]
    from reportlab.platypus import Paragraph  # type: ignore[import-untyped]

    hang = size * 0.7 if text.startswith("- ") else 0.0
    style = ParagraphStyle(
        "words", fontName="Helvetica-Bold" if bold else "Helvetica", fontSize=size, leading=size * LEADING,
        spaceBefore=over, spaceAfter=size * 0.1, leftIndent=hang, firstLineIndent=-hang,
    )  # fmt: skip
    escaped = written(text).replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
    return Paragraph(escaped, style)


def heading(text: str, size: float) -> Any:
    """The title of a block."""
    return words(text, size, bold=True, over=size * 0.55)


def table(head: Sequence[str], rows: Sequence[Sequence[str]], widths: Sequence[int], size: float, room: float) -> Any:
    """A table over all of the room, its columns in the shares of `widths`."""
    from reportlab.platypus import Table

    share = room / sum(widths)
    cells = [[words(x, size * 0.82, bold=True) for x in head], *([words(x, size) for x in row] for row in rows)]
    made = Table(cells, colWidths=[w * share for w in widths], repeatRows=1, hAlign="LEFT")
    made.setStyle([
        ("LEFTPADDING", (0, 0), (-1, -1), 0), ("RIGHTPADDING", (0, 0), (-1, -1), 3),
        ("TOPPADDING", (0, 0), (-1, -1), 0.4), ("BOTTOMPADDING", (0, 0), (-1, -1), 1.0),
        ("VALIGN", (0, 0), (-1, -1), "TOP"), ("LINEBELOW", (0, 0), (-1, -1), 0.25, GRAY),
    ])  # fmt: skip
    return made


def boxes(captions: Sequence[str], size: float, room: float) -> Any:
    """Captions, each in a box to write in, up to eight in a row."""
    from reportlab.platypus import Table

    rows = [captions[i : i + 8] for i in range(0, len(captions), 8)]
    wide = max(len(row) for row in rows)
    cells = [[*(words(x, size * SMALL) for x in row), *[""] * (wide - len(row))] for row in rows]
    made = Table(
        cells, colWidths=[room / wide] * wide, rowHeights=[size * 2.9] * len(rows), hAlign="LEFT", spaceBefore=2
    )
    drawn = [("BOX", (i, k), (i, k), 0.6, BLACK) for k, row in enumerate(rows) for i in range(len(row))]
    made.setStyle([*drawn, ("VALIGN", (0, 0), (-1, -1), "TOP"), ("TOPPADDING", (0, 0), (-1, -1), 1),
                   ("LEFTPADDING", (0, 0), (-1, -1), 2)])  # fmt: skip
    return made


def beside(left: Sequence[Any], right: Sequence[Any], half: float, gap: float) -> Any:
    """Two columns, each `half` wide."""
    from reportlab.platypus import Table

    made = Table([[list(left), "", list(right)]], colWidths=[half, gap, half], hAlign="LEFT", spaceBefore=gap * 0.2)
    made.setStyle([(f"{side}PADDING", (0, 0), (-1, -1), 0) for side in ("LEFT", "RIGHT", "TOP", "BOTTOM")]
                  + [("VALIGN", (0, 0), (-1, -1), "TOP")])  # fmt: skip
    return made


def sketch(d: Drawing, size: float, room: float) -> Any:
    """The board from aft with its holes by name, no dimensions."""
    from reportlab.graphics.shapes import Drawing as Picture  # type: ignore[import-untyped]
    from reportlab.graphics.shapes import Line, Polygon, Rect

    o = d.outline
    k = min(room * 0.9 / o.width, HIGHEST * size / o.height)
    picture = Picture(room, o.height * k + 4)
    x0, y0 = o.width / 2 * k, o.height * k + 2

    def at(y: float, down: float) -> tuple[float, float]:
        return x0 + y * k, y0 - down * k

    corners = [v for corner in o.corners for v in at(*corner)]
    picture.add(Polygon(corners, fillColor=None, strokeColor=color(BLACK), strokeWidth=1.0))
    picture.add(Line(*at(0, o.notch_depth), *at(0, o.height), strokeColor=color(GRAY), strokeDashArray=[6, 2, 1, 2], strokeWidth=0.4))  # fmt: skip
    for p in d.plates:
        left, low = at(p.rect.y_lo, p.rect.bottom)
        picture.add(Rect(left, low, p.rect.width * k, p.rect.height * k, fillColor=None, strokeColor=color(GRAY),
                         strokeDashArray=[2, 1.5], strokeWidth=0.5))  # fmt: skip
    for shape in _holes(d, at, k, size * SMALL):
        picture.add(shape)
    return picture


def _holes(d: Drawing, at: Any, k: float, size: float) -> list[Any]:
    """A ring for each hole, its name on the side towards the middle of the board; a name that meets another is left out.

    The frame's holes come last, so that theirs are the ones left out on a crowded board.
    """
    from reportlab.graphics.shapes import Circle, String
    from reportlab.pdfbase.pdfmetrics import stringWidth  # type: ignore[import-untyped]

    out: list[Any] = []
    taken: list[tuple[float, float, float, float]] = []
    for h in sorted(d.holes, key=lambda h: h.purpose == FRAME):
        x, y = at(h.y, h.down)
        r = h.largest / 2 * k
        wide = stringWidth(h.name, "Helvetica", size)
        left = x + r + 1.5 if h.y <= 0 else x - r - 1.5 - wide
        box = (left, y - size * 0.5, left + wide, y + size * 0.5)
        out.append(Circle(x, y, r, fillColor=None, strokeColor=color(GRAY if h.kept else BLACK), strokeWidth=0.7))
        if not any(_meet(box, other) for other in taken):
            out.append(String(left, y - size * 0.35, written(h.name), fontName="Helvetica", fontSize=size))
            taken.append(box)
        taken.append((x - r, y - r, x + r, y + r))
    return out


def _meet(a: tuple[float, float, float, float], b: tuple[float, float, float, float]) -> bool:
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def color(rgb: tuple[float, float, float]) -> Any:
    """A color by its shares of red, green and blue."""
    from reportlab.lib.colors import Color  # type: ignore[import-untyped]

    return Color(*rgb)
