"""Hours by operation, in quarter hours, and days on the calendar: what cures is waited for."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from decimal import ROUND_CEILING, Decimal
from itertools import groupby
from typing import Any

from transom.catalogue import Catalogue
from transom.catalogue.shopwork import CASES, Operation
from transom.estimate.book import Book
from transom.estimate.work import Work
from transom.frozen import dataclass

QUARTER = Decimal("0.25")
LATER = 6  # the visit that comes weeks after the others
DUST = 1e-6  # h
ASSUMED_C = 18.0  # where nobody measured the shop
GLUE = "structural epoxy"
DAY = 24.0


@dataclass(frozen=True)
class Hours:
    """One operation of this job: low, likely and high hours in quarters."""

    operation: Operation
    low: Decimal
    likely: Decimal
    high: Decimal
    own: bool  # the shop changed the table's figures


def hours_of(work: Work, tables: Catalogue, book: Book) -> tuple[Hours, ...]:
    """Every operation of the work, opening-up's too, in order."""
    rows = (_own(row, book) for row in tables.rows("labour"))
    return tuple(_hours(row, work, row.name in book.hours) for row in rows if _asked(row, work))


def _own(row: Operation, book: Book) -> Operation:
    own: dict[str, Any] = dict(book.hours.get(row.name, {}))
    return replace(row, **own)


def _asked(row: Operation, work: Work) -> bool:
    if row.name == "laminate" and work.layers < 2:
        return False
    return row.frame in ("any", work.frame)


def _hours(row: Operation, work: Work, own: bool) -> Hours:
    hours = row.base_h + sum(times * amount for times, amount in _grows(row, work))
    hours *= {"aluminium hull": row.aluminium, "glass hull": row.glass}.get(work.boat, 1.0)
    low, likely, high = (quarters(hours * share) for share in (row.low, 1.0, row.high))
    return Hours(row, low, likely, high, own)


def _grows(row: Operation, work: Work) -> Iterator[tuple[float, float]]:
    yield row.per_area_h_m2, work.area
    yield row.per_layer_h, work.layers
    yield row.per_hole_h, work.holes
    yield row.per_bolt_h, work.frame_bolts
    yield row.per_plate_h, work.plates
    yield row.per_power_h_kW, work.power


def quarters(hours: float) -> Decimal:
    """The next quarter of an hour, at least one; dust of the ninth digit starts none."""
    count = (Decimal(f"{hours:.9f}") / QUARTER).quantize(Decimal(1), ROUND_CEILING)
    return max(count, Decimal(1)) * QUARTER


def in_case(case: str, least: str) -> bool:
    """Whether what is needed from `least` on is needed in `case`; each case holds those before it."""
    return CASES.index(least) <= CASES.index(case)


@dataclass(frozen=True)
class Days:
    """Days from the first visit to the boat's leaving, low, likely and high; the waits between; what comes later."""

    low: int
    likely: int
    high: int
    waits: tuple[tuple[float, str], ...]  # hours of cure, and the stage that is waited for: work, hang, load
    later: bool


def days_of(hours: Sequence[Hours], case: str, book: Book, tables: Catalogue, temperature: float | None) -> Days:
    """Days on the calendar of one case: one person, one visit after the other, each after its cure.

    No weekends, no parts on order. The build's own steps have the clock; the glue maker's sheet goes before both.
    """
    needed = [h for h in hours if in_case(case, h.operation.case)]
    now = sorted((h for h in needed if h.operation.visit < LATER), key=lambda h: h.operation.visit)
    visits = [list(run) for _, run in groupby(now, lambda h: h.operation.visit)]
    stages = [
        max((cure(h.operation.cure, tables, temperature), h.operation.cure) for h in visit) for visit in visits[:-1]
    ]
    cures = [hours_ for hours_, _ in stages]
    waits = tuple(stage for stage in stages if stage[0])
    low, likely, high = (
        _calendar([float(sum(getattr(h, end) for h in visit)) for visit in visits], cures, float(book.hours_a_day))
        for end in ("low", "likely", "high")
    )
    return Days(low, likely, high, waits, len(now) < len(needed))


def cure(stage: str, tables: Catalogue, temperature: float | None) -> float:
    """Hours waited for a stage at the shop's temperature, degC; load from the engine's hanging on.

    At the glue's own floor and below it the hours are those of the floor: colder it does not cure at all.
    """
    if stage == "none":
        return 0.0
    row = next(r for r in tables.rows("cures") if r.name == GLUE)
    at = max(ASSUMED_C if temperature is None else temperature, tables.adhesive(GLUE).cure_floor_C)
    hours = row.load_h - row.hang_h if stage == "load" else getattr(row, f"{stage}_h")
    return float(round(hours * 2.0 ** ((row.ref_C - at) / row.doubling_C), 1))


def _calendar(visits: Sequence[float], cures: Sequence[float], day: float) -> int:
    """Days that visits of so many hours take, work only in the first `day` hours of each 24, cures by the clock."""
    at = 0.0
    for hours, cure_h in zip(visits, (*cures, 0.0), strict=True):
        at = _worked(at, hours, day) + cure_h
    return int((at - DUST) // DAY) + 1


def _worked(at: float, hours: float, day: float) -> float:
    """The hour on the clock, from the first morning on, when work begun at `at` or the next working hour is done."""
    while hours > DUST:
        into = at % DAY
        if into > day - DUST:
            at += DAY - into
            continue
        step = min(hours, day - into)
        at, hours = at + step, hours - step
    return at
