"""Hours by operation, in quarter hours, and days on the calendar: what cures is waited for."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from decimal import ROUND_CEILING, Decimal
from itertools import groupby
from typing import Any

from transom.catalogue import Catalogue
from transom.catalogue.shopwork import CASES, Operation
from transom.estimate.book import Book
from transom.estimate.work import Work

QUARTER = Decimal("0.25")
LATER = 5  # the visit that comes weeks after the others
NIGHT = 16.0  # h from one working day's end to the next one's start, and a little
ROOM_C = 20.0
TEN = 10.0
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
    waits: tuple[tuple[float, tuple[str, ...]], ...]  # hours of cure, and the operations it follows
    later: bool


def days_of(hours: Sequence[Hours], case: str, book: Book, temperature: float | None) -> Days:
    """Days on the calendar of one case: one person, one visit after the other, each after its cure.

    An overnight cure waits for the next day. Cure takes twice as long for each 10 degrees below 20 C
    (common practice); warmer is not counted on. No weekends, no parts on order.
    """
    needed = [h for h in hours if in_case(case, h.operation.case)]
    now = [h for h in needed if h.operation.visit < LATER]
    visits = [
        list(run) for _, run in groupby(sorted(now, key=lambda h: h.operation.visit), lambda h: h.operation.visit)
    ]
    cures = [cure(max(h.operation.cure_h for h in visit), temperature) for visit in visits[:-1]]
    waits = tuple(
        (hours_, tuple(h.operation.name for h in visit if h.operation.cure_h))
        for visit, hours_ in zip(visits[:-1], cures, strict=True)
        if hours_
    )
    low, likely, high = (
        sum(_working(sum(getattr(h, end) for h in visit), book) for visit in visits) + sum(map(_idle, cures))
        for end in ("low", "likely", "high")
    )
    return Days(low, likely, high, waits, len(now) < len(needed))


def cure(hours_at_20: float, temperature: float | None) -> float:
    """Hours of cure at the shop's temperature; 20 C where nobody measured it."""
    colder = max(0.0, ROOM_C - (ROOM_C if temperature is None else temperature))
    return float(round(hours_at_20 * 2.0 ** (colder / TEN), 1))


def _working(hours: Decimal, book: Book) -> int:
    return max(1, int((hours / book.hours_a_day).quantize(Decimal(1), ROUND_CEILING)))


def _idle(cure_h: float) -> int:
    """Whole days waited for beyond the night."""
    return max(0, -int((NIGHT - cure_h) // DAY)) if cure_h > NIGHT else 0
