"""The geometry of a mount as it goes to the bench. Frozen records, lengths in mm, no drawing.

Across `y` is from the center line, starboard positive; `down` is from the board's top edge, along the board.
Seen from aft, starboard is on the right. `x` in the stack runs forward from the aft face of whatever lies
farthest aft, so that a section reads from the bolt's head to its nut.
"""

import math
from dataclasses import field
from functools import cached_property

from transom.frozen import dataclass

AFT, FORWARD = "aft", "forward"
ENGINE, FRAME, OPENING = "engine", "frame", "opening"
# Where a hole's place comes from: the job states it; nobody measured it; the tool lays it out.
STATED, ASSUMED, CHOSEN = "stated", "assumed", "chosen"


@dataclass(frozen=True)
class Circle:
    """A round thing: middle and diameter."""

    y: float
    down: float
    diameter: float
    what: str = ""


@dataclass(frozen=True)
class Rect:
    """A rectangle square to the board, its corners rounded to `radius`; `top` < `bottom`, both down."""

    y_lo: float
    y_hi: float
    top: float
    bottom: float
    radius: float = 0.0

    @property
    def width(self) -> float:
        """Across."""
        return self.y_hi - self.y_lo

    @property
    def height(self) -> float:
        """Along the board, top to bottom."""
        return self.bottom - self.top

    @property
    def middle(self) -> tuple[float, float]:
        """Across and down of the middle."""
        return (self.y_lo + self.y_hi) / 2, (self.top + self.bottom) / 2


Point = tuple[float, float]


@dataclass(frozen=True)
class Cut:
    """What is cut off both top or both bottom corners; `shape` is straight, round (width and height alike) or square."""

    width: float = 0.0
    height: float = 0.0
    shape: str = "straight"

    def __bool__(self) -> bool:
        """True where something is cut off."""
        return self.width > 0 and self.height > 0

    @property
    def area(self) -> float:
        """Area of one, mm2."""
        return {"straight": 0.5, "round": 1.0 - math.pi / 4, "square": 1.0}[self.shape] * self.width * self.height

    def line(self) -> tuple[Point, ...]:
        """From the edge to the side, inward from the corner (in from the side, in from the edge); a curve as short lines."""
        w, h = self.width, self.height
        if not self:
            return ((0.0, 0.0),)
        if self.shape == "round":
            n = max(4, math.ceil(math.pi / 4 / math.acos(1.0 - min(SAGITTA / w, 0.5))))
            turns = [math.pi / 2 * i / n for i in range(1, n)]
            return ((w, 0.0), *((w * (1.0 - math.sin(a)), h * (1.0 - math.cos(a))) for a in turns), (0.0, h))
        return ((w, 0.0), *(((w, h),) if self.shape == "square" else ()), (0.0, h))


SAGITTA = 0.05  # mm between a rounded corner and the short lines it is drawn as


@dataclass(frozen=True)
class Outline:
    """The board's edge, its notch taken out of the middle of the top edge, its corners square or cut off."""

    width: float
    height: float
    notch_width: float = 0.0
    notch_depth: float = 0.0
    top: Cut = Cut()
    bottom: Cut = Cut()

    @property
    def notched(self) -> bool:
        """True where the top edge has a notch."""
        return self.notch_width > 0 and self.notch_depth > 0

    @property
    def cut(self) -> bool:
        """True where corners are cut off."""
        return bool(self.top) or bool(self.bottom)

    @property
    def top_half(self) -> float:
        """From the center line to the end of the top edge."""
        return self.width / 2 - (self.top.width if self.top else 0.0)

    @property
    def bottom_half(self) -> float:
        """From the center line to the end of the bottom edge."""
        return self.width / 2 - (self.bottom.width if self.bottom else 0.0)

    @property
    def side(self) -> float:
        """Length of a side between its cut corners."""
        return self.height - sum(c.height for c in (self.top, self.bottom) if c)

    @cached_property
    def corners(self) -> tuple[Point, ...]:
        """Corners (y, down), once round with the clock as seen from aft, from the top port corner; not closed."""
        w, h, n, d = self.width / 2, self.height, self.notch_width / 2, self.notch_depth
        notch = ((-n, 0.0), (-n, d), (n, d), (n, 0.0)) if self.notched else ()
        top, bottom = self.top.line(), self.bottom.line()
        return (
            *((y - w, z) for y, z in reversed(top)), *notch, *((w - y, z) for y, z in top),
            *((w - y, h - z) for y, z in reversed(bottom)), *((y - w, h - z) for y, z in bottom),
        )  # fmt: skip

    @property
    def rect(self) -> Rect:
        """The rectangle the board is sawn as, notch and corners not yet off."""
        return Rect(-self.width / 2, self.width / 2, 0.0, self.height)

    @property
    def area(self) -> float:
        """Area of one face, mm2."""
        notch = self.notch_width * self.notch_depth if self.notched else 0.0
        return self.width * self.height - notch - 2 * sum(c.area for c in (self.top, self.bottom) if c)


@dataclass(frozen=True)
class Hole:
    """A hole through the board.

    Attributes:
        name: A, B, C ... for the engine's, as on the maps; F1, F2 ... for the frame's; O1 ... for openings.
        words: where it is, in the trade's words ("upper port").
        bolt: nominal diameter of the bolt; 0 for an opening.
        final: the drill that finishes the hole, a stocked size.
        over_bore: the stocked bore for the epoxy plug, before `final`; 0 where none is bored.
        place: STATED in the job, ASSUMED (measure, or mark through from the part), or CHOSEN by the tool.
        kept: True where it meets a hole that is already in the frame: mark it through from there.
    """

    name: str
    words: str
    y: float
    down: float
    purpose: str
    bolt: float
    final: float
    over_bore: float = 0.0
    place: str = STATED
    kept: bool = False

    @property
    def largest(self) -> float:
        """The largest diameter ever cut here."""
        return max(self.final, self.over_bore)


@dataclass(frozen=True)
class Plate:
    """A metal plate on the board; `holes` are drilled to `Circle.diameter`. `metal` is its name in the tables."""

    name: str
    face: str
    rect: Rect
    thickness: float
    metal: str
    title: str
    holes: tuple[Circle, ...]


@dataclass(frozen=True)
class Washer:
    """A washer about a bolt: round (`side` 0), or a plate washer `side` mm square."""

    at: str
    face: str
    y: float
    down: float
    hole: float
    outside: float
    thickness: float
    words: str
    square: bool = False

    @property
    def rect(self) -> Rect:
        """The square about it."""
        half = self.outside / 2
        return Rect(self.y - half, self.y + half, self.down - half, self.down + half)


@dataclass(frozen=True)
class Pad:
    """Where the engine's bracket bears on the aft face."""

    rect: Rect
    place: str


@dataclass(frozen=True)
class KeepOut:
    """Nothing may lie here on a face: an obstruction with room about it, or the frame's own flange."""

    what: str
    face: str
    rect: Rect | None = None
    circle: Circle | None = None


@dataclass(frozen=True)
class LayerPart:
    """One sheet of the stack; `number` counts from the aft face. `grain` is across (sideways) or along (up)."""

    number: int
    sheet: str
    nominal: str
    panel: str
    thickness: float
    grain: str
    outline: Outline


@dataclass(frozen=True)
class Slice:
    """A thickness in the stack at an engine bolt, between two x; `kind` is wood, glue, coat, ear, plate or washer."""

    kind: str
    words: str
    x_aft: float
    x_fore: float
    reach: float = 0.0  # half its size up and down the board where it does not run past the section; 0 runs past

    @property
    def thickness(self) -> float:
        """How thick it is."""
        return self.x_fore - self.x_aft


@dataclass(frozen=True)
class Bolt:
    """An engine bolt in its stack: head against x = 0, nut from `grip` on.

    `thread` is the length that is threaded, from the tip back; `beyond` what shows past the nut.
    """

    name: str
    d: float
    pitch: float
    length: float
    thread: float
    grip: float
    head: float
    head_flats: float
    nut: float
    nut_flats: float
    grade: str

    @property
    def shank(self) -> float:
        """Plain length under the head."""
        return self.length - self.thread

    @property
    def beyond(self) -> float:
        """What shows past the nut; negative where the bolt is too short."""
        return self.length - self.grip - self.nut


@dataclass(frozen=True)
class Stack:
    """What the bolt goes through, aft to forward; no bolt where clamp screws hold the engine."""

    slices: tuple[Slice, ...]
    bolt: Bolt | None
    wood: float
    coated: float
    total: float  # under the bracket

    @property
    def depth(self) -> float:
        """From the aft face of the first slice to the forward face of the last."""
        return self.slices[-1].x_fore


@dataclass(frozen=True)
class Identity:
    """What stands on every page and every tile.

    Attributes:
        paper: QUOTE, CUT or RECORD.
        draft: why this is a DRAFT, one reason each; empty where all that decides is measured.
        fails: why it DOES NOT PASS, one reason each; empty where it passes.
        accepted: stops that somebody took on: what, name, date, paper.
        cautions: every caution of the judgement, those of this job first.
        units: us or si, how lengths read.
    """

    name: str
    number: str
    revision: str
    date: str
    paper: str
    draft: tuple[str, ...]
    fails: tuple[str, ...]
    accepted: tuple[str, ...]
    cautions: tuple[str, ...]
    units: str
    tool: str
    sha256: str = ""


@dataclass(frozen=True)
class Drawing:
    """Everything the writers draw. `plates` and `washers` on either face; `lean` in rad, top aft.

    `doubts` are what the drawing cannot vouch for: places assumed, things that reach past an edge.
    """

    identity: Identity
    outline: Outline
    lean: float
    holes: tuple[Hole, ...]
    plates: tuple[Plate, ...]
    washers: tuple[Washer, ...]
    pads: tuple[Pad, ...]
    keep_outs: tuple[KeepOut, ...]
    layers: tuple[LayerPart, ...]
    stack: Stack
    held_by: str  # bolts | clamps
    frame_kind: str  # pod | uprights | cap rail
    torque: float = 0.0  # N*mm; 0 where clamps hold the engine
    doubts: tuple[str, ...] = field(default=())

    def of(self, purpose: str) -> tuple[Hole, ...]:
        """The holes of one purpose, in order."""
        return tuple(h for h in self.holes if h.purpose == purpose)
