"""What stands beside the window of every tile: the paper's word, the job, stops passed over, check square, map."""

from transom.drawing import ink, notes
from transom.drawing.records import ASSUMED, ENGINE, Drawing
from transom.drawing.shapes import Box
from transom.drawing.tiles import BOTTOM_BAND, MARGIN, Layout, Paper
from transom.frozen import dataclass
from transom.quantity import show

SQUARES = {"us": (25.4, 50.8), "si": (25.0, 50.0)}  # mm, below a window and beside one
SIZES = (3.6, 3.2, 2.9, 2.6, 2.3, 2.0, 1.8)  # mm, fonts tried until all the words fit
LEADING = 1.3
HEAD, READ = 5.0, 2.9  # mm: the paper's word, and the rest where the band grows with it
MAP = 43.0  # mm, width of the map beside the words
OWN_LINES = 3  # of words that differ from tile to tile
MOST = 90.0  # mm, the highest band


@dataclass(frozen=True)
class Tile:
    """One page of a sheet: its place in the layout and its number."""

    sheet: str
    layout: Layout
    i: int
    j: int
    page: int
    first: int  # page of the sheet's first tile
    pages: int


def square_side(layout: Layout, units: str) -> float:
    """Side of the check square, mm."""
    return SQUARES[units][int(layout.side_band)]


def square_box(layout: Layout, units: str) -> Box:
    """Where the check square is on the page."""
    side, b = square_side(layout, units), layout.band
    x = b.x_lo + (5.0 if layout.side_band else 6.0)
    y = b.y_lo + 5.0
    return Box(x, y, x + side, y + side)


def band(c: ink.Canvas, d: Drawing, tile: Tile) -> None:
    """Draw the band of a tile."""
    layout, units = tile.layout, d.identity.units
    box = square_box(layout, units)
    _square(c, box, show.length(square_side(layout, units), units, step_mm="1"))
    if layout.side_band:
        map_box = Box(layout.band.x_lo + 5.0, box.y_hi + 6.0, layout.band.x_hi - 3.0, box.y_hi + 46.0)
        words = Box(layout.band.x_lo + 4.0, map_box.y_hi + 4.0, layout.band.x_hi, layout.band.y_hi - 1.0)
    else:
        map_box = Box(
            layout.band.x_hi - MAP - 1.0, layout.band.y_hi - 33.0, layout.band.x_hi - 1.0, layout.band.y_hi - 4.0
        )
        words = Box(box.x_hi + 6.0, layout.band.y_lo + 0.5, map_box.x_lo - 4.0, layout.band.y_hi - 3.0)
    _map(c, tile, map_box)
    _words(c, d, tile, words)


def _square(c: ink.Canvas, box: Box, words: str) -> None:
    """A square to be measured both ways, its side written along both."""
    ink.frame(c, box, line=0.15)
    ink.text(c, (box.x_lo + box.x_hi) / 2, box.y_lo + 2.0, words, 2.8, anchor="middle")
    c.saveState()
    c.translate((box.x_lo + 4.0) * ink.MM, (box.y_lo + box.y_hi) / 2 * ink.MM)
    c.rotate(90)
    ink.text(c, 0.0, 0.0, words, 2.8, anchor="middle")
    c.restoreState()
    ink.text(c, (box.x_lo + box.x_hi) / 2 + 2.0, (box.y_lo + box.y_hi) / 2, "check", 2.8, anchor="middle")
    ink.text(c, (box.x_lo + box.x_hi) / 2 + 2.0, (box.y_lo + box.y_hi) / 2 - 3.6, "both ways", 2.8, anchor="middle")


def _map(c: ink.Canvas, tile: Tile, box: Box) -> None:
    """The sheet's tiles by page, this one filled."""
    n, m = tile.layout.columns, tile.layout.rows
    w = min(box.width / n, box.height / m * 1.6)
    h = min(box.height / m, w)
    for i, j in tile.layout.tiles:
        cell = Box(box.x_lo + i * w, box.y_hi - (j + 1) * h, box.x_lo + (i + 1) * w, box.y_hi - j * h)
        page = tile.first + j * n + i
        c.setFillGray(0.75 if page == tile.page else 1.0)
        c.setDash([])
        c.setStrokeGray(0.0)
        c.setLineWidth(0.2 * ink.MM)
        c.rect(cell.x_lo * ink.MM, cell.y_lo * ink.MM, w * ink.MM, h * ink.MM, stroke=1, fill=1)
        size = min(3.4, h * 0.6, w * 0.4)
        ink.text(c, (cell.x_lo + cell.x_hi) / 2, (cell.y_lo + cell.y_hi) / 2 - 0.35 * size, str(page), size,
                 bold=page == tile.page, anchor="middle")  # fmt: skip


def lines(d: Drawing, tile: Tile) -> list[str]:
    """What a tile says after the paper's word."""
    units, layout = d.identity.units, tile.layout
    across, high = (show.length(v, units, step="1/4", step_mm="1") for v in layout.step)
    side = show.length(square_side(layout, units), units, step_mm="1")
    many = layout.columns * layout.rows > 1
    return [
        notes.job_words(d.identity),
        f"{tile.sheet}. Page {tile.page} of {tile.pages}" + ("; lay mark on mark as in the map." if many else "."),
        f"{notes.PRINT} Square {side} both ways; from mark to mark {across} across, {high} up.",
        *standing(d),
    ]


def standing(d: Drawing) -> list[str]:
    """What every tile of a drawing says alike."""
    return [
        *notes.accepted_words(d.identity),
        *([f"DRAFT: {len(d.identity.draft)} to measure, page 1."] if d.identity.draft else []),
        *(["DOES NOT PASS: why, page 1. Not to be built."] if d.identity.fails else []),
        *(["ENGINE HOLES ASSUMED: drill to the bracket, not to this."] if _assumed(d) else []),
        "Cautions and hazards, page 1: read them before the saw.",
    ]


def height_for(d: Drawing, paper: Paper) -> float:
    """How high a band below the window must be for its words to be read on paper held upright, mm."""
    room = min(paper.width, paper.height) - 2 * MARGIN - SQUARES["us"][0] - MAP - 16.0
    said = [notes.job_words(d.identity), *standing(d)]
    folded = sum(len(fold(words, READ, room)) for words in said) + OWN_LINES
    return max(BOTTOM_BAND, min(HEAD * 1.5 + folded * READ * LEADING + 4.0, MOST))


def _assumed(d: Drawing) -> bool:
    return any(h.place == ASSUMED for h in d.of(ENGINE))


def _words(c: ink.Canvas, d: Drawing, tile: Tile, box: Box) -> None:
    """The paper's word large, the rest as large as goes in the box; what is longer still ends in three dots."""
    head = HEAD if box.width > 80.0 else 4.2
    word = notes.paper_words(d.identity)
    while ink.width(word, head, bold=True) > box.width and head > 2.0:
        head -= 0.2
    ink.text(c, box.x_lo, box.y_hi - head, word, head, bold=True)
    room = box.height - head * 1.5
    said = lines(d, tile)
    for size in SIZES:
        folded = [line for words in said for line in fold(words, size, box.width)]
        if len(folded) * size * LEADING <= room:
            break
    most = int(room / (size * LEADING))
    if len(folded) > most:
        folded = [*folded[: most - 1], folded[most - 1] + " ... whole on page 1"]
    for k, line in enumerate(folded):
        y = box.y_hi - head * 1.5 - (k + 0.8) * size * LEADING
        ink.text(c, box.x_lo, y, ink.cut(line, size, box.width), size)


def fold(words: str, size: float, room: float) -> list[str]:
    """Lines as the face really runs, none longer than the room; a long word is cut through."""
    out = [""]
    for word in ink.written(words).split(" "):
        rest = word
        longer = f"{out[-1]} {rest}".strip()
        if ink.width(longer, size) <= room:
            out[-1] = longer
            continue
        while ink.width(rest, size) > room:
            n = next(n for n in range(len(rest), 0, -1) if n == 1 or ink.width(rest[:n], size) <= room)
            out.append(rest[:n])
            rest = rest[n:]
        out.append(rest)
    return [line for line in out if line] or [""]
