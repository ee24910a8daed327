"""From what is needed to what is bought: whole and half sheets, kits, packets, cut plate; and which price that has."""

import math
from collections.abc import Iterator
from decimal import ROUND_CEILING, Decimal

from transom.estimate.book import Book, Item
from transom.estimate.needs import Need
from transom.frozen import dataclass

THOU = Decimal("0.001")  # m2 of plate
SAME = 0.05  # mm: two names for one length or thickness
NOT_IN_BOOK = "no price in the book"
NOT_ASKED = 'price "?"'


@dataclass(frozen=True)
class Purchase:
    """A number of units at a price each, in cents or finer; `why` says what is missing where there is no price."""

    need: Need
    quantity: Decimal
    unit: str
    price: Decimal | None
    item: Item | None
    why: str = ""


def purchases(need: Need, book: Book) -> tuple[Purchase, ...]:
    """What to buy for a need; one purchase, or two where two sizes together are the least that cover it."""
    make = {"sheet": _sheets, "epoxy": _kits, "plate": _plate, "bolt": _bolts}.get(need.kind, _packets)
    return tuple(make(need, book))


def _found(need: Need, book: Book) -> list[Item]:
    """Items of the need's kind and name; of its size too where it has one."""
    named = [i for i in book.of(need.kind) if i.name == need.name]
    return [i for i in named if abs(i.size - need.size) <= SAME] if need.kind == "plate" else named


def _whole(amount: float | Decimal) -> Decimal:
    """The next whole number at or above; dust of the sixth digit is none."""
    return Decimal(f"{amount:.6f}").to_integral_value(ROUND_CEILING)


def _bare(need: Need, quantity: Decimal, unit: str) -> Purchase:
    return Purchase(need, quantity, unit, None, None, NOT_IN_BOOK)


def _of(need: Need, item: Item, quantity: Decimal, unit: str, price: Decimal | None) -> Purchase:
    return Purchase(need, quantity, unit, price, item, "" if price is not None else NOT_ASKED)


def _sheets(need: Need, book: Book) -> Iterator[Purchase]:
    if math.isinf(need.amount):
        yield Purchase(need, Decimal(1), "sheet", None, None, "no sheet of it is large enough for this board")
        return
    count = int(need.amount)
    items = _found(need, book)
    if not items:
        yield _bare(need, Decimal(count) / 2, "sheet")
        return
    item, (whole, half) = items[0], divmod(count, 2)
    if not count:
        yield Purchase(need, Decimal(0), "sheet", Decimal(0), item)
        return
    if item.half is None:
        yield _of(need, item, Decimal(whole + half), "sheet", item.price)
        return
    if whole:
        yield _of(need, item, Decimal(whole), "sheet", item.price)
    if half:
        yield _of(need, item, Decimal(half), "half sheet", item.half)


def _kits(need: Need, book: Book) -> Iterator[Purchase]:
    """As many of the largest kit as it fills, and the smallest that holds the rest; by size alone, not by price."""
    wanted = need.amount * (1.0 + need.waste)
    kits = sorted(_found(need, book), key=lambda i: i.size)
    if not kits:
        yield _bare(need, Decimal(f"{wanted:.2f}"), "L")
        return
    largest = kits[-1]
    full = int((wanted + 1e-9) // largest.size)
    rest = wanted - full * largest.size
    last = next(k for k in kits if k.size >= rest - 1e-9) if rest > 1e-9 else None
    full += last is largest
    if full:
        yield _of(need, largest, Decimal(full), _kit(largest), largest.price)
    if last is not None and last is not largest:
        yield _of(need, last, Decimal(1), _kit(last), last.price)


def _kit(item: Item) -> str:
    return f"kit of {item.size:.2f} L"


def _plate(need: Need, book: Book) -> Iterator[Purchase]:
    area = Decimal(f"{need.amount * (1.0 + need.waste):.9f}").quantize(THOU, ROUND_CEILING)
    items = _found(need, book)
    if items:
        yield _of(need, items[0], area, "m2", items[0].price)
    else:
        yield _bare(need, area, "m2")


def _counted(need: Need) -> Decimal:
    """Pieces with spares, at least one of a kind."""
    spare = max(Decimal(1), _whole(need.amount * need.spares)) if need.spares else Decimal(0)
    return _whole(need.amount) + spare


def _bolts(need: Need, book: Book) -> Iterator[Purchase]:
    """The length needed, else the next longer one in the book, which never costs less to buy and is cut off."""
    count = _counted(need)
    longer = sorted((i for i in _found(need, book) if i.size >= need.size - SAME), key=lambda i: i.size)
    if not longer:
        yield _bare(need, count, "each")
        return
    item = longer[0]
    yield _packed(need, item, count)


def _packets(need: Need, book: Book) -> Iterator[Purchase]:
    counted = need.group == "fasteners"
    amount = _counted(need) if counted else Decimal(f"{need.amount * (1.0 + need.waste):.6f}")
    items = _found(need, book)
    if items:
        yield _packed(need, items[0], amount)
    else:
        yield _bare(need, amount if counted else amount.quantize(Decimal("0.01"), ROUND_CEILING), need.unit)


def _packed(need: Need, item: Item, amount: Decimal) -> Purchase:
    packets = _whole(amount / item.pack)
    unit = need.unit if item.pack == 1 else f"packet of {item.pack.normalize():f}"
    if item.pack != 1 and need.unit != "each":
        unit += f" {need.unit}"
    return _of(need, item, packets, unit, item.price)
