"""Before the trial: what to watch, and the limits it is held against."""

from collections.abc import Iterator

from transom.formula import formula
from transom.frozen import dataclass
from transom.judge.records import Judgement
from transom.quantity import show
from transom.report.ruler import ruler_words
from transom.units import ONE, PER_S

HALF_BAND = 500.0 / 60.0  # 1/s
START_HEIGHT = (0.0, 25.4)  # mm, anti-ventilation plate above the bottom


@formula(
    symbol="n_low",
    source="full-throttle bands are about 1,000 rpm wide: two owners' manuals; the engine's own manual wins",
    evidence="common practice",
    known_by="memory",
)
def band_low(n: PER_S, half: PER_S = HALF_BAND) -> PER_S:
    """Least full-throttle engine speed of a sound match of propeller and engine."""
    return n - half


@formula(
    symbol="n_high",
    source="full-throttle bands are about 1,000 rpm wide: two owners' manuals; the engine's own manual wins",
    evidence="common practice",
    known_by="memory",
)
def band_high(n: PER_S, half: PER_S = HALF_BAND) -> PER_S:
    """Most full-throttle engine speed."""
    return n + half


@formula(symbol="w/w_0", source="definition", known_by="derived")
def times_predicted(moved: ONE, predicted: ONE) -> ONE:
    """How many times the predicted movement was found."""
    return moved / predicted


@dataclass(frozen=True)
class Watch:
    """One thing to watch: where, and the limit or what is right."""

    what: str
    limit: str


def watches(j: Judgement) -> Iterator[Watch]:
    """Everything to watch on the trial, dock first."""
    units = j.job.head.units
    n = j.facts["engine.propeller.speed"]
    low, high = (show.rotation(f) for f in (float(band_low(n.value)), float(band_high(n.value))))
    manual = "" if n.evidence == "stated" else " (rated speed assumed)"
    yield Watch("on a hose", "idle only, water on first, propeller clear and nobody near it; never full throttle")
    yield Watch("ruler check", ruler_words(j) or "somebody's weight on the cav plate, a rule at the top edge")
    yield Watch("start height", _height(units))
    yield Watch("lock to lock", "both ways, engine down and half up: nothing touches, cables not stretched")
    yield Watch("tilt", "full up and down: clear of splash well, board, wires, fuel line")
    yield Watch("bilge", "dry before, after ten minutes and at the end; every bolt looked at from inside")
    yield Watch("temperature", "tell-tale runs, alarm silent; bolts and plates hand-warm at most")
    yield Watch("full throttle", f"{low} to {high}{manual}; the engine manual's band goes before it")
    yield Watch("turns", "hard over from half throttle both ways: no ventilation; if it lets go, lower it a hole")
    yield Watch(
        "mount",
        "a second person watches board and frame: no gap opens, nothing creaks, nothing moves against a pencil mark",
    )
    yield Watch("afterwards", "re-torque after this run; look at every weld of pod or bracket with the boat out")


def _height(units: str) -> str:
    low, high = (show.length(mm, units, step="1/4", step_mm="5") for mm in START_HEIGHT)
    return f"anti-ventilation plate {low} to {high} above the hull's or tubes' bottom, then up hole by hole until it ventilates in a turn, and one back"
