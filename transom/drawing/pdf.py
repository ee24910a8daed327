"""The full-size template as a PDF: cover, then every sheet cut into tiles that lie over one another."""

import io
from collections.abc import Sequence

from transom.drawing import ink
from transom.drawing.band import Tile, band, height_for
from transom.drawing.cover import EDGE, Line, Listed, cover, cover_lines, cover_pages
from transom.drawing.records import AFT, FORWARD, Drawing
from transom.drawing.reference import reference, reference_page
from transom.drawing.shapes import Scene
from transom.drawing.tiles import PAPERS, Layout, Paper, lay_out
from transom.drawing.views import face_view, holes_view, layers_view, plate_kinds, plate_view

REFERENCE = 3  # pages to read beside the template
MARK = 4.0  # mm, half of a registration mark's cross


def scenes(d: Drawing, holes_only: bool = False) -> list[Scene]:
    """The views that go full size: both faces, the layers' outline, each kind of plate; or the holes alone."""
    if holes_only:
        return [holes_view(d)]
    plates = [plate_view(d, kind) for kind in plate_kinds(d.plates)]
    return [face_view(d, AFT), face_view(d, FORWARD), layers_view(d), *plates]


def template(d: Drawing, paper: str = "letter", holes_only: bool = False) -> bytes:
    """The whole file; the same drawing gives the same bytes.

    Raises:
        KeyError: a paper that is not in `tiles.PAPERS`.
    """
    from reportlab.pdfgen.canvas import Canvas  # type: ignore[import-untyped]

    sheet = PAPERS[paper]
    views = scenes(d, holes_only)
    layouts = laid_out(d, views, sheet)
    front = _front(sheet)
    listed, lines, pages = _numbered(d, views, layouts, front, holes_only)
    out = io.BytesIO()
    c = Canvas(out, pagesize=(front[0] * ink.MM, front[1] * ink.MM), invariant=1, pageCompression=1)
    c.setTitle(ink.written(f"{d.identity.number} {d.identity.name}: template"))
    c.setCreator(d.identity.tool)
    drawn = cover(c, front, lines, d, 1, pages)
    for number, view in enumerate(() if holes_only else reference(d), drawn + 1):
        reference_page(c, d, view, (front[1], front[0]), number, pages)
    for view, item in zip(views, listed, strict=True):
        for k, (i, j) in enumerate(item.layout.tiles):
            _tile(c, d, view, Tile(view.title, item.layout, i, j, item.first + k, item.first, pages))
    c.save()
    return out.getvalue()


def laid_out(d: Drawing, views: Sequence[Scene], paper: Paper) -> list[Layout]:
    """How each view is cut to a paper, with room for what every tile must say."""
    high = height_for(d, paper)
    return [lay_out(v.box, paper, d.identity.units, high) for v in views]


def _front(paper: Paper) -> tuple[float, float]:
    """The page that is read: upright; a letter sheet where the rest comes off a roll."""
    read = PAPERS["letter"] if paper.roll else paper
    return read.width, read.height


def _numbered(d: Drawing, views: list[Scene], layouts: list[Layout], front: tuple[float, float],
              holes_only: bool) -> tuple[list[Listed], list[Line], int]:  # fmt: skip
    """Sheets with their page numbers, which depend on how long the cover is; its lines; and all the pages."""
    before = 1 if holes_only else 1 + REFERENCE
    start = before + 1
    while True:
        listed, at = [], start
        for view, layout in zip(views, layouts, strict=True):
            listed.append(Listed(view.title, layout, at))
            at += layout.columns * layout.rows
        lines = cover_lines(d, listed, holes_only, front[0] - 2 * EDGE)
        needed = cover_pages(front, lines) + before
        if needed <= start:
            return listed, lines, at - 1
        start = needed


def _tile(c: ink.Canvas, d: Drawing, view: Scene, tile: Tile) -> None:
    layout = tile.layout
    c.setPageSize((layout.page[0] * ink.MM, layout.page[1] * ink.MM))
    w, seen = layout.window, layout.seen(tile.i, tile.j)
    c.saveState()
    ink.clip(c, w)
    ink.draw(c, view.shapes, (w.x_lo - seen.x_lo, w.y_lo - seen.y_lo))
    c.restoreState()
    ink.frame(c, w, line=0.1, gray=0.6)
    _marks(c, layout)
    band(c, d, tile)
    c.showPage()


def _marks(c: ink.Canvas, layout: Layout) -> None:
    """A cross in a circle at each corner of what this tile shows of the view."""
    dx, dy = layout.inset()
    w = layout.window
    c.setDash([])
    c.setStrokeGray(0.0)
    c.setLineWidth(0.15 * ink.MM)
    for x in (w.x_lo + dx, w.x_hi - dx):
        for y in (w.y_lo + dy, w.y_hi - dy):
            c.line((x - MARK) * ink.MM, y * ink.MM, (x + MARK) * ink.MM, y * ink.MM)
            c.line(x * ink.MM, (y - MARK) * ink.MM, x * ink.MM, (y + MARK) * ink.MM)
            c.circle(x * ink.MM, y * ink.MM, MARK / 2 * ink.MM, stroke=1, fill=0)
