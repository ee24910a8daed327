"""What a view is made of: paths, rings and labels, each with its purpose. Lengths in mm, x to the right, y up.

A purpose says what a thing is for; each writer decides how that looks, and the cut file gives each its layer.
"""

from transom.frozen import dataclass

OUTLINE, CENTER, TOP_EDGE = "outline", "center", "top-edge"
BORE, DRILL, MARK = "bore", "drill", "mark"
FRAME_NEW, FRAME_KEPT, OPENING_HOLE = "frame-new", "frame-kept", "opening"
PLATE, PLATE_HOLE, WASHER = "plate", "plate-hole", "washer"
PAD, KEEP_OUT, FLANGE = "pad", "keep-out", "flange"
GRAIN, TEXT, DIMENSION, EXTENSION = "grain", "text", "dimension", "extension"
WOOD, GLUE, COAT, METAL, EPOXY, BOLT, THREAD = "wood", "glue", "coat", "metal", "epoxy", "bolt", "thread"
# Of a chart: axes, marks across the field, what the trade builds, a limit; a line of each panel and its marks.
AXIS, STEP, TRADE, LIMIT = "axis", "step", "trade", "limit"
SERIES = ("series-1", "series-2", "series-3", "series-4")
NO_BOARD, FULL_MARK, OPEN_MARK, OWN_MARK = "no-board", "full-mark", "open-mark", "own-mark"

Point = tuple[float, float]


@dataclass(frozen=True)
class Box:
    """A rectangle on the page."""

    x_lo: float
    y_lo: float
    x_hi: float
    y_hi: float

    @property
    def width(self) -> float:
        """Across."""
        return self.x_hi - self.x_lo

    @property
    def height(self) -> float:
        """Up."""
        return self.y_hi - self.y_lo

    def grown(self, by: float) -> "Box":
        """Larger by so much on every side."""
        return Box(self.x_lo - by, self.y_lo - by, self.x_hi + by, self.y_hi + by)

    def meets(self, other: "Box") -> bool:
        """True where the two overlap."""
        return (
            self.x_lo < other.x_hi and other.x_lo < self.x_hi and self.y_lo < other.y_hi and other.y_lo < self.y_hi
        )  # fmt: skip

    def holds(self, other: "Box") -> bool:
        """True where the other lies wholly inside."""
        return (
            self.x_lo <= other.x_lo and other.x_hi <= self.x_hi and self.y_lo <= other.y_lo and other.y_hi <= self.y_hi
        )  # fmt: skip


@dataclass(frozen=True)
class Path:
    """Straight lines; a closed path may have its corners rounded to `radius`."""

    purpose: str
    points: tuple[Point, ...]
    closed: bool = False
    radius: float = 0.0

    @property
    def box(self) -> Box:
        """What it lies in."""
        xs, ys = zip(*self.points, strict=True)
        return Box(min(xs), min(ys), max(xs), max(ys))


@dataclass(frozen=True)
class Ring:
    """A circle."""

    purpose: str
    x: float
    y: float
    diameter: float

    @property
    def box(self) -> Box:
        """What it lies in."""
        r = self.diameter / 2
        return Box(self.x - r, self.y - r, self.x + r, self.y + r)


@dataclass(frozen=True)
class Label:
    """One line of words; x, y is the middle of its left end, middle or right end. `size` is the font's, mm."""

    x: float
    y: float
    words: str
    size: float
    anchor: str = "middle"  # start | middle | end
    upright: bool = False  # turned to read from the right
    bold: bool = False
    purpose: str = TEXT

    @property
    def box(self) -> Box:
        """What it lies in, on the large side."""
        w, h = text_width(self.words, self.size), self.size
        before = {"start": 0.0, "middle": w / 2, "end": w}[self.anchor]
        if self.upright:
            return Box(self.x - h / 2, self.y - before, self.x + h / 2, self.y + w - before)
        return Box(self.x - before, self.y - h / 2, self.x + w - before, self.y + h / 2)


@dataclass(frozen=True)
class Arrow:
    """A line with a head at its end, or at both."""

    purpose: str
    start: Point
    end: Point
    both: bool = False
    head: float = 3.0

    @property
    def box(self) -> Box:
        """What it lies in."""
        return Path(self.purpose, (self.start, self.end)).box


Shape = Path | Ring | Label | Arrow


@dataclass(frozen=True)
class Scene:
    """One view: what it is called, what it shows, and the room it takes."""

    title: str
    shapes: tuple[Shape, ...]
    box: Box


def rectangle(purpose: str, box: Box, radius: float = 0.0) -> Path:
    """A closed rectangle."""
    corners = ((box.x_lo, box.y_hi), (box.x_hi, box.y_hi), (box.x_hi, box.y_lo), (box.x_lo, box.y_lo))
    return Path(purpose, corners, True, radius)


def cross(purpose: str, x: float, y: float, reach: float) -> tuple[Path, Path]:
    """Two strokes through a point."""
    return Path(purpose, ((x - reach, y), (x + reach, y))), Path(purpose, ((x, y - reach), (x, y + reach)))


WIDE, CAPITAL, NARROW = "MWmw@%", 0.74, "iIjl.,:;'|!()[]ft/ -"


def text_width(words: str, size: float) -> float:
    """How long a line of a plain sans-serif face is, mm, on the large side."""
    return size * sum(0.92 if c in WIDE else 0.36 if c in NARROW else CAPITAL if c.isupper() else 0.58 for c in words)


def clipped(words: str, size: float, room: float) -> str:
    """The words, cut short with three dots where they are longer than the room."""
    if text_width(words, size) <= room:
        return words
    while words and text_width(words + "...", size) > room:
        words = words[:-1]
    return words.rstrip() + "..."


def around(shapes: tuple[Shape, ...]) -> Box:
    """The box about some shapes."""
    boxes = [s.box for s in shapes]
    return Box(
        min(b.x_lo for b in boxes), min(b.y_lo for b in boxes), max(b.x_hi for b in boxes), max(b.y_hi for b in boxes)
    )  # fmt: skip
