"""A map as an SVG page: the board from aft, what lies on it, a legend, a scale bar, words below."""

from collections.abc import Iterator, Sequence
from xml.sax.saxutils import escape

import numpy as np

from transom.board.grid import Rectangle
from transom.frozen import dataclass
from transom.report.maps.bands import Band, index_of
from transom.report.maps.board import Fastener, Peak, Raster
from transom.report.text import clean, wrapped

WIDTH, LEFT, TOP, GAP = 860, 40, 104, 34
ROOM = (520.0, 430.0)  # the largest the board is drawn, points
LINE, SMALL = 18, 12
OVERLAP = 0.6  # points that a cell lies over the next, so that no paper shows between them
INSET, FIGURE = 12.0, (336.0, 300.0)  # points round the board of a figure, and the largest it is drawn
OVER = (
    '<defs><pattern id="over" width="8" height="8" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">'
    '<rect width="8" height="8" fill="#ffffff"/><rect width="1.5" height="8" fill="#000000"/></pattern></defs>'
)
PER_LINE = 106  # characters that fit the page at the small size, in any usual face


@dataclass(frozen=True)
class Sheet:
    """Everything a page says besides its values. Lengths in mm, board axes."""

    title: str
    heading: str
    board: Rectangle
    supports: tuple[Rectangle, ...]
    pads: tuple[Rectangle, ...]
    fasteners: tuple[Fastener, ...]
    holes: tuple[tuple[float, float, float], ...]  # y, z, diameter
    missing: tuple[Rectangle, ...]  # notch and cut corners
    bands: tuple[Band, ...]
    scale: tuple[float, str]  # mm and words
    key: tuple[str, str]  # what the letters are, what the outlines under them are
    below: tuple[str, ...]
    peak: Peak | None = None


@dataclass(frozen=True)
class Page:
    """Places on the page from places on the board, whose corner is at `left`, `top` and which fills `room` at most."""

    board: Rectangle
    left: float = LEFT
    top: float = TOP
    room: tuple[float, float] = ROOM

    @property
    def per_mm(self) -> float:
        """Points to a millimeter."""
        b = self.board
        return min(self.room[0] / (b.y_hi - b.y_lo), self.room[1] / (b.z_hi - b.z_lo))

    def x(self, y: float) -> float:
        """Across the page; starboard to the right."""
        return self.left + (y - self.board.y_lo) * self.per_mm

    def y(self, z: float) -> float:
        """Down the page."""
        return self.top + (self.board.z_hi - z) * self.per_mm

    def box(self, r: Rectangle, more: float = 0.0) -> str:
        """A rectangle's attributes; `more` points to the right and down."""
        w, h = (r.y_hi - r.y_lo) * self.per_mm + more, (r.z_hi - r.z_lo) * self.per_mm + more
        return f'x="{self.x(r.y_lo):.1f}" y="{self.y(r.z_hi):.1f}" width="{w:.1f}" height="{h:.1f}"'


def field_page(sheet: Sheet, raster: Raster) -> str:
    """The page of values all over the board."""
    page = Page(sheet.board)
    return _whole(sheet, page, _cells(page, raster, sheet.bands))


def patch_page(sheet: Sheet, patches: Sequence[tuple[Rectangle, float]]) -> str:
    """The page of values on patches; what carries nothing stays blank."""
    page = Page(sheet.board)
    return _whole(sheet, page, _patches(page, patches, sheet.bands))


def figure(sheet: Sheet, values: Raster | Sequence[tuple[Rectangle, float]]) -> str:
    """The board alone, to stand in a document of its own words; `OVER` must stand there once."""
    page = Page(sheet.board, INSET, INSET, FIGURE)
    drawn = _cells(page, values, sheet.bands) if isinstance(values, Raster) else _patches(page, values, sheet.bands)
    wide, high = page.x(sheet.board.y_hi) + INSET, page.y(sheet.board.z_lo) + INSET
    mm, words = sheet.scale
    x, y = page.x(sheet.board.y_lo), high + 10
    return "\n".join((
        f'<svg class="map" viewBox="0 0 {wide:.0f} {high + 24:.0f}" role="img" font-size="{SMALL}" aria-label="{escape(_plain(sheet.title))}">',
        *drawn,
        *_drawn(sheet, page),
        f'<path class="scale" d="M{x:.1f} {y - 4:.1f} v8 m0 -4 h{mm * page.per_mm:.1f} m0 -4 v8" stroke="#000" fill="none"/>',
        _text(x + mm * page.per_mm + 8, y + 4, words),
        "</svg>",
    ))  # fmt: skip


def mark_figures(sheet: Sheet) -> Iterator[tuple[str, str]]:
    """Each mark of the board as a small drawing of its own, and its words."""
    for mark, words in _marks(sheet, 1.0):
        lines = "".join(line.format(y=10.0, top=2.0) for line in mark)
        yield f'<svg class="mark" viewBox="0 0 28 20" aria-hidden="true">{lines}</svg>', words


def swatch(band: Band) -> str:
    """The paint of a band as a small drawing."""
    box = 'x="0.5" y="0.5" width="27" height="17"'
    return f'<svg class="mark" viewBox="0 0 28 18" aria-hidden="true">{_fill(box, band)}<rect {box} fill="none" stroke="#000"/></svg>'


def _patches(page: Page, patches: Sequence[tuple[Rectangle, float]], bands: tuple[Band, ...]) -> list[str]:
    return [_fill(page.box(r), bands[index_of(bands, v)]) for r, v in patches if v > 0]


def _cells(page: Page, raster: Raster, bands: tuple[Band, ...]) -> Iterator[str]:
    """Runs of one band along each row of cells."""
    across = len(raster.y) - 1
    for row in reversed(range(len(raster.z) - 1)):
        at = [-1 if np.isnan(v) else index_of(bands, float(v)) for v in raster.values[:, row]]
        start = 0
        for i in range(1, across + 1):
            if i == across or at[i] != at[start]:
                if at[start] >= 0:
                    run = Rectangle(raster.y[start], raster.y[i], raster.z[row], raster.z[row + 1])
                    yield _fill(page.box(run, OVERLAP), bands[at[start]])
                start = i


def _fill(box: str, band: Band) -> str:
    paint = "url(#over)" if band.over else band.color
    return f'<rect {box} fill="{paint}" shape-rendering="crispEdges"/>'


def _whole(sheet: Sheet, page: Page, values: Sequence[str] | Iterator[str]) -> str:
    bottom = page.y(sheet.board.z_lo)
    legend, legend_end = _legend(sheet)
    words_at = max(bottom + 84, legend_end + GAP)
    words = [line for text in sheet.below for line in wrapped(_plain(text), PER_LINE)]
    height = words_at + LINE * len(words) + 10
    body = [
        *_frame_words(sheet, page, bottom),
        *values,
        *_drawn(sheet, page),
        *legend,
        *(_text(LEFT, words_at + LINE * i, line) for i, line in enumerate(words)),
    ]
    return "\n".join((_head(height, sheet.title), *body, "</svg>", ""))


def _head(height: float, title: str) -> str:
    return (
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH}" height="{height:.0f}"'
        f' viewBox="0 0 {WIDTH} {height:.0f}" font-family="Helvetica, Arial, sans-serif" font-size="{SMALL}">\n'
        f"<title>{escape(_plain(title))}</title>\n"
        f"{OVER}\n"
        f'<rect width="{WIDTH}" height="{height:.0f}" fill="#ffffff"/>'
    )


def _frame_words(sheet: Sheet, page: Page, bottom: float) -> Iterator[str]:
    """Title, heading, which way it is looked at, scale bar."""
    yield _text(LEFT, 30, _short(sheet.heading, 108))
    yield _text(LEFT, 56, _short(sheet.title, 72), size=18, weight="bold")
    middle = (page.x(sheet.board.y_lo) + page.x(sheet.board.y_hi)) / 2
    yield _text(middle, TOP - 22, "TOP EDGE, seen from aft", anchor="middle")
    mm, words = sheet.scale
    x, y = page.x(sheet.board.y_lo), bottom + 52
    yield f'<path class="scale" d="M{x:.1f} {y - 4:.1f} v8 m0 -4 h{mm * page.per_mm:.1f} m0 -4 v8" stroke="#000" fill="none"/>'
    yield _text(x + mm * page.per_mm + 8, y + 4, words)
    yield _text(page.x(sheet.board.y_lo), bottom + 26, "port")
    yield _text(page.x(sheet.board.y_hi), bottom + 26, "starboard", anchor="end")


def _drawn(sheet: Sheet, page: Page) -> Iterator[str]:
    """Outline, pads, supports, holes, bolts over what spreads them, the peak."""
    yield f'<rect {page.box(sheet.board)} fill="none" stroke="#000" stroke-width="1.5"/>'
    for pad in sheet.pads:
        yield f'<rect {page.box(pad)} fill="none" stroke="#fff" stroke-width="2.5"/>'
        yield f'<rect class="pad" {page.box(pad)} {PAD}/>'
    for line in sheet.supports:
        ends = f'x1="{page.x(line.y_lo):.1f}" y1="{page.y(line.z_hi):.1f}" x2="{page.x(line.y_hi):.1f}" y2="{page.y(line.z_lo):.1f}"'
        yield f'<line {ends} stroke="#fff" stroke-width="6"/>'
        yield f'<line class="support" {ends} {SUPPORT}/>'
    for y, z, d in sheet.holes:
        yield f'<circle class="hole" cx="{page.x(y):.1f}" cy="{page.y(z):.1f}" r="{d / 2 * page.per_mm:.1f}" {HOLE}/>'
    for gone in sheet.missing:
        yield f'<rect class="hole" {page.box(gone)} {HOLE}/>'
    for f in sheet.fasteners:
        yield f'<rect class="backing" {page.box(f.plate)} {BACKING}/>'
    for f in sheet.fasteners:
        yield from _bolt(page.x(f.y), page.y(f.z), f.name)
    if sheet.peak is not None:
        yield from _diamond(page.x(sheet.peak.y), page.y(sheet.peak.z), 15)


PAD = 'fill="none" stroke="#000" stroke-width="1" stroke-dasharray="7 3"'
SUPPORT = 'stroke="#000" stroke-width="3" stroke-dasharray="2 4"'
HOLE = 'fill="#fff" stroke="#000" stroke-width="1" stroke-dasharray="2 2"'
BACKING = 'fill="none" stroke="#000" stroke-width="1.5"'


def _bolt(x: float, y: float, name: str) -> Iterator[str]:
    yield f'<circle class="bolt" cx="{x:.1f}" cy="{y:.1f}" r="9" fill="#fff" stroke="#000" stroke-width="1.5"/>'
    yield _text(x, y + 4, name, anchor="middle", weight="bold")


def _diamond(x: float, y: float, r: float) -> Iterator[str]:
    """A ring round a point, bolt and all, that shows on light and dark: black over white."""
    d = f"M{x:.1f} {y - r:.1f} l{r} {r} l-{r} {r} l-{r} -{r} z"
    yield f'<path d="{d}" stroke="#fff" stroke-width="5" fill="none"/>'
    yield f'<path class="peak" d="{d}" stroke="#000" stroke-width="2" fill="none"/>'


def _legend(sheet: Sheet) -> tuple[list[str], float]:
    """Bands, the largest on top, then the marks; and where they end."""
    x, y = LEFT + ROOM[0] + GAP, float(TOP)
    out = []
    for band in reversed(sheet.bands):
        box = f'x="{x:.1f}" y="{y:.1f}" width="26" height="16"'
        out += [_fill(box, band), f'<rect class="legend" {box} fill="none" stroke="#000" stroke-width="0.5"/>']
        out.append(_text(x + 36, y + 12, band.words))
        y += LINE
    y += LINE / 2
    for mark, words in _marks(sheet, x):
        out += [line.format(y=y + 9, top=y + 1) for line in mark]
        out.append(_text(x + 36, y + 13, _short(words, 30)))
        y += LINE + 3
    return out, y


def _marks(sheet: Sheet, x: float) -> Iterator[tuple[tuple[str, ...], str]]:
    spread = f'x="{x + 4:.1f}" y="{{top:.1f}}" width="18" height="16"'
    across = f'x1="{x:.1f}" y1="{{y:.1f}}" x2="{x + 26:.1f}" y2="{{y:.1f}}"'
    if sheet.peak is not None:
        d = f"M{x + 13:.1f} {{top:.1f}} l8 8 l-8 8 l-8 -8 z"
        yield (f'<path d="{d}" stroke="#000" stroke-width="2" fill="none"/>',), "the largest value"
    circle = f'<circle cx="{x + 13:.1f}" cy="{{y:.1f}}" r="8" fill="#fff" stroke="#000" stroke-width="1.5"/>'
    yield (circle,), sheet.key[0]
    yield (f"<rect {spread} {BACKING}/>",), sheet.key[1]
    yield (f"<rect {spread} {PAD}/>",), "bracket's pad"
    yield (f"<line {across} {SUPPORT}/>",), "line that holds the board"
    if sheet.holes or sheet.missing:
        yield (f"<rect {spread} {HOLE}/>",), "opening, notch or cut corner"


def _text(x: float, y: float, words: str, *, anchor: str = "start", size: int = SMALL, weight: str = "normal") -> str:
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}" font-size="{size}" font-weight="{weight}">'
        f"{escape(_plain(words))}</text>"
    )


def _plain(words: str) -> str:
    """On one line, without what XML does not allow."""
    return "".join(c for c in clean(words) if c.isprintable())


def _short(words: str, most: int) -> str:
    text = _plain(words)
    return text if len(text) <= most else text[: most - 3].rstrip() + "..."
