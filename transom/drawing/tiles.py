"""How a full-size view is cut into pages that lie over one another: which way the paper lies, and where each tile is.

A page has margins that no printer needs, a band for words and the check square, and a window onto the view.
Registration marks stand a round number apart, so that a page is checked with a tape from mark to mark.
"""

import math
from itertools import product

from transom.drawing.shapes import Box
from transom.frozen import dataclass

MARGIN = 6.0  # mm on every side
OVERLAP = 12.0  # mm at least
BOTTOM_BAND, SIDE_BAND = 34.0, 60.0  # mm
INCH = 25.4


@dataclass(frozen=True)
class Paper:
    """A sheet of paper, upright, mm. A roll is as long as the view wants."""

    name: str
    width: float
    height: float
    roll: bool = False


PAPERS = {
    "letter": Paper("letter", 8.5 * INCH, 11 * INCH),
    "a4": Paper("a4", 210.0, 297.0),
    "tabloid": Paper("tabloid", 11 * INCH, 17 * INCH),
    "roll": Paper("roll", 36 * INCH, 36 * INCH, roll=True),
}


@dataclass(frozen=True)
class Layout:
    """One way to put a view on paper. `window` and `band` are on the page, from its lower left corner, mm.

    Tile (i, j) is the i-th from the left and the j-th from the top; `origin` is the view's upper left mark.
    `step` is from a registration mark to the next.
    """

    page: tuple[float, float]
    window: Box
    band: Box
    side_band: bool
    columns: int
    rows: int
    step: tuple[float, float]
    origin: tuple[float, float]

    @property
    def tiles(self) -> list[tuple[int, int]]:
        """All tiles, row by row."""
        return [(i, j) for j in range(self.rows) for i in range(self.columns)]

    def marks(self, i: int, j: int) -> tuple[float, float, float, float]:
        """Where the marks of a tile stand in the view: left, right, bottom, top."""
        left, top = self.origin[0] + i * self.step[0], self.origin[1] - j * self.step[1]
        return left, left + self.step[0], top - self.step[1], top

    def inset(self) -> tuple[float, float]:
        """From the window's edges to its marks."""
        return (self.window.width - self.step[0]) / 2, (self.window.height - self.step[1]) / 2

    def seen(self, i: int, j: int) -> Box:
        """What of the view a tile shows."""
        left, right, bottom, top = self.marks(i, j)
        dx, dy = self.inset()
        return Box(left - dx, bottom - dy, right + dx, top + dy)


def lay_out(view: Box, paper: Paper, units: str, band: float = BOTTOM_BAND) -> Layout:
    """The way that takes fewest pages, with a band at least `band` mm high where it lies below."""
    found = [_try(view, page, side, units, band) for page, side in product(_pages(view, paper, band), (False, True))]
    return min(found, key=lambda f: (f.columns * f.rows, f.page[0] * f.page[1], f.side_band, f.page))


def _pages(view: Box, paper: Paper, band: float) -> list[tuple[float, float]]:
    if not paper.roll:
        return [(paper.width, paper.height), (paper.height, paper.width)]
    around = 2 * MARGIN + 2 * OVERLAP
    long = max(view.width, 200.0) + around, max(view.height, 100.0) + band + around
    # Across the roll or along it, whichever goes on its width.
    pages = [(paper.width, long[1])] if long[0] <= paper.width else []
    pages += [(long[0], paper.width)] if long[1] <= paper.width else []
    return pages or [(paper.width, max(paper.height, long[1]))]


def _try(view: Box, page: tuple[float, float], side: bool, units: str, high: float) -> Layout:
    inner = Box(MARGIN, MARGIN, page[0] - MARGIN, page[1] - MARGIN)
    if side:
        window = Box(inner.x_lo, inner.y_lo, inner.x_hi - SIDE_BAND, inner.y_hi)
        band = Box(inner.x_hi - SIDE_BAND, inner.y_lo, inner.x_hi, inner.y_hi)
    else:
        window = Box(inner.x_lo, inner.y_lo + high, inner.x_hi, inner.y_hi)
        band = Box(inner.x_lo, inner.y_lo, inner.x_hi, inner.y_lo + high)
    grid = INCH / 4 if units == "us" else 5.0
    columns, step_x = _cut(view.width, window.width, grid)
    rows, step_y = _cut(view.height, window.height, grid)
    origin = (
        (view.x_lo + view.x_hi) / 2 - columns * step_x / 2,
        (view.y_lo + view.y_hi) / 2 + rows * step_y / 2,
    )
    return Layout(page, window, band, side, columns, rows, (step_x, step_y), origin)


def _cut(length: float, window: float, grid: float) -> tuple[int, float]:
    """How many windows cover a length, and how far apart their marks stand.

    A single window must show the length whole; its marks stand inside it all the same.
    """
    step = math.floor((window - OVERLAP) / grid + 1e-9) * grid
    if length <= window:
        return 1, step
    # What the outermost windows show past their marks counts too.
    return max(2, math.ceil((length - (window - step)) / step - 1e-9)), step
