"""A job to an estimate: judged as it stands, else sized; what fails or is not measured is priced all the same."""

from collections.abc import Sequence
from decimal import Decimal

from transom.catalogue import Catalogue
from transom.errors import JobError
from transom.estimate.book import Book
from transom.estimate.hours import days_of, hours_of
from transom.estimate.lines import Line, lines_of, of_case, taxes
from transom.estimate.money import exact, up_to
from transom.estimate.needs import needs_of
from transom.estimate.records import Case, Estimate
from transom.estimate.work import Work, work_of
from transom.job.records import Job, Mount
from transom.judge.fasteners import Added
from transom.judge.judging import judge
from transom.judge.records import Judgement
from transom.sizing.field import Costs
from transom.sizing.sizing import size


def judged(job: Job, tables: Catalogue, rank: str = "material", costs: Costs | None = None) -> tuple[Judgement, bool]:
    """The mount in the job judged, else the one sized, else the nearest miss judged; True where it is that.

    Raises:
        JobError: what cannot be judged, or no candidate at all.
    """
    if job.mount is not None:
        return judge(job, tables, job.mount), False
    found = size(job, tables, rank, costs=costs)
    if found.mount is not None:
        return found, False
    miss = found.sizing.nearest_miss if found.sizing is not None else None
    if miss is None:
        raise JobError("[stock]: nothing in stock makes a board that can be judged, so there is nothing to price")
    return judge(job, tables, miss.mount, add=True), True


def estimate(j: Judgement, book: Book, *, stands_in: bool = False) -> Estimate:
    """A judged mount priced in three cases.

    Raises:
        JobError: the judgement holds no mount.
    """
    if j.mount is None:
        raise JobError("there is no mount to price; `transom size` says why")
    work = work_of(j, j.mount, j.fasteners)
    lines = priced(j, j.mount, j.fasteners, work, book)
    cases = cases_of(j, work, lines, book)
    return Estimate(j, j.mount, stands_in, work, book, cases, _call_before(j.job, cases[0]))


def priced(j: Judgement, mount: Mount, fasteners: Sequence[Added], work: Work, book: Book) -> tuple[Line, ...]:
    """Every line of a mount on a judged job, those of all cases."""
    tables, today = j.setup.tables, j.job.head.date
    return lines_of(needs_of(j, mount, work, fasteners), hours_of(work, tables, book), book, tables, today)


def cases_of(j: Judgement, work: Work, lines: Sequence[Line], book: Book) -> tuple[Case, ...]:
    """The three cases, each with the lines of those before it."""
    tables, hours = j.setup.tables, hours_of(work, j.setup.tables, book)
    out = []
    for row in tables.rows("opening"):
        own = of_case(lines, row.name)
        days = days_of(hours, row.name, book, tables, j.job.shop_temperature)
        out.append(Case(row, own, tuple(taxes(own, book)), days))
    return tuple(out)


def _call_before(job: Job, dry: Case) -> Decimal | None:
    """The amount the shop calls before: stated, else a firm price itself, else the high end up to the next 25."""
    if job.quote.call_before is not None:
        return exact(job.quote.call_before)
    if dry.incomplete:
        return None
    return dry.total.likely if job.quote.kind == "firm" else up_to(dry.total.high)
