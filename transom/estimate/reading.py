"""A price book from a file, from the shop's own, or the shipped one; every fault of it in one run."""

import tomllib
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from decimal import Decimal
from functools import partial
from pathlib import Path
from typing import Any

from transom.catalogue.tables import folder
from transom.errors import JobError
from transom.estimate.book import Book, Item
from transom.estimate.money import exact
from transom.estimate.schema import BOOK, HOURS, SHARE_CLASSES
from transom.estimate.volume import liters
from transom.job.files import text_of
from transom.job.reading import Reading, read_tables
from transom.job.records import Job
from transom.job.syntax import parse

BESIDE = "prices.toml"
SHIPPED = "the shipped price book, invented"
_AREA = {"m2": 1.0, "sq ft": 0.09290304, "sq in": 0.00064516}
Row = Mapping[str, Any]


def book_for(job: Job, beside: Path, prices: Path | None = None) -> Book:
    """The price book of a job: the one named, else the shop's, else `prices.toml` beside the job, else the shipped.

    `beside` is the folder of the job. The shop's rate stands in where the book has none.

    Raises:
        JobError: one line for each fault.
    """
    book = _found(job, beside, prices)
    shop_rate = None if job.shop is None or job.shop.rate is None else exact(job.shop.rate)
    if book.invented:
        return book if shop_rate is None else replace(book, rate=shop_rate)
    if book.rate is not None and shop_rate is not None and book.rate != shop_rate:
        raise JobError(
            f"{book.source}: [labour] rate = {book.rate}: the shop's file says rate = {shop_rate}. Keep one of the two."
        )
    return book.with_rate(shop_rate)


def _found(job: Job, beside: Path, prices: Path | None) -> Book:
    if prices is not None:
        return from_file(prices)
    stated = {} if job.shop is None else job.shop.prices
    named = stated.get("book", {}).get("file") if isinstance(stated.get("book"), dict) else None
    if isinstance(named, str) and job.shop is not None:
        if set(stated) != {"book"} or set(stated["book"]) != {"file"}:
            raise JobError(
                f"{job.shop.file}: [prices.book] file = {named!r}: stands beside other prices. Keep the file or the prices."
            )
        return from_file(beside / named)
    if stated and job.shop is not None:
        return from_tables(stated, f"{job.shop.file} [prices]")
    if (beside / BESIDE).is_file():
        return from_file(beside / BESIDE)
    return shipped()


def shipped() -> Book:
    """The invented book that comes along, for trying things out."""
    text = (folder() / "price_book" / "invented.toml").read_text(encoding="utf-8")
    return from_tables(tomllib.loads(text), SHIPPED)


def from_file(path: Path) -> Book:
    """The book in a file.

    Raises:
        JobError: it cannot be read, or one line for each fault.
    """
    try:
        document = parse(text_of(path).removeprefix("\ufeff"))
    except JobError as error:
        raise JobError(*(_named(path.name, line) for line in error.faults)) from None
    return from_tables(document, path.name)


def _named(name: str, line: str) -> str:
    return line if name in line else f"{name}: {line}"


def from_tables(document: Mapping[str, Any], source: str) -> Book:
    """The book in tables as read.

    Raises:
        JobError: one line for each fault.
    """
    reading = read_tables(document, BOOK)
    if reading.get("book.file") is not None:
        reading.fault("book.file", reading.get("book.file"), "is for [prices.book] in shop.toml only", "leave it out")
    items = tuple(_items(reading))
    _twice(reading, items)
    if reading.faults.lines:
        raise JobError(*(f"{source}: {line}" for line in reading.faults.lines))
    head = {k: reading.get(f"book.{k}") for k in ("says", "invented", "date", "currency", "words", "old_after")}
    return Book(
        source=source,
        **{k: v for k, v in head.items() if v is not None},
        rate=_money(reading.get("labour.rate")),
        hours_a_day=_money(reading.get("labour.hours_a_day")) or Decimal(8),
        markup=_shares(reading, "markup"),
        tax=_shares(reading, "tax"),
        hours={row["operation"]: {h: row[h] for h in HOURS if h in row} for row in reading.get("hours") or ()},
        items=items,
    )


def _money(value: float | None) -> Decimal | None:
    return None if value is None else exact(value)


def _shares(r: Reading, which: str) -> dict[str, Decimal]:
    found = {c: r.get(f"{which}.{c}") for c in SHARE_CLASSES}
    return {c: exact(v) for c, v in found.items() if v is not None}


def _items(r: Reading) -> Iterator[Item]:
    """Every item of the book; what is at fault is left out and the fault kept."""
    for kind, make in _MAKERS.items():
        for i, row in enumerate(r.get(kind) or (), 1):
            item = make(row, partial(_fault, r, f"{kind} {i}"))
            if item is not None:
                yield item


def _fault(r: Reading, at: str, key: str, value: Any, rule: str, next_step: str) -> None:
    r.fault(f"{at}.{key}", value, rule, next_step)


Fault = Callable[[str, Any, str, str], None]


def _item(kind: str, row: Row, name: str, **more: Any) -> Item:
    sale = {k: row[k] for k in ("date", "supplier", "stocked") if k in row}
    pack = exact(row["pack"]) if "pack" in row else Decimal(1)
    return Item(kind, name, _money(row.get("price")), pack=pack, **sale, **more)


def _has(row: Row, *keys: str) -> bool:
    return all(k in row for k in keys)


def _sheet(row: Row, fault: Fault) -> Item | None:
    half, price = _money(row.get("half")), _money(row.get("price"))
    if half is not None and price is not None and not half <= price <= 2 * half:
        fault("half", row["half"], "is not between half the price of a whole sheet and all of it",
              "check both prices; leave half out where the yard sells none")  # fmt: skip
        return None
    return _item("sheet", row, row["name"], half=half) if _has(row, "name") else None


def _plate(row: Row, fault: Fault) -> Item | None:
    if not _has(row, "alloy", "thickness", "per"):
        return None
    item = _item("plate", row, row["alloy"], size=row["thickness"])
    price = None if item.price is None else item.price / exact(_AREA[row["per"]])
    return Item(**(vars(item) | {"price": price}))


def _bolt(row: Row, fault: Fault) -> Item | None:
    if not _has(row, "thread", "grade", "length"):
        return None
    return _item("bolt", row, f"{row['thread']} {row['grade']}", size=row["length"])


def _nut(row: Row, fault: Fault) -> Item | None:
    return _item("nut", row, row["thread"]) if _has(row, "thread") else None


def _washer(row: Row, fault: Fault) -> Item | None:
    return _item("washer", row, row["name"]) if _has(row, "name") else None


def square(side: float, thickness: float) -> str:
    """The name of a plate washer, mm."""
    return f"{side:g} x {thickness:g}"


def sides(name: str) -> tuple[float, float]:
    """Side and thickness of a plate washer by its name, mm."""
    side, thickness = name.split(" x ")
    return float(side), float(thickness)


def _plate_washer(row: Row, fault: Fault) -> Item | None:
    if not _has(row, "side", "thickness"):
        return None
    return _item("plate_washer", row, square(row["side"], row["thickness"]))


def _epoxy(row: Row, fault: Fault) -> Item | None:
    holds = row.get("holds")
    if holds is None:
        return None
    size = liters(holds)
    if size is None:
        fault("holds", holds, "is no volume", 'write a number and a unit: "1 gal", "1 qt", "900 ml", "1 l"')
        return None
    return _item("epoxy", row, "epoxy", size=size)


def _supply(row: Row, fault: Fault) -> Item | None:
    return _item("supply", row, row["name"]) if _has(row, "name") else None


_MAKERS: dict[str, Callable[[Row, Fault], Item | None]] = {
    "sheet": _sheet, "plate": _plate, "bolt": _bolt, "nut": _nut, "washer": _washer, "plate_washer": _plate_washer,
    "epoxy": _epoxy, "supply": _supply,
}  # fmt: skip


def _twice(r: Reading, items: tuple[Item, ...]) -> None:
    """One thing has one price; an operation one set of hours."""
    seen: set[tuple[str, str, float]] = set()
    for item in items:
        key = (item.kind, item.name, round(item.size, 3))
        if key in seen:
            r.fault(f"{item.kind}.name", item.name, "is priced twice", "keep the newer of the two")
        seen.add(key)
    names = [row.get("operation") for row in r.get("hours") or ()]
    for name in sorted({n for n in names if n and names.count(n) > 1}):
        r.fault("hours.operation", name, "stands twice", "keep one")
