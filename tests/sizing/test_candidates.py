"""What the shop could build: every stack once, sheets to buy as a saw would have them, backings that lie on the board."""

from itertools import product

import pytest

from tests.sizing.jobs import job_of
from transom.catalogue import SHIPPED
from transom.job.records import Board, Boat, Engine, Frame, Head, Job, Layer, Offcut, Stock
from transom.judge.judging import prepared
from transom.sizing.candidates import backings, bolt_sets, piles, sheets_in_stock
from transom.sizing.sheets import NONE_BIG_ENOUGH, halves

FIR = "douglas-fir-marine"
LOW, HIGH = 25.0, 90.0


def job(**stock: object) -> Job:
    engine = Engine(power=40 * 745.7, power_low=40 * 745.7)
    return Job(Head(), Boat("pontoon"), engine, Board(610.0, 457.0), Frame("pod"), Stock(**stock))  # type: ignore[arg-type]


@pytest.mark.parametrize(
    "sheets, most", [(("1/2 in", "3/4 in"), 4), (("3/8 in", "1/2 in", "5/8 in"), 3), (("3/4 in",), 4)]
)
def test_every_stack_is_listed_once(sheets: tuple[str, ...], most: int) -> None:
    """By brute force: every row of sheets and turns, sorted thickest aft, one of each pair of mirror images."""
    t = {f"{FIR} {s}": SHIPPED.sheet(f"{FIR} {s}").thickness_mm for s in sheets}
    expected = set()
    for count in range(1, most + 1):
        for row in product(product(t, ("across", "along")), repeat=count):
            names = [name for name, _ in row]
            thick = [t[name] for name in names]
            if thick != sorted(thick, reverse=True) or len(set(names)) > 2 or not LOW <= sum(thick) <= HIGH:
                continue
            mirrored = tuple(reversed(row)) if len(set(names)) == 1 else row
            expected.add(min(row, mirrored))
    found = piles(job(panels=(FIR,), sheets=sheets, most_sheets=most), SHIPPED, HIGH, LOW)
    rows = [tuple((layer.sheet, layer.grain) for layer in pile) for pile in found]
    canonical = [min(r, tuple(reversed(r))) if len({n for n, _ in r}) == 1 else r for r in rows]
    assert len(set(rows)) == len(rows)
    assert set(canonical) == expected
    assert len(canonical) == len(expected)


def test_no_board_mixes_panels() -> None:
    found = piles(job(panels=(FIR, "okoume"), sheets=("3/4 in", "18 mm")), SHIPPED, HIGH, LOW)
    assert all(len({SHIPPED.sheet(layer.sheet).panel for layer in pile}) == 1 for pile in found)


def test_an_empty_stock_is_the_shipped_tables() -> None:
    assert set(sheets_in_stock(job(), SHIPPED)) == {FIR, "okoume"}


def across(n: int) -> list[Layer]:
    return [Layer(f"{FIR} 3/4 in", "across")] * n


def along(n: int) -> list[Layer]:
    return [Layer(f"{FIR} 3/4 in", "along")] * n


@pytest.mark.parametrize(
    "pile, width, height, count",
    [
        # A 4 by 8 ft sheet, 1219.2 x 2438.4; half of it is 1219.2 along the face grain.
        (across(2), 610.0, 457.0, 1),  # blanks 623 x 470: two fit side by side in the width, one row of 623
        (across(3), 610.0, 457.0, 2),  # two rows of 623 make 1245 with no kerf: over a half
        (across(3), 560.0, 457.0, 1),  # two rows of 573 and a kerf, 1149: within it
        (along(2), 610.0, 457.0, 1),  # turned: one blank 623 wide, two rows of 470 along
        (along(3), 610.0, 457.0, 2),  # 623 and 623 and a kerf are 1249 in a width of 1219: one a row, three rows of 470
        ([*across(2), *along(1)], 610.0, 457.0, 1),  # 623 + 470 + a kerf = 1096
        (across(1), 1300.0, 457.0, 2),  # longer than a half: a whole sheet
        (across(1), 2500.0, 457.0, NONE_BIG_ENOUGH),
        (across(1), 610.0, 1300.0, NONE_BIG_ENOUGH),
        (along(1), 1300.0, 457.0, NONE_BIG_ENOUGH),
    ],
)  # fmt: skip
def test_half_sheets_as_a_saw_would_have_them(pile: list[Layer], width: float, height: float, count: int) -> None:
    found = halves(pile, width, height, SHIPPED)
    assert found >= NONE_BIG_ENOUGH if count == NONE_BIG_ENOUGH else found == count


def test_sheets_of_two_thicknesses_are_bought_apart() -> None:
    mixed = [*across(1), Layer(f"{FIR} 1/2 in", "across")]
    assert halves(mixed, 610.0, 457.0, SHIPPED) == 2


@pytest.mark.parametrize("seed", range(12))
def test_backings_lie_on_the_board(seed: int) -> None:
    wanted = job_of(seed)
    _, setup, _ = prepared(wanted, SHIPPED)
    p, place = setup.holding.pattern, setup.place
    for b in backings(wanted, SHIPPED, setup, wanted.stock.threads[0]):
        if not b.plate:
            continue
        assert b.thickness in wanted.stock.plate_thicknesses
        assert b.width <= float(place.width)
        assert b.height <= float(place.height)
        if b.per != "bolt":
            assert b.width >= 2 * max(float(p.y_u), float(p.y_l))
        if b.per == "all":
            assert b.height >= float(p.z_l) - float(p.z_u)


@pytest.mark.parametrize("seed", range(6))
def test_bolts_are_the_shops(seed: int) -> None:
    wanted = job_of(seed)
    _, setup, _ = prepared(wanted, SHIPPED)
    sets = bolt_sets(wanted, SHIPPED, setup)
    assert len(set(sets)) == len(sets)
    assert {s.thread for s in sets} == {wanted.stock.threads[0]}
    assert {s.grade for s in sets} == set(wanted.stock.grades)


def test_offcuts_of_the_same_sheet_are_used_before_one_is_bought() -> None:
    large, small = (Offcut(f"{FIR} 3/4 in", 900.0, width) for width in (500.0, 450.0))
    assert halves(across(1), 610.0, 457.0, SHIPPED, [large]) == 0
    assert halves(across(1), 610.0, 457.0, SHIPPED, [small]) == 1  # the blank is 470 wide
    assert halves(along(1), 610.0, 457.0, SHIPPED, [large]) == 1  # grain would lie the wrong way
    assert halves(across(3), 610.0, 457.0, SHIPPED) == 2
    assert halves(across(3), 610.0, 457.0, SHIPPED, [large]) == 1
    assert halves(across(1), 610.0, 457.0, SHIPPED, [Offcut(f"{FIR} 1/2 in", 900.0, 500.0)]) == 1
