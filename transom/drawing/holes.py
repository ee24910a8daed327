"""Every hole through the board: the engine's, the frame's, and the openings."""

import math
from collections.abc import Iterator, Sequence
from string import ascii_uppercase

import numpy as np

from transom.drawing.drills import stocked
from transom.drawing.identity import holes_assumed
from transom.drawing.records import ASSUMED, CHOSEN, ENGINE, FRAME, OPENING, STATED, Hole
from transom.job.records import Mount
from transom.judge.records import Judgement
from transom.maths import scalar
from transom.setup.records import FrameHold

Place = tuple[str, float, float]  # words, across, down


def holes(j: Judgement, mount: Mount) -> tuple[Hole, ...]:
    """All holes through the board, the engine's first."""
    return (*engine_holes(j, mount), *frame_holes(j), *openings(j))


def engine_holes(j: Judgement, mount: Mount) -> Iterator[Hole]:
    """The engine bolts' holes: bored over size, filled, drilled to a stocked size. None where clamps hold it."""
    if j.setup.holding.by == "clamps" or mount.engine_bolts is None:
        return
    units, tables = j.job.head.units, j.setup.tables
    d = tables.thread(mount.engine_bolts.thread).d_mm
    final = stocked(d + tables.factor("board.bolt_clearance_mm").value, units)
    # Never larger than the bore the checks took out of the wood.
    bore = stocked(d + j.setup.factors.over_bore, units, "down")
    assumed = holes_assumed(j)
    for name, (words, y, down) in zip(ascii_uppercase, _engine_places(j), strict=False):
        yield Hole(name, words, y, down, ENGINE, d, final, bore, ASSUMED if assumed else STATED)


def _engine_places(j: Judgement) -> list[Place]:
    h = j.setup.holding
    y, down = np.ravel(h.bolt_y).tolist(), (-np.ravel(h.bolt_z)).tolist()
    rows = sorted({round(d, 1) for d in down})
    return [(f"{_row(rows, d)} {_side(a)}", a, d) for a, d in zip(y, down, strict=True)]


def _row(rows: Sequence[float], down: float) -> str:
    at = rows.index(round(down, 1))
    return "upper" if at == 0 else "lower" if at == len(rows) - 1 else f"row {at + 1}"


def _side(y: float) -> str:
    return "starboard" if y > 0 else "port" if y < 0 else "middle"


def frame_holes(j: Judgement) -> Iterator[Hole]:
    """Bolts from board to frame, evenly along each line, as they are judged.

    Holes that are there already are where they are: their places here are only assumed. Those added between
    them are assumed too; a pattern all new is the tool's choice.
    """
    bolts = j.setup.job.frame.bolts
    places, d = (
        list(frame_places(j.setup.frame, scalar(j.setup.place.z_bottom))),
        float(np.ravel(j.setup.frame.bolts.d)[0]),
    )
    more = next((a.more for a in j.fasteners if a.joint == "frame"), 0)
    old = bolts is not None and bolts.keep
    added = set(_spread(len(places), more)) if old else set(range(len(places)))
    final = stocked(d + j.setup.tables.factor("board.bolt_clearance_mm").value, j.job.head.units)
    units, place = j.job.head.units, ASSUMED if old else CHOSEN
    for i, (words, *at) in enumerate(places):
        y, down = (on_tape(v, units) for v in at)
        yield Hole(f"F{i + 1}", words, y, down, FRAME, d, final, 0.0, place, kept=i not in added)


def on_tape(mm: float, units: str) -> float:
    """A place that the tool chooses, as a tape reads it: to 1/32 in or half a millimeter."""
    step = 25.4 / 32 if units == "us" else 0.5
    return math.floor(mm / step + 0.5) * step


def _spread(n: int, count: int) -> list[int]:
    """`count` of n places, as evenly as they go."""
    return [int((i + 0.5) * n / count) for i in range(min(count, n))]


def frame_places(f: FrameHold, bottom: float) -> Iterator[Place]:
    """Where a group of frame bolts stands: port line, starboard line, bottom line (`bottom` down), top line."""
    span, first, pitch = scalar(f.span), scalar(f.first), scalar(f.side_pitch)
    for side, words in ((-1.0, "port"), (1.0, "starboard")):
        for i in range(round(scalar(f.n_side))):
            yield f"{words} line {i + 1}", side * span / 2, first + i * pitch
    for count, words, down in ((f.n_bottom, "bottom", bottom), (f.n_top, "top", scalar(f.top))):
        n, pitch = round(scalar(count)), scalar(f.end_pitch)
        for i in range(n):
            yield f"{words} line {i + 1}", pitch * (i - (n - 1) / 2), down


def openings(j: Judgement) -> Iterator[Hole]:
    """What else goes through the board, at its own size."""
    for i, o in enumerate(j.job.board.openings, 1):
        yield Hole(f"O{i}", o.what or f"opening {i}", o.y, o.down, OPENING, 0.0, o.diameter)
