"""How high to hang the engine, in words: where to start, how to test, what to look at after any move."""

from collections.abc import Iterator

from transom.judge.records import Judgement
from transom.loads.height import Hung
from transom.quantity import show
from transom.report.text import block, columns, rule

RECHECK = "After any move: steering lock to lock, full tilt, hoses and cables clear of board, deck and motor well; bolts tight."
LEVEL = 1.0  # mm; nearer than a tape reads


def height_block(j: Judgement) -> Iterator[str]:
    """Where to start, in a few lines."""
    yield from block("HEIGHT", height_words(j))


def height_words(j: Judgement) -> str:
    """The hole to start with, where the plate then is, what the trade starts with, the test."""
    h, units = j.height, j.job.head.units
    where, first = bottom_words(j), h.start
    assumed = "" if j.facts["boat.bottom"].evidence == "stated" else f" ({where} assumed at the shaft class: tape it)"
    band = f"{_side(h.low, units)} to {_side(h.high, units)}"
    text = f"start by hole {first.hole}{' (lowest)' * (first.hole == 1)}: cav plate {_side(first.plate_above, units)} the {where}{assumed}"
    if h.within:
        text += f"; shop practice starts {band}"
    elif first.plate_above > h.high:
        text += f", HIGHER than shop practice starts ({band}): a longer shaft, or a lower top edge"
    else:
        text += f", LOWER than shop practice starts ({band}): a shorter shaft, or a higher top edge"
    return f"{text}. Then test: a hole up until it blows out in turns, one back; watch the water pressure. {RECHECK}"


def bottom_words(j: Judgement) -> str:
    """What the height is measured against."""
    return "tube bottom" if j.job.boat.kind == "pontoon" else "hull bottom"


def _side(mm: float, units: str) -> str:
    if abs(mm) < LEVEL:
        return "level with"
    return f"{show.length(abs(mm), units)} {'above' if mm > 0 else 'below'}"


def height_table(j: Judgement) -> Iterator[str]:
    """Every hole, for `--details`."""
    yield rule("=")
    yield f" HEIGHT, hole by hole, 3/4 in apart, against the {bottom_words(j)}; leg upright"
    rows = [("hole", "raised", "cav plate", "propeller shaft", "top blade tip")]
    yield from columns([*rows, *(_row(r, j.job.head.units) for r in j.height.rows)], (8, 12, 20, 20, 18))


def _row(r: Hung, units: str) -> tuple[str, ...]:
    return (
        f"{r.hole}{' lowest' * (r.hole == 1)}",
        show.length(r.raised, units),
        _side(r.plate_above, units),
        _side(-r.shaft_below, units),
        _side(-r.tip_below, units),
    )
