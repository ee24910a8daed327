"""`--rank cost`: candidates priced apart add up to the estimate, and the order is that of what they cost."""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from tests.estimate.shop import PASSING, book
from transom.catalogue import SHIPPED
from transom.estimate.book import Book
from transom.estimate.build import estimate
from transom.estimate.rank import costs
from transom.estimate.reading import shipped
from transom.job.read import loads
from transom.judge.judging import judge, prepared
from transom.sizing.field import Field, field_of
from transom.sizing.sizing import size

STOCK = (
    PASSING.split("[mount]")[0]
    + '[stock]\npanels = ["douglas-fir-marine", "okoume"]\nsheets = ["3/4 in", "18 mm"]\nmost_sheets = 2\n'
)


@cache
def field(ranked: bool = True) -> Field:
    job = loads(STOCK)
    _, setup, cases = prepared(job, SHIPPED)
    return field_of(
        job, SHIPPED, setup, cases, "cost" if ranked else "material", costs=costs(shipped()) if ranked else None
    )


def cost_of(place: int, b: Book) -> tuple[int, int]:
    """What the estimate makes of a candidate, bolts of frame and pod left out: missing prices, cents."""
    f = field()
    job = loads(STOCK)
    j = replace(judge(job, SHIPPED, f.mount(place), careful=False), fasteners=())
    dry = estimate(j, b).dry
    return sum(x.kind != "labour" for x in dry.missing), int(dry.total.likely * 100)


@pytest.mark.parametrize("share", [0.0, 0.3, 0.7, 0.999])
def test_a_candidates_cost_is_its_estimate(share: float) -> None:
    """To two cents: tax is rounded on the sum of a class there, on its parts here."""
    f = field()
    place = int(f.order[int(share * len(f))])
    lengths = f.trial(np.arange(len(f))).hardware.length[:, 0]
    missing, cents = costs(shipped())(f.setup, f.piles, f.sets, lengths)
    expected = cost_of(place, shipped())
    assert missing[place] == expected[0]
    assert abs(int(cents[place]) - expected[1]) <= 5


def test_the_order_is_that_of_cost_and_what_lacks_a_price_comes_last() -> None:
    f = field()
    lengths = f.trial(np.arange(len(f))).hardware.length[:, 0]
    missing, cents = costs(book())(f.setup, f.piles, f.sets, lengths)
    assert missing.sum() > 0
    full = costs(shipped())(f.setup, f.piles, f.sets, lengths)
    pairs = [(int(full[0][p]), int(full[1][p])) for p in f.order]
    assert pairs == sorted(pairs)
    assert sorted(f.order.tolist()) == list(range(len(f)))
    assert len(missing) == len(cents) == len(f)


def test_the_cheapest_that_passes_is_picked_and_costs_no_more_than_the_usual_pick() -> None:
    job = loads(STOCK)
    usual, cheap = (size(job, SHIPPED, r, costs=c) for r, c in (("material", None), ("cost", costs(shipped()))))
    assert cheap.passes
    assert cheap.sizing is not None
    assert cheap.sizing.rank == "cost"
    amounts = [estimate(replace(j, fasteners=()), shipped()).dry.total.likely for j in (usual, cheap)]
    assert amounts[1] <= amounts[0]
