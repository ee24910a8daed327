"""When each step begins and ends: by the clock from a start, or by day and hour where none is given."""

import datetime as dt

from transom.errors import JobError
from transom.floor.steps import Step
from transom.frozen import dataclass

OPENS, CLOSES = 8.0, 17.0
HOUR = dt.timedelta(hours=1)
NOWHERE = dt.datetime(2001, 1, 1, int(OPENS))  # day 1 where no start is given; a Monday


@dataclass(frozen=True)
class Timed:
    """A step on the clock; `by` is when its glue must be closed up, the begin itself where nothing waits."""

    step: Step
    begins: dt.datetime
    ends: dt.datetime
    by: dt.datetime


def start_of(text: str | None) -> dt.datetime | None:
    """A start as typed, "2026-11-30 08:00"; None where none is.

    Raises:
        JobError: it is no date and time, or outside working hours.
    """
    if text is None:
        return None
    try:
        start = dt.datetime.fromisoformat(text.strip())
    except ValueError:
        raise JobError(f"--from {text!r}: is no date and time. Write it as 2026-11-30 08:00") from None
    hour = start.hour + start.minute / 60
    if start.tzinfo is not None or not OPENS <= hour < CLOSES:
        raise JobError(f"--from {text!r}: must lie between 08:00 and 17:00 of the shop's own clock. Start at 08:00")
    return start


def timed(steps: tuple[Step, ...], start: dt.datetime | None) -> tuple[Timed, ...]:
    """Every step in order: not before what it waits for has cured, and within working hours.

    One person; a step that does not fit in what is left of a day begins the next morning. Weekends count as days.
    """
    told: list[Timed] = []
    ended: dict[str, dt.datetime] = {}
    now = start or NOWHERE
    for step in steps:
        waits = (ended[name] + hours * HOUR for name, hours in step.after)
        begins = _opened(max([now, *waits]), step.hours)
        ends = begins + step.hours * HOUR
        told.append(Timed(step, begins, ends, begins + step.within * HOUR))
        ended[step.name] = now = ends
    return tuple(told)


def _opened(at: dt.datetime, hours: float) -> dt.datetime:
    """The first time from `at` on that the shop is open and, where a day is long enough, for so many hours."""
    morning = at.replace(hour=int(OPENS), minute=0, second=0, microsecond=0)
    closes = morning + (CLOSES - OPENS) * HOUR
    begins = max(_quarter(at), morning)
    fits = begins + hours * HOUR <= closes or (hours > CLOSES - OPENS and begins == morning)
    return begins if fits and begins < closes else morning + dt.timedelta(days=1)


def _quarter(at: dt.datetime) -> dt.datetime:
    """The next quarter of an hour."""
    past = dt.timedelta(minutes=at.minute % 15, seconds=at.second, microseconds=at.microsecond)
    return at if not past else at - past + dt.timedelta(minutes=15)


def said(at: dt.datetime, start: dt.datetime | None) -> str:
    """A time as a shop reads it: "Mon 30 Nov 08:00", or "day 1 08:00" where no start was given."""
    if start is None:
        return f"day {(at.date() - NOWHERE.date()).days + 1} {at:%H:%M}"
    day = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")[at.weekday()]
    month = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")[at.month - 1]
    return f"{day} {at.day} {month} {at:%H:%M}"
