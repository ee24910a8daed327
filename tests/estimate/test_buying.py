"""From what is needed to what is sold: lengths, halves, kits and packets, each by hand."""

import math
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from transom.estimate.book import Book, Item
from transom.estimate.buying import NOT_ASKED, NOT_IN_BOOK, Purchase, purchases
from transom.estimate.needs import Need


def need(
    kind: str, amount: float, size: float = 0.0, group: str = "fasteners", spares: float = 0.1, waste: float = 0.0
) -> Need:
    return Need(kind, "it", amount, "each", group, "shop", "dry", size, waste, spares)


def item(kind: str, price: str | None = "1", **more: object) -> Item:
    return Item(kind, "it", None if price is None else Decimal(price), **more)  # type: ignore[arg-type]


def said(found: tuple[Purchase, ...]) -> list[tuple[str, str, str]]:
    return [(f"{p.quantity.normalize():f}", p.unit, "" if p.price is None else f"{p.price:f}") for p in found]


BOLTS = Book("b", items=(item("bolt", "3", size=101.6), item("bolt", "1", size=63.5), item("bolt", "2", size=88.9)))


@pytest.mark.parametrize(("size", "sold"), [(63.5, 63.5), (63.6, 88.9), (88.9, 88.9), (88.93, 88.9), (90.0, 101.6)])
def test_a_bolt_is_priced_as_the_shortest_in_the_book_that_is_long_enough(size: float, sold: float) -> None:
    (p,) = purchases(need("bolt", 4, size), BOLTS)
    assert p.item is not None
    assert p.item.size == sold
    assert p.quantity == 5


def test_no_bolt_long_enough_is_no_price() -> None:
    (p,) = purchases(need("bolt", 4, 110.0), BOLTS)
    assert (p.price, p.why, p.quantity) == (None, NOT_IN_BOOK, 5)


@pytest.mark.parametrize(
    ("count", "pack", "packets"), [(4, 10, 1), (9, 10, 1), (10, 10, 2), (4, 1, 5), (20, 1, 22), (21, 1, 24), (1, 1, 2)]
)
def test_spares_are_one_in_ten_and_at_least_one_and_packets_are_whole(count: int, pack: int, packets: int) -> None:
    (p,) = purchases(need("nut", count), Book("b", items=(item("nut", pack=Decimal(pack)),)))
    assert p.quantity == packets


@pytest.mark.parametrize(("halves", "half", "bought"), [
    (1, "60", [("1", "half sheet", "60")]), (2, "60", [("1", "sheet", "100")]), (3, "60", [("1", "sheet", "100"), ("1", "half sheet", "60")]),
    (1, None, [("1", "sheet", "100")]), (3, None, [("2", "sheet", "100")]), (0, "60", [("0", "sheet", "0")]),
])  # fmt: skip
def test_sheets_and_halves(halves: int, half: str | None, bought: list[tuple[str, str, str]]) -> None:
    book = Book("b", items=(item("sheet", "100", half=None if half is None else Decimal(half)),))
    assert said(purchases(need("sheet", halves, group="wood", spares=0.0), book)) == bought


def test_a_board_no_sheet_is_large_enough_for_has_no_price() -> None:
    (p,) = purchases(need("sheet", math.inf, group="wood", spares=0.0), Book("b", items=(item("sheet", "100"),)))
    assert p.price is None
    assert "large enough" in p.why


KITS = Book("b", items=(item("epoxy", "50", size=1.0), item("epoxy", "30", size=0.5), item("epoxy", "150", size=4.0)))


@pytest.mark.parametrize(("liters", "bought"), [
    (0.3, [("1", "kit of 0.50 L", "30")]), (0.5, [("1", "kit of 0.50 L", "30")]), (0.51, [("1", "kit of 1.00 L", "50")]),
    (1.2, [("1", "kit of 4.00 L", "150")]), (4.0, [("1", "kit of 4.00 L", "150")]),
    (4.2, [("1", "kit of 4.00 L", "150"), ("1", "kit of 0.50 L", "30")]), (7.9, [("2", "kit of 4.00 L", "150")]),
])  # fmt: skip
def test_kits_by_size_alone(liters: float, bought: list[tuple[str, str, str]]) -> None:
    assert said(purchases(need("epoxy", liters, group="epoxy", spares=0.0), KITS)) == bought


@given(st.floats(0.01, 40), st.floats(0, 0.5))
def test_kits_hold_what_is_needed_and_no_more_than_one_kit_over(liters: float, waste: float) -> None:
    found = purchases(need("epoxy", liters, group="epoxy", spares=0.0, waste=waste), KITS)
    held = sum(float(p.quantity) * (p.item.size if p.item else 0.0) for p in found)
    assert -1e-6 <= held - liters * (1 + waste) < 4.0


def test_plate_is_cut_by_area_with_its_waste() -> None:
    book = Book("b", items=(item("plate", "200", size=6.35), item("plate", "90", size=3.175)))
    (p,) = purchases(need("plate", 0.1, 6.35, group="metal", spares=0.0, waste=0.1), book)
    assert (p.quantity, p.price) == (Decimal("0.110"), Decimal(200))
    (none,) = purchases(need("plate", 0.1, 4.7625, group="metal", spares=0.0), book)
    assert none.why == NOT_IN_BOOK


def test_a_question_mark_is_told_from_what_is_not_in_the_book() -> None:
    (p,) = purchases(need("nut", 4), Book("b", items=(item("nut", None),)))
    assert (p.price, p.why) == (None, NOT_ASKED)
    (q,) = purchases(need("nut", 4), Book("b"))
    assert (q.price, q.why) == (None, NOT_IN_BOOK)
