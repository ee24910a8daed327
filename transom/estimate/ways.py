"""Which way to build it, and with which engine: what else would do, side by side."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from decimal import Decimal

from transom.catalogue import Catalogue
from transom.estimate.book import Book
from transom.estimate.build import estimate, judged
from transom.estimate.records import Case, Estimate
from transom.frozen import dataclass
from transom.job.records import Job, Mount
from transom.judge.judging import judge
from transom.sizing.sizing import kinds


@dataclass(frozen=True)
class Way:
    """One way to build: what it comes to if only the board is needed. `stocked` None: the book does not say.

    `best` is True where no other way is at least as good in everything and better in something.
    """

    mount: Mount
    cost: Decimal
    incomplete: bool
    mass: float  # kg
    hours: Decimal
    total: float  # mm under the bracket
    limit: float  # share of the limit of its weakest link
    stocked: bool | None
    picked: bool
    best: bool = False

    @property
    def measures(self) -> tuple[float, ...]:
        """What less of is better; rounded, so that noise dominates nothing."""
        return float(self.cost), round(self.mass, 2), float(self.hours), round(self.total, 2), round(self.limit, 3)


def ways(e: Estimate) -> tuple[Way, ...]:
    """The mount priced and up to three other kinds of stack that pass, each judged and priced as if alone."""
    return marked((_way(e, picked=True), *(_way(x, picked=False) for x in _others(e) if x.passes)))


def _others(e: Estimate) -> Iterator[Estimate]:
    """What else sizing finds for the job, each with the bolts it needs."""
    job, tables = replace(e.judgement.job, mount=None), e.judgement.setup.tables
    sizing = e.judgement.sizing
    found = kinds(job, tables) if sizing is None and not e.stands_in else None
    if found is not None and found.judged.mount is not None and not same(found.judged.mount, e.mount):
        yield estimate(found.judged, e.book)
    for option in found.others if found is not None else sizing.alternatives if sizing is not None else ():
        if not same(option.mount, e.mount):
            yield estimate(judge(job, tables, option.mount, add=True, beside=False), e.book)


def same(one: Mount, other: Mount) -> bool:
    """True for one board and one set of engine bolts, whatever is said of frame and pod."""
    return (one.layers, one.engine_bolts) == (other.layers, other.engine_bolts)


def _way(e: Estimate, *, picked: bool) -> Way:
    j, dry = e.judgement, e.dry
    return Way(e.mount, dry.total.likely, dry.incomplete, j.mass, dry.hours.likely, j.total, j.governing.utilisation,
               _stocked(dry), picked)  # fmt: skip


def _stocked(case: Case) -> bool | None:
    """Whether every sheet is on the rack; None where the book marks no sheet at all."""
    sheets = [line for line in case.lines if line.kind == "sheet"]
    return all(line.stocked for line in sheets) if sheets else None


def marked(found: Sequence[Way]) -> tuple[Way, ...]:
    """The ways with those marked that no other beats; what lacks a price neither beats nor is beaten."""
    whole = [w for w in found if not w.incomplete]
    return tuple(replace(w, best=not w.incomplete and not any(beats(x, w) for x in whole if x is not w)) for w in found)


def beats(one: Way, other: Way) -> bool:
    """At least as good in everything and better in something."""
    pairs = list(zip(one.measures, other.measures, strict=True))
    return all(a <= b for a, b in pairs) and any(a < b for a, b in pairs)


@dataclass(frozen=True)
class End:
    """One end of a range of power, priced. `stops` are lines: those that stand there, and those passed over."""

    power: float  # W
    estimate: Estimate
    stops: tuple[str, ...]


def ends(e: Estimate, tables: Catalogue) -> tuple[End, ...]:
    """Both ends of the job's range of power, the lower first; nothing where it states one power."""
    engine = e.judgement.job.engine
    low, high = engine.power_low, engine.power
    if low is None or high is None or low == high:
        return ()
    return (_end(at_power(e.judgement.job, low), low, e.book, tables), _of(high, e))


def at_power(job: Job, power: float) -> Job:
    """The job with one power."""
    return replace(job, engine=replace(job.engine, power=power, power_low=power))


def _end(job: Job, power: float, book: Book, tables: Catalogue) -> End:
    j, stands_in = judged(job, tables)
    return _of(power, estimate(j, book, stands_in=stands_in))


def _of(power: float, e: Estimate) -> End:
    said = (
        f"STOP: {s.says}" if s.stands else f"STOP PASSED OVER: {s.says}; accepted by {s.accepted}"
        for s in e.judgement.stops
    )
    return End(power, e, tuple(said))
