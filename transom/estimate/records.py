"""An estimate: three cases of one mount, priced. Frozen records, no printing."""

from decimal import Decimal

from transom.catalogue.shopwork import CASES, Opening
from transom.estimate.book import Book
from transom.estimate.hours import Days
from transom.estimate.lines import Line, Tax, charges, costs, hours_in
from transom.estimate.money import Span, total
from transom.estimate.work import Work
from transom.frozen import dataclass
from transom.job.records import Mount
from transom.judge.records import Judgement


@dataclass(frozen=True)
class Case:
    """One finding and what it comes to. `lines` hold those of the cases before it too."""

    opening: Opening
    lines: tuple[Line, ...]
    taxes: tuple[Tax, ...]
    days: Days

    @property
    def name(self) -> str:
        """dry, wet or frame."""
        return self.opening.name

    @property
    def materials(self) -> Span:
        """Charged for what is bought."""
        return charges(line for line in self.lines if line.kind != "labour")

    @property
    def labour(self) -> Span:
        """Charged for work."""
        return charges(line for line in self.lines if line.kind == "labour")

    @property
    def cost(self) -> Span:
        """What the shop pays, its own hours at its rate."""
        return costs(self.lines)

    @property
    def hours(self) -> Span:
        """Shop hours."""
        return hours_in(self.lines)

    @property
    def engine(self) -> tuple[Line, ...]:
        """Taking the engine off and hanging it again."""
        return tuple(line for line in self.lines if line.group == "engine off and on")

    @property
    def tax(self) -> Span:
        """All tax that has a rate."""
        return total(t.amount for t in self.taxes)

    @property
    def total(self) -> Span:
        """Every rounded line and tax line added up; what has no price is not in it: see `missing`."""
        return self.materials + self.labour + self.tax

    @property
    def missing(self) -> tuple[Line, ...]:
        """Lines without a price. Where there is one, the total is incomplete and must say so."""
        return tuple(line for line in self.lines if line.missing)

    @property
    def incomplete(self) -> bool:
        """True where a price is missing."""
        return bool(self.missing)


@dataclass(frozen=True)
class Estimate:
    """A mount priced in three cases. `judgement` is of the mount, or of the nearest miss that stands in for it."""

    judgement: Judgement
    mount: Mount
    stands_in: bool  # nothing works: the nearest miss is priced
    work: Work
    book: Book
    cases: tuple[Case, ...]
    call_before: Decimal | None  # None while it cannot be told: a price is missing and nobody stated it

    def case(self, name: str) -> Case:
        """The case of a name."""
        return self.cases[CASES.index(name)]

    @property
    def dry(self) -> Case:
        """Only the board: what is quoted."""
        return self.cases[0]

    @property
    def passes(self) -> bool:
        """True where the mount passes and no stop stands."""
        return self.judgement.passes and not self.stands_in

    @property
    def incomplete(self) -> bool:
        """True where any case lacks a price."""
        return any(c.incomplete for c in self.cases)

    @property
    def old(self) -> tuple[Line, ...]:
        """Lines whose price is older than the book allows."""
        return tuple(line for line in self.cases[-1].lines if line.old)

    @property
    def undated(self) -> bool:
        """True where nobody can tell how old a price is: the job or the price has no date."""
        return any(line.old is None and line.price is not None for line in self.cases[-1].lines)

    @property
    def untold(self) -> tuple[str, ...]:
        """Rates that the shop has not given: "markup wood", "tax labour"."""
        marks = {f"markup {x.klass}" for x in self.cases[-1].lines if x.markup is None}
        dues = {f"tax {t.klass}" for t in self.cases[-1].taxes if t.rate is None}
        return tuple(sorted(marks) + sorted(dues))
