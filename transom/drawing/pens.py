"""How each purpose looks in black on white: line width in mm, dashes in mm, gray of the line and of the filling."""

from transom.drawing import shapes as s
from transom.frozen import dataclass


@dataclass(frozen=True)
class Pen:
    """A line: width and dashes in mm, gray 0 (black) to 1; `fill` likewise, None for no filling."""

    width: float
    dash: tuple[float, ...] = ()
    gray: float = 0.0
    fill: float | None = None


PENS = {
    s.OUTLINE: Pen(0.6),
    s.TOP_EDGE: Pen(0.9),
    s.CENTER: Pen(0.25, (9.0, 2.0, 2.0, 2.0)),
    s.BORE: Pen(0.4),
    s.DRILL: Pen(0.4),
    s.MARK: Pen(0.15),
    s.FRAME_NEW: Pen(0.4),
    s.FRAME_KEPT: Pen(0.3, (0.9, 0.7)),
    s.OPENING_HOLE: Pen(0.4),
    s.PLATE: Pen(0.5, (), 0.0),
    s.PLATE_HOLE: Pen(0.4),
    s.WASHER: Pen(0.25, (), 0.35),
    s.PAD: Pen(0.3, (5.0, 2.0), 0.3),
    s.KEEP_OUT: Pen(0.4, (1.0, 1.5)),
    s.FLANGE: Pen(0.25, (3.0, 1.5), 0.45),
    s.GRAIN: Pen(0.6, (), 0.3),
    s.TEXT: Pen(0.2),
    s.DIMENSION: Pen(0.25),
    s.EXTENSION: Pen(0.15),
    s.WOOD: Pen(0.35, (), 0.0, 0.93),
    s.GLUE: Pen(0.0, (), 0.0, 0.0),
    s.COAT: Pen(0.0, (), 0.0, 0.55),
    s.METAL: Pen(0.35, (), 0.0, 0.78),
    s.EPOXY: Pen(0.2, (), 0.0, 0.85),
    s.BOLT: Pen(0.4, (), 0.0, 1.0),
    s.THREAD: Pen(0.2, (1.2, 0.8)),
    s.AXIS: Pen(0.35),
    s.STEP: Pen(0.15, (0.5, 1.2), 0.35),
    s.TRADE: Pen(0.0, (), 0.0, 0.85),
    s.LIMIT: Pen(0.5, (7.0, 1.5, 1.0, 1.5)),
    s.SERIES[0]: Pen(0.7),
    s.SERIES[1]: Pen(0.7, (4.0, 1.6)),
    s.SERIES[2]: Pen(0.7, (1.2, 1.2)),
    s.SERIES[3]: Pen(0.7, (7.0, 1.4, 1.4, 1.4)),
    s.NO_BOARD: Pen(0.25, (0.8, 1.2)),
    s.FULL_MARK: Pen(0.35, (), 0.0, 0.0),
    s.OPEN_MARK: Pen(0.35, (), 0.0, 1.0),
    s.OWN_MARK: Pen(0.8, (), 0.0, 1.0),
}
