"""Pages to read beside the template: both faces with their dimensions, and the section, each on one page."""

from transom.drawing import ink, notes
from transom.drawing.band import fold
from transom.drawing.dimensioned import dimensioned
from transom.drawing.records import AFT, FORWARD, Drawing
from transom.drawing.section import section
from transom.drawing.shapes import Scene
from transom.drawing.tiles import MARGIN

READ, SMALL = 3.4, 3.0  # mm
EDGE = MARGIN + 4.0


def reference(d: Drawing) -> tuple[Scene, ...]:
    """The views, in the order of their pages."""
    return dimensioned(d, AFT), dimensioned(d, FORWARD), section(d)


def reference_page(c: ink.Canvas, d: Drawing, view: Scene, page: tuple[float, float], number: int, pages: int) -> None:
    """One view as large as goes on the page, never larger than life; what every page says above it."""
    c.setPageSize((page[0] * ink.MM, page[1] * ink.MM))
    room = page[0] - 2 * EDGE
    top = page[1] - EDGE
    first, *rest = notes.page_words(d.identity)
    name = view.title.split(",")[0]
    ink.text(
        c, EDGE, top - READ * 1.2, ink.cut(f"{first} - {name}", READ * 1.2, room, bold=True), READ * 1.2, bold=True
    )
    y = top - READ * 1.2
    for line in (line for words in rest for line in fold(words, SMALL, room)):
        y -= SMALL * 1.3
        ink.text(c, EDGE, y, line, SMALL)
    foot = EDGE + SMALL * 2.0
    scale = min(1.0, room / view.box.width, (y - 2.0 - foot) / view.box.height)
    shift = EDGE - view.box.x_lo * scale, (y - 2.0) - view.box.y_hi * scale
    ink.draw(c, view.shapes, shift, scale)
    size = "full size" if scale == 1.0 else "not to scale"
    ink.text(c, EDGE, EDGE, f"{size}; dimensions decide. Cautions and hazards, page 1.", SMALL)
    ink.text(c, page[0] - EDGE, EDGE, f"page {number} of {pages}", SMALL, anchor="end")
    c.showPage()
