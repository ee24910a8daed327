"""Price books: where they are found, what they may say, and every fault of one in a single run."""

import datetime as dt
from decimal import Decimal
from pathlib import Path

import pytest

from tests.estimate.shop import BOOK, JOB, PASSING, book, job
from transom.catalogue import SHIPPED
from transom.errors import JobError
from transom.estimate.blank import blank_book
from transom.estimate.book import Book, Item
from transom.estimate.build import estimate
from transom.estimate.reading import book_for, from_tables, shipped
from transom.job.read import load, loads
from transom.job.syntax import parse
from transom.judge.judging import judge


def read(text: str) -> Book:
    return from_tables(parse(text), "prices.toml")


def faults(text: str) -> tuple[str, ...]:
    with pytest.raises(JobError) as caught:
        read(text)
    lines: tuple[str, ...] = caught.value.faults
    return lines


def test_a_price_is_the_decimal_that_was_typed() -> None:
    b = book()
    assert b.rate == Decimal("90")
    (sheet,) = b.of("sheet")
    assert (sheet.name, sheet.price, sheet.half) == ("douglas-fir-marine 3/4 in", Decimal("149.95"), Decimal("82.5"))
    assert b.share("tax", "wood") == Decimal("0.0825")
    assert b.share("tax", "labour") == 0
    assert b.share("markup", "labour") is None


def test_plate_by_any_area_is_one_price() -> None:
    a, b = (read(f'[[plate]]\nalloy = "6061-T6"\nthickness = "1/4 in"\nprice = {p}\nper = "{per}"\n').items[0].price
            for p, per in (("144", "sq ft"), ("1", "sq in")))  # fmt: skip
    assert a is not None
    assert b is not None
    assert abs(a - b) < Decimal("0.0000001")
    assert round(a, 2) == Decimal("1550.00")  # 144 / 0.09290304


@pytest.mark.parametrize(("text", "says"), [
    ('[[sheet]]\nname = "douglas-fir-marine 3/4 in"\nprice = "$118"\n', "plain number"),
    ('[[sheet]]\nname = "douglas-fir-marine 3/4 in"\nprice = 0\n', "must be from 0.001"),
    ('[[sheet]]\nname = "douglas-fir-marine 3/4 in"\nprice = -3\n', "must be from 0.001"),
    ('[[sheet]]\nname = "douglas-fir-marine 3/4 in"\nprice = nan\n', "finite"),
    ('[[sheet]]\nname = "douglas-fir-marine 3/4 in"\nprice = inf\n', "finite"),
    ('[[sheet]]\nname = "douglas-fir-marine 3/4 in"\nprice = true\n', "plain number"),
    ('[[sheet]]\nname = "douglas-fir-marine 3/4 in"\n', "is missing and needed"),
    ('[[sheet]]\nname = "douglas-fur-marine 3/4 in"\nprice = 1\n', "did you mean"),
    ('[[sheet]]\nname = "douglas-fir-marine 3/4 in"\nprice = 100\nhalf = 120\n', "half the price"),
    ('[[sheet]]\nname = "douglas-fir-marine 3/4 in"\nprice = 100\nhalf = 40\n', "half the price"),
    ('[[epoxy]]\nholds = "1 lb"\nprice = 5\n', "no volume"),
    ('[[supply]]\nname = "gloves"\nprice = 5\npack = 0\n', "must be from"),
    ('[[supply]]\nname = "gloves"\nprice = 5\n[[supply]]\nname = "gloves"\nprice = 6\n', "priced twice"),
    ('[[hours]]\noperation = "cut"\nbase_h = 1\n[[hours]]\noperation = "cut"\nbase_h = 2\n', "stands twice"),
    ('[[hours]]\noperation = "cut"\nbase_h = -1\n', "must be from"),
    ('[[hours]]\noperation = "cut"\nlow = 1.2\n', "must be from 0.3 to 1"),
    ('[[hours]]\noperation = "cut"\nhigh = 0.9\n', "must be from 1 to 3"),
    ('[[hours]]\noperation = "cut"\nbase_h = 0\n', "must be from 0.01"),
    ('[book]\nfile = "x.toml"\n', "shop.toml only"),
    ("[labour]\nrate = 0\n", "must be from"),
    ("[markup]\nwood = -0.1\n", "must be from"),
    ("[tax]\nwod = 0.1\n", "did you mean wood?"),
    ("[sheets]\n", "did you mean [sheet]?"),
])  # fmt: skip
def test_what_no_book_may_say(text: str, says: str) -> None:
    (line,) = faults(text)
    assert line.startswith("prices.toml: ")
    assert says.lower() in line.lower()


def test_every_fault_in_one_run() -> None:
    assert len(faults('[labour]\nrate = 0\n[tax]\nwood = 2\n[[epoxy]]\nholds = "x"\nprice = 1\n')) == 3


def test_a_question_mark_is_no_price() -> None:
    (item,) = read('[[supply]]\nname = "gloves"\nprice = "?"\n').items
    assert item.price is None


def test_the_shipped_book_is_invented_and_says_so() -> None:
    b = shipped()
    assert b.invented
    assert "invented" in b.says.lower()
    assert b.source == "the shipped price book, invented"
    text = (Path(__file__).parents[2] / "materials" / "price_book" / "invented.toml").read_text(encoding="utf-8")
    assert "invented" in text.splitlines()[0]


# Where it is found


def put(folder: Path, **files: str) -> Path:
    for name, text in files.items():
        (folder / f"{name}.toml").write_text(text, encoding="utf-8")
    return folder


def found(folder: Path, prices: Path | None = None) -> Book:
    return book_for(load(folder / "job.toml"), folder, prices)


def test_named_before_the_shops_before_the_one_beside_before_the_shipped(tmp_path: Path) -> None:
    put(tmp_path, job=JOB)
    assert found(tmp_path).source == "the shipped price book, invented"
    put(tmp_path, prices=BOOK)
    assert found(tmp_path).source == "prices.toml"
    put(tmp_path, shop="[prices.labour]\nrate = 71\n")
    assert (found(tmp_path).source, found(tmp_path).rate) == ("shop.toml [prices]", Decimal(71))
    put(tmp_path, shop='[prices.book]\nfile = "ours.toml"\n', ours="[labour]\nrate = 72\n")
    assert (found(tmp_path).source, found(tmp_path).rate) == ("ours.toml", Decimal(72))
    put(tmp_path, named="[labour]\nrate = 73\n")
    assert found(tmp_path, tmp_path / "named.toml").rate == Decimal(73)


def test_the_shops_rate_stands_in_and_two_rates_are_a_fault(tmp_path: Path) -> None:
    put(tmp_path, job=JOB, shop="[shop]\nrate = 80\n", prices=BOOK.replace("rate = 90", 'rate = "?"'))
    assert found(tmp_path).rate == Decimal(80)
    put(tmp_path, prices=BOOK)
    with pytest.raises(JobError, match="Keep one of the two"):
        found(tmp_path)


def test_a_file_beside_other_prices_is_a_fault(tmp_path: Path) -> None:
    put(tmp_path, job=JOB, ours=BOOK, shop='[prices.book]\nfile = "ours.toml"\n[prices.labour]\nrate = 72\n')
    with pytest.raises(JobError, match="Keep the file or the prices"):
        found(tmp_path)


def test_a_missing_file_is_named(tmp_path: Path) -> None:
    put(tmp_path, job=JOB)
    with pytest.raises(JobError, match="no such file"):
        found(tmp_path, tmp_path / "none.toml")


# Ages


@pytest.mark.parametrize(("asked", "old"), [("2025-11-05", False), ("2025-11-04", True), ("2026-06-01", False)])
def test_old_is_against_the_jobs_date(asked: str, old: bool) -> None:
    b = Book("x", date=dt.date.fromisoformat(asked), old_after=180)
    assert b.old(Item("nut", "1/2-13", Decimal(1)), dt.date(2026, 5, 4)) is old


def test_an_items_own_date_goes_first_and_none_is_not_known() -> None:
    today = dt.date(2026, 5, 4)
    item = Item("nut", "1/2-13", Decimal(1), date=dt.date(2020, 1, 1))
    assert Book("x", date=today).old(item, today) is True
    assert Book("x").old(Item("nut", "1/2-13", Decimal(1)), today) is None
    assert Book("x", date=today).old(item, None) is None


# Blank


def test_a_blank_book_reads_back_and_names_all_that_is_needed() -> None:
    stated = loads(PASSING)
    assert stated.mount is not None
    j = judge(stated, SHIPPED, stated.mount, careful=False)
    text = blank_book(estimate(j, book()))
    b = from_tables(parse(text), "blank")
    assert all(i.price is None for i in b.items)
    assert b.rate is None
    e = estimate(j, b)
    assert e.incomplete
    assert {x.why for x in e.cases[-1].lines if x.kind != "labour"} == {'price "?"'}
    assert e.untold == tuple(sorted(f"markup {c}" for c in ("wood", "epoxy", "metal", "fasteners", "supplies"))) + tuple(
        sorted(f"tax {c}" for c in ("wood", "epoxy", "metal", "fasteners", "supplies", "labour")))  # fmt: skip


def test_the_jobs_own_file_is_no_place_for_prices() -> None:
    assert job().shop is None
