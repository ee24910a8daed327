"""Which powers a chart is worked out at: what engines are sold with, within what was asked for."""

from collections.abc import Mapping

from transom.catalogue import Catalogue, load
from transom.chart.usual import usual
from transom.errors import JobError
from transom.job.faults import listed
from transom.job.records import Job
from transom.judge.judging import prepared
from transom.judge.stops import ROUNDING
from transom.quantity import show

NEAR = 0.06  # a usual power nearer to an end than this share of it is left out


def asked(low: float, high: float) -> tuple[float, ...]:
    """The two ends (W), and the usual powers between them."""
    between = (p for p in sold() if low * (1 + NEAR) < p < high * (1 - NEAR))
    return (low, *between, *((high,) if high > low else ()))


def sold() -> tuple[float, ...]:
    """Powers that engines are usually sold with, W, rising: the rows of the table of propellers."""
    return tuple(row.power_W for row in load("propellers"))


def usual_powers(job: Job, tables: Catalogue) -> tuple[float, ...]:
    """What a chart shows where nobody said: all that are sold, with clamps those that clamps alone hold."""
    clamped = tables.factor("clamps.up_to_W").value * ROUNDING
    most = clamped if job.engine.held_by == "clamps" else tables.factor("scope.power_max_W").value
    return tuple(p for p in sold() if p <= most)


def judged(job: Job, tables: Catalogue, powers: tuple[float, ...], panel: str) -> Mapping[float, tuple[str, ...]]:
    """Why each power cannot be judged, W; nothing where it can."""
    out = {}
    for power in powers:
        try:
            prepared(usual(job, tables, power, panel), tables)
        except JobError as error:
            out[power] = error.faults
    return out


def told(faults: Mapping[float, tuple[str, ...]], units: str) -> tuple[str, ...]:
    """The faults, each once with the powers that it stands in the way of."""
    by: dict[str, list[float]] = {}
    for power, lines in faults.items():
        for line in lines:
            by.setdefault(line, []).append(power)
    return tuple(f"at {listed((show.power(p, units) for p in at), 'and')}: {line}" for line, at in by.items())
