"""A price book as read: what a shop pays and charges, each price with its date. Nothing here is ever a guess."""

import datetime as dt
from dataclasses import field, replace
from decimal import Decimal

from transom.frozen import dataclass


@dataclass(frozen=True)
class Item:
    """One thing for sale. `price` is None while nobody has asked.

    `name` is how the mount calls it. `half` is the price of half a sheet; `size` what a unit of it holds or
    measures: mm of a bolt's length or a plate's thickness, liters of a kit; `pack` how many come in a packet.
    """

    kind: str
    name: str
    price: Decimal | None
    half: Decimal | None = None
    size: float = 0.0
    pack: Decimal = Decimal(1)
    date: dt.date | None = None
    supplier: str = ""
    stocked: bool = False


@dataclass(frozen=True)
class Book:
    """A shop's prices. Rates are None, and shares absent, until the shop gives them.

    `markup` and `tax` are by class, "other" standing for classes not named. `hours` are the shop's own
    figures of an operation, by column, over the table's.
    """

    source: str
    says: str = ""
    invented: bool = False
    date: dt.date | None = None
    currency: str = "$"
    words: str = "dollars"
    old_after: int = 180
    rate: Decimal | None = None
    hours_a_day: Decimal = Decimal(8)
    markup: dict[str, Decimal] = field(default_factory=dict)
    tax: dict[str, Decimal] = field(default_factory=dict)
    hours: dict[str, dict[str, float]] = field(default_factory=dict)
    items: tuple[Item, ...] = ()

    def of(self, kind: str) -> tuple[Item, ...]:
        """Every item of a kind, as listed."""
        return tuple(i for i in self.items if i.kind == kind)

    def share(self, which: str, name: str) -> Decimal | None:
        """The mark-up or tax of a class; None until given."""
        shares: dict[str, Decimal] = getattr(self, which)
        return shares.get(name, shares.get("other"))

    def dated(self, item: Item) -> dt.date | None:
        """The day a price was asked: its own, else the book's."""
        return item.date or self.date

    def old(self, item: Item, today: dt.date | None) -> bool | None:
        """Whether a price is older than the book allows on the job's date; None where either date is missing."""
        asked = self.dated(item)
        if asked is None or today is None:
            return None
        return (today - asked).days > self.old_after

    def with_rate(self, rate: Decimal | None) -> "Book":
        """The book with an hour's rate from elsewhere, where it has none of its own."""
        return self if self.rate is not None or rate is None else replace(self, rate=rate)
