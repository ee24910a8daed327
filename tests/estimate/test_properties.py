"""What must hold for any board and any prices: more wood never costs less of anything, no cent is lost, nothing missing hidden."""

from dataclasses import replace
from decimal import Decimal
from functools import cache

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.estimate.shop import book, items, priced, with_layers
from transom.catalogue import SHIPPED
from transom.estimate.book import Book, Item
from transom.estimate.lines import Line
from transom.estimate.money import Span, cents
from transom.estimate.reading import shipped
from transom.estimate.records import Case, Estimate
from transom.job.records import Layer
from transom.sizing.sheets import halves

SHEETS = ("douglas-fir-marine 1/2 in", "douglas-fir-marine 3/4 in", "okoume 18 mm", "okoume 9 mm")
LENGTHS = (88.9, 101.6, 114.3, 127.0, 139.7, 152.4, 165.1, 177.8)
GRAINS = st.sampled_from(("across", "along"))
MONEY = st.decimals(Decimal("0.01"), 5000, places=2)
SOME = settings(max_examples=30, deadline=None)


def totals(c: Case) -> tuple[Span, ...]:
    return c.total, c.materials, c.labour, c.tax, c.hours, c.cost


def by_name(lines: tuple[Line, ...]) -> dict[str, Decimal]:
    """Amounts by thing: halves of a sheet, packets, hours."""
    out: dict[str, Decimal] = {}
    for x in lines:
        amount = x.quantity.likely
        name = f"{x.kind} {x.name}"
        if x.kind == "bolt":
            amount = x.quantity.likely * Decimal(str(x.sold))
        if x.kind == "sheet":
            amount = amount if x.unit == "half sheet" else 2 * amount
        if x.kind == "epoxy":
            amount *= Decimal(str(x.sold))
        out[name] = out.get(name, Decimal(0)) + amount
    return out


@SOME
@given(st.sampled_from(SHEETS), st.lists(GRAINS, min_size=1, max_size=5), GRAINS)
def test_a_layer_more_of_the_same_sheet_never_costs_less_of_anything(sheet: str, turned: list[str], more: str) -> None:
    layers = tuple(Layer(sheet, g) for g in turned)
    n = len(layers)
    less, greater = (
        with_layers(ls, shipped(), LENGTHS[k]) for ls, k in ((layers, n), ((*layers, Layer(sheet, more)), n + 1))
    )
    for a, b in zip(less.cases, greater.cases, strict=True):
        for x, y in zip(totals(a), totals(b), strict=True):
            assert x.low <= y.low
            assert x.likely <= y.likely
            assert x.high <= y.high
        before, after = by_name(a.lines), by_name(b.lines)
        assert all(after.get(name, Decimal(0)) >= amount for name, amount in before.items())
        assert a.days.low <= b.days.low
    assert less.work.epoxy.mass < greater.work.epoxy.mass
    assert less.work.board_mass < greater.work.board_mass
    assert less.work.coated < greater.work.coated


@cache
def plain() -> Estimate:
    return priced()


@SOME
@given(st.integers(0, len(book().items) - 1), MONEY)
def test_a_price_change_moves_only_its_lines_and_their_tax(which: int, price: Decimal) -> None:
    b = book()
    item = b.items[which]
    new = replace(item, price=price, half=None if item.half is None else price * Decimal("0.6"))
    e = priced(replace(b, items=(*b.items[:which], new, *b.items[which + 1 :])))
    for before, after in zip(plain().cases[-1].lines, e.cases[-1].lines, strict=True):
        assert before.key == after.key
        mine = before.kind == item.kind and before.name == item.name
        if not mine or (item.kind == "epoxy" and abs(before.sold - item.size) > 1e-6):
            assert before == after
    moved = {x.klass for x, y in zip(plain().cases[-1].lines, e.cases[-1].lines, strict=True) if x != y}
    for before, after in zip(plain().cases[-1].taxes, e.cases[-1].taxes, strict=True):
        assert before == after or before.klass in moved


def adds_up(e: Estimate) -> None:
    """Every total is the sum of its rounded lines, each end, and a case holds the one before it."""
    for c in e.cases:
        for end in ("low", "likely", "high"):
            lines = [getattr(x.charge, end) for x in c.lines if x.charge is not None]
            taxes = [getattr(t.amount, end) for t in c.taxes]
            assert getattr(c.total, end) == sum(lines, Decimal(0)) + sum(taxes, Decimal(0))
            assert all(a == cents(a) for a in (*lines, *taxes))
        assert c.total.low <= c.total.likely <= c.total.high
    for a, b in zip(e.cases, e.cases[1:], strict=False):
        assert a.total.likely <= b.total.likely
        assert {x.key for x in a.lines} <= {x.key for x in b.lines}


@SOME
@given(
    st.lists(MONEY, min_size=len(book().items), max_size=len(book().items)),
    st.decimals(0, 3, places=4),
    st.decimals(0, 1, places=4),
    st.decimals(Decimal("0.01"), 900, places=2),
)
def test_no_cent_is_lost(prices: list[Decimal], markup: Decimal, tax: Decimal, rate: Decimal) -> None:
    b = book()
    new = tuple(replace(i, price=p, half=None) for i, p in zip(b.items, prices, strict=True))
    adds_up(priced(replace(b, items=new, markup={"other": markup}, tax={"other": tax}, rate=rate)))


@SOME
@given(st.sets(st.integers(0, len(book().items) - 1), min_size=1), st.booleans())
def test_a_missing_price_is_never_hidden(gone: set[int], asked: bool) -> None:
    """Left out of the book or "?": each line that needs it is listed, the case says so, nothing counts as zero."""
    b = book()
    kept = [i for k, i in enumerate(b.items) if k not in gone]
    blank = [
        replace(i, price=None, half=None if i.half is None else i.half) for k, i in enumerate(b.items) if k in gone
    ]
    holed = replace(b, items=(*kept, *(blank if asked else [])))
    e = priced(holed)
    for c in e.cases:
        unpriced = [x for x in c.lines if x.price is None]
        assert {x.key for x in c.missing} == {x.key for x in unpriced}
        assert c.incomplete == bool(unpriced)
        assert all(x.why and x.cost is None and x.charge is None for x in unpriced)
        assert all(x.charge is not None and x.charge.likely > 0 for x in c.lines if x.price is not None)
    assert e.incomplete == any(c.missing for c in e.cases)
    if e.dry.incomplete:
        assert e.call_before is None
    names = {(x.kind, x.name) for x in plain().cases[-1].lines if x.kind != "labour"}
    assert names == {(x.kind, x.name) for x in e.cases[-1].lines if x.kind != "labour"}


def test_nothing_that_is_needed_is_left_out_of_an_empty_book() -> None:
    e = priced(Book("empty"))
    assert {x.name for x in e.cases[-1].missing} == {x.name for x in e.cases[-1].lines}


# Amounts


@SOME
@given(st.lists(st.sampled_from(SHEETS[:2]), min_size=1, max_size=5))
def test_the_board_weighs_what_its_sheets_do(names: list[str]) -> None:
    """Within 2 % of the sheets' published mass on the board's area, 0.6096 x 0.4572 m; lines and whole board alike."""
    e = with_layers(tuple(Layer(n, "across") for n in names), shipped(), LENGTHS[len(names)])
    expected = sum({SHEETS[0]: 7.3, SHEETS[1]: 10.7}[n] * 0.6096 * 0.4572 for n in names)
    assert abs(e.work.board_mass / expected - 1) < 0.02
    assert abs(sum(x.mass for x in e.dry.lines if x.kind == "sheet") / expected - 1) < 0.02


def test_epoxy_against_density_and_spread() -> None:
    """Glue at 250 to 500 g/m2 double spread, density 1.10 to 1.18 kg/L, films of 0.2 to 0.5 mm: all within the ranges seen."""
    w = plain().work
    row = {r.name: r for r in SHIPPED.rows("epoxy")}
    spread, rho = row["spread, double"], row["density, ambient cure"]
    assert spread.low <= w.epoxy.glue / w.glued <= spread.high
    assert rho.low <= w.epoxy.mass / w.epoxy.liters * 1000 <= rho.high
    film = w.epoxy.coats / w.coated / rho.value * 1000
    coat = SHIPPED.factor("board.coat_mm")
    assert coat.low is not None
    assert coat.high is not None
    assert coat.low <= film <= coat.high


@SOME
@given(st.lists(st.sampled_from(SHEETS[:2]), min_size=1, max_size=5), GRAINS)
def test_sheets_bought_are_those_that_size_counts(names: list[str], grain: str) -> None:
    layers = tuple(Layer(n, grain) for n in names)
    e = with_layers(layers, book(), LENGTHS[len(names)])
    bought = sum(
        x.quantity.likely * (1 if x.unit == "half sheet" else 2) for x in e.dry.lines if x.kind == "sheet" and x.price
    )
    needed = halves([x for x in layers if x.sheet == SHEETS[1]], e.work.width, e.work.height, SHIPPED)
    assert bought == needed


def test_items_reach_every_price() -> None:
    """The helper that these tests change prices with changes each of them."""
    assert all(i.price == 1 for i in items(book(), lambda i: {"price": Decimal(1)}).items)
    assert isinstance(book().items[0], Item)
