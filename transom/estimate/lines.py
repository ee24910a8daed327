"""Lines of an estimate: what is bought and worked, priced, marked up, taxed; nothing missing is ever a zero."""

from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from decimal import Decimal

from transom.catalogue import Catalogue
from transom.catalogue.shopwork import CLASSES
from transom.estimate.book import Book
from transom.estimate.buying import Purchase, purchases
from transom.estimate.hours import Hours, in_case
from transom.estimate.money import NOTHING, ZERO, Span, cents, exact, total
from transom.estimate.needs import Need, Piece
from transom.frozen import dataclass

ONE = Decimal(1)
NO_RATE = "no rate for an hour"


@dataclass(frozen=True)
class Line:
    """One line. `cost` is what the shop pays, `charge` with its mark-up; both None where a price is missing.

    `quantity` is likely; `low` and `high` differ from it for hours. `old` is True, False or None: not known.
    `klass` decides mark-up and tax. `why` says what is missing. `size` is what the mount asks for, `sold` what
    the book has; `wanted` the amount with its waste, before it is rounded up to what is sold.
    """

    key: str
    kind: str
    name: str
    size: float
    klass: str
    case: str
    supplier: str
    quantity: Span
    unit: str
    price: Decimal | None
    cost: Span | None
    charge: Span | None
    markup: Decimal | None
    mass: float = 0.0
    stocked: bool = False
    old: bool | None = False
    asked: date | None = None
    why: str = ""
    note: str = ""
    pieces: tuple[Piece, ...] = ()
    group: str = ""
    sold: float = 0.0
    wanted: float = 0.0
    need_unit: str = ""
    pack: Decimal = ONE  # how many of `need_unit` one of `unit` holds
    waste: float = 0.0  # share on top of the bare need
    spares: int = 0  # pieces over what the mount takes

    @property
    def missing(self) -> bool:
        """True where there is no price."""
        return self.charge is None


@dataclass(frozen=True)
class Tax:
    """Tax on a class of lines; `rate` None until given."""

    klass: str
    rate: Decimal | None
    amount: Span


def lines_of(
    needs: Sequence[Need], hours: Sequence[Hours], book: Book, tables: Catalogue, today: date | None
) -> tuple[Line, ...]:
    """Every line, materials first, each with the least case that it is needed in."""
    spread = {row.name: exact(row.spread) for row in tables.rows("buying")}
    bought = [_bought(p, i == 0, book, spread[n.group], today) for n in needs for i, p in enumerate(purchases(n, book))]
    return (*bought, *(_worked(h, book) for h in hours))


def _bought(p: Purchase, first: bool, book: Book, spread: Decimal, today: date | None) -> Line:
    n, item = p.need, p.item
    share = book.share("markup", n.group)
    cost = None if p.price is None else cents(p.quantity * p.price)
    spans = None if cost is None else _spread(cost, spread)
    return Line(
        key=f"{n.case} {n.key} {p.unit}",
        kind=n.kind,
        name=n.name,
        size=n.size,
        klass=n.group,
        case=n.case,
        supplier=item.supplier if item is not None and item.supplier else n.supplier,
        quantity=Span(p.quantity, p.quantity, p.quantity),
        unit=p.unit,
        price=p.price,
        cost=spans,
        charge=None if spans is None else _marked(spans, share),
        markup=share,
        mass=n.mass if first else 0.0,
        stocked=item is not None and item.stocked,
        old=None if item is None else book.old(item, today),
        asked=None if item is None else book.dated(item),
        why=p.why,
        sold=0.0 if item is None else item.size,
        wanted=n.amount * (1.0 + n.waste),
        need_unit=n.unit,
        pack=ONE if item is None else item.pack,
        waste=n.waste,
        spares=_over(p),
        pieces=n.pieces if first else (),
    )


def _over(p: Purchase) -> int:
    """Pieces bought over the bare need, where things are counted."""
    pack = ONE if p.item is None else p.item.pack
    return int(p.quantity * pack - exact(p.need.amount)) if p.need.group == "fasteners" else 0


def _spread(cost: Decimal, spread: Decimal) -> Span:
    return Span(cents(cost * (ONE - spread)), cost, cents(cost * (ONE + spread)))


def _marked(cost: Span, share: Decimal | None) -> Span:
    """Cost and mark-up, each to the cent; at cost while no mark-up is given."""
    return cost if share is None else cost + cost.times(share)


def _worked(h: Hours, book: Book) -> Line:
    row, quantity = h.operation, Span(h.low, h.likely, h.high)
    # The rate is what an hour is charged at; a mark-up on it only where the shop says so.
    share = book.markup.get("labour", ZERO)
    cost = None if book.rate is None else quantity.times(book.rate)
    return Line(
        key=f"{row.case} labour {row.name}",
        kind="labour",
        name=row.name,
        size=0.0,
        klass="labour",
        case=row.case,
        supplier="own shop",
        quantity=quantity,
        unit="h",
        price=book.rate,
        cost=cost,
        charge=None if cost is None else _marked(cost, share),
        markup=share,
        why=NO_RATE if cost is None else "",
        note="your own hours" if h.own else "",
        group=row.group,
    )


def of_case(lines: Iterable[Line], case: str) -> tuple[Line, ...]:
    """The lines needed in a case."""
    return tuple(line for line in lines if in_case(case, line.case))


def charges(lines: Iterable[Line]) -> Span:
    """The sum of what is charged, lines without a price left out."""
    return total(line.charge for line in lines if line.charge is not None)


def costs(lines: Iterable[Line]) -> Span:
    """The sum of what the shop pays, lines without a price left out."""
    return total(line.cost for line in lines if line.cost is not None)


def taxes(lines: Sequence[Line], book: Book) -> Iterator[Tax]:
    """Tax by class, each on the sum of its rounded lines."""
    for klass in CLASSES:
        own = [line for line in lines if line.klass == klass]
        if own:
            rate = book.share("tax", klass)
            yield Tax(klass, rate, NOTHING if rate is None else charges(own).times(rate))


def hours_in(lines: Iterable[Line]) -> Span:
    """The hours of some lines."""
    return sum((line.quantity for line in lines if line.kind == "labour"), Span(ZERO, ZERO, ZERO))
