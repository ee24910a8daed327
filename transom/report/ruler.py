"""The ruler check in words: somebody's weight on the anti-ventilation plate, and what a ruler then shows."""

import math
from collections.abc import Iterator

from transom.judge.records import Judgement
from transom.quantity import show
from transom.report.amounts import tape
from transom.report.text import block

MARKS = {"us": float(show.INCH) / 32, "si": 1.0}  # mm, what a ruler is read to
FINEST = {"us": "1/64 in", "si": "0.1 mm"}


def next_mark(mm: float, units: str) -> float:
    """The next mark of a ruler at or above a movement, mm."""
    mark = MARKS[units]
    return max(1, math.ceil(mm / mark - 1e-9)) * mark


def ruler_check(j: Judgement) -> Iterator[str]:
    """What the finished board should show, and when to stop and look."""
    if text := ruler_words(j):
        yield from block("RULER CHECK", text, at=14)


def ruler_words(j: Judgement) -> str:
    """The same in one paragraph; nothing where no plate was run."""
    r, units = j.ruler, j.job.head.units
    if r is None:
        return ""
    point = "the middle of the top edge" if r.down == 0 else f"the board, {tape(r.down, units)} below its top edge,"
    return (
        f"{show.mass(r.mass, units)} on the cav plate, {tape(r.at, units)} aft of the board, leg down, moves {point}"
        f" {about(r.moves, units)} against the frame's sides. {show.length(next_mark(r.limit, units), units)} or more:"
        " stop and look. Board alone, frame taken as rigid."
    )


def about(mm: float, units: str) -> str:
    """A movement as a steel rule shows it."""
    shown = show.length(mm, units, step="1/64", step_mm="0.1")
    nothing = show.length(0.0, units, step="1/64", step_mm="0.1")
    return f"less than {FINEST[units]}" if shown == nothing else f"about {shown}"
