"""Shapes and words on a page of a PDF, in mm from its lower left corner."""

from collections.abc import Sequence
from typing import Any

from transom.drawing.pens import PENS, Pen
from transom.drawing.shapes import Arrow, Box, Label, Path, Ring, Shape
from transom.drawing.svg import arrow_head, rounded
from transom.report.text import clean, printable

Canvas = Any  # reportlab says nothing of its types
MM = 72 / 25.4  # points
FACE, BOLD = "Helvetica", "Helvetica-Bold"
QUARTER = 0.5522847498307936  # control points of a quarter circle by one Bezier curve, error 0.03 %


def written(words: str) -> str:
    """On one line, in the characters that the built-in faces have; others by their nearest, else a question mark."""
    return printable(clean(words), "cp1252")


def width(words: str, size: float, *, bold: bool = False) -> float:
    """How long a line comes out, mm."""
    from reportlab.pdfbase.pdfmetrics import stringWidth  # type: ignore[import-untyped]

    return float(stringWidth(written(words), BOLD if bold else FACE, size))


def cut(words: str, size: float, room: float, *, bold: bool = False) -> str:
    """The words, cut short with three dots where they are longer than the room."""
    text = written(words)
    if width(text, size, bold=bold) <= room:
        return text
    while text and width(text + "...", size, bold=bold) > room:
        text = text[:-1]
    return text.rstrip() + "..."


def text(c: Canvas, x: float, y: float, words: str, size: float, *, bold: bool = False, anchor: str = "start") -> None:
    """A line of words with its base at y, mm."""
    c.setFillGray(0.0)
    c.setFont(BOLD if bold else FACE, size * MM)
    put = {"start": c.drawString, "middle": c.drawCentredString, "end": c.drawRightString}[anchor]
    put(x * MM, y * MM, written(words))


def draw(c: Canvas, shapes: Sequence[Shape], shift: tuple[float, float], scale: float = 1.0) -> None:
    """Shapes of a view, moved by `shift` mm on the page after scaling; words last, so that no line runs over them."""
    c.saveState()
    c.translate(shift[0] * MM, shift[1] * MM)
    for shape in sorted(shapes, key=lambda s: isinstance(s, Label)):
        _shape(c, shape, scale * MM)
    c.restoreState()


def _shape(c: Canvas, shape: Shape, k: float) -> None:
    if isinstance(shape, Label):
        _label(c, shape, k)
    elif isinstance(shape, Ring):
        pen = PENS[shape.purpose]
        _set(c, pen)
        c.circle(shape.x * k, shape.y * k, shape.diameter / 2 * k, stroke=1, fill=int(pen.fill is not None))
    elif isinstance(shape, Path):
        _path(c, shape, k)
    else:
        _arrow(c, shape, k)


def _set(c: Canvas, pen: Pen) -> None:
    c.setStrokeGray(pen.gray)
    c.setLineWidth(pen.width * MM)
    c.setDash([v * MM for v in pen.dash] or [])
    if pen.fill is not None:
        c.setFillGray(pen.fill)


def _path(c: Canvas, path: Path, k: float) -> None:
    pen = PENS[path.purpose]
    _set(c, pen)
    p = c.beginPath()
    if path.radius:
        for i, (before, after) in enumerate(rounded(path)):
            (p.lineTo if i else p.moveTo)(before[0] * k, before[1] * k)
            corner = path.points[i]
            one = tuple((b + (a - b) * QUARTER) * k for b, a in zip(before, corner, strict=True))
            two = tuple((b + (a - b) * QUARTER) * k for b, a in zip(after, corner, strict=True))
            p.curveTo(*one, *two, after[0] * k, after[1] * k)
    else:
        for i, (x, y) in enumerate(path.points):
            (p.lineTo if i else p.moveTo)(x * k, y * k)
    if path.closed:
        p.close()
    c.drawPath(p, stroke=int(pen.width > 0), fill=int(pen.fill is not None))


def _arrow(c: Canvas, a: Arrow, k: float) -> None:
    pen = PENS[a.purpose]
    _set(c, pen)
    c.line(a.start[0] * k, a.start[1] * k, a.end[0] * k, a.end[1] * k)
    c.setFillGray(pen.gray)
    for tip, tail in ((a.end, a.start), (a.start, a.end))[: 2 if a.both else 1]:
        p = c.beginPath()
        for i, (x, y) in enumerate(arrow_head(tip, tail, a.head)):
            (p.lineTo if i else p.moveTo)(x * k, y * k)
        p.close()
        c.drawPath(p, stroke=0, fill=1)


def _label(c: Canvas, t: Label, k: float) -> None:
    """Words on white, so that a line under them does not cross them."""
    size = t.size * k / MM
    long = width(t.words, size, bold=t.bold)
    before = {"start": 0.0, "middle": long / 2, "end": long}[t.anchor]
    c.saveState()
    c.translate(t.x * k, t.y * k)
    if t.upright:
        c.rotate(90)
    c.setFillGray(1.0)
    c.rect(-(before + 0.4) * MM, -0.5 * size * MM, (long + 0.8) * MM, size * MM, stroke=0, fill=1)
    text(c, -before, -0.35 * size, t.words, size, bold=t.bold)
    c.restoreState()


def frame(c: Canvas, box: Box, *, line: float = 0.2, gray: float = 0.0) -> None:
    """A rectangle on the page, mm."""
    c.setDash([])
    c.setStrokeGray(gray)
    c.setLineWidth(line * MM)
    c.rect(box.x_lo * MM, box.y_lo * MM, box.width * MM, box.height * MM, stroke=1, fill=0)


def clip(c: Canvas, box: Box) -> None:
    """Nothing outside the box shows until the state is restored."""
    p = c.beginPath()
    p.rect(box.x_lo * MM, box.y_lo * MM, box.width * MM, box.height * MM)
    c.clipPath(p, stroke=0, fill=0)
