"""The array search against a plain loop over every stack, backing and case, on random jobs.

What is compared is the machinery: pruning, blocks, ranking, bolt lengths, grids of thickness. Both sides judge a
candidate by the pencil here, so that a plain loop can look at thousands; the plate's say is tested elsewhere.
"""

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from tests.sizing.jobs import job_of
from tests.sizing.plain import Plain
from transom.catalogue import SHIPPED
from transom.judge.evaluate import trial_of
from transom.judge.judging import prepared
from transom.sizing import search, sizing
from transom.sizing.field import RANKS, Field, field_of
from transom.sizing.required import required_thickness
from transom.sizing.search import best_of_kinds, nearest_miss
from transom.sizing.sizing import next_thinner

# Thirty of the random jobs whose pick, by the pencil, is found in one of the search's first to sixth blocks; for two of
# them nothing on the shelf works, which is the slowest to be sure of.
JOBS = (0, 2, 3, 8, 11, 15, 18, 21, 23, 26, 28, 29, 31, 39, 45, 51, 52, 59, 63, 65, 71, 74, 76, 77, 78, 80, 83, 85)
NOTHING_WORKS = (53, 69)


@pytest.fixture
def _places_for_options(monkeypatch: pytest.MonkeyPatch) -> None:
    """Next thinner as a place among the candidates: what it comes to is judged elsewhere."""
    monkeypatch.setattr(sizing, "option", lambda field, place, like: place)


def both(seed: int) -> tuple[Field, Plain, list[tuple[int, int]]]:
    """The array search's field, the plain one, and the order both agree on."""
    job, rank = job_of(seed), RANKS[seed // 3 % 3]
    _, setup, cases = prepared(job, SHIPPED)
    field = field_of(job, SHIPPED, setup, cases, rank, careful=False)
    # Both with the most of the frame's bolts: that the best of several is taken is a law of `tests/laws`.
    field = replace(field, setup=setup)
    plain = Plain(setup, cases, field.piles, field.sets)
    assert len(plain.piles) >= 200
    assert len(plain.sets) >= 10
    order = plain.order(rank)
    assert order == [divmod(int(p), len(plain.sets)) for p in field.order]
    return field, plain, order


@pytest.mark.usefixtures("_places_for_options")
@pytest.mark.parametrize("seed", JOBS)
def test_the_search_finds_what_a_plain_loop_finds(seed: int) -> None:
    field, plain, order = both(seed)
    pick = next(c for c in order if plain.passes(*c))
    mount = plain.mount(*pick)
    found = best_of_kinds(field, 1)[0]
    assert divmod(found, len(plain.sets)) == pick
    assert field.mount(found) == mount
    required = required_thickness(trial_of(plain.setup, plain.cases, [mount]))
    assert {r.check: r.thickness for r in required} == plain.required(mount)
    assert [r.thickness for r in required] == sorted((r.thickness for r in required), reverse=True)
    thinner: Any = next_thinner(field, found)
    expected = plain.next_thinner(order, pick)
    assert (None if thinner is None else divmod(thinner, len(plain.sets))) == expected


@pytest.mark.parametrize("seed", NOTHING_WORKS)
def test_the_nearest_miss_is_that_of_a_plain_loop(seed: int) -> None:
    field, plain, order = both(seed)
    nearest, least = plain.nearest(order)
    assert least > 1.0
    assert best_of_kinds(field, 4) == []
    assert divmod(nearest_miss(field), len(plain.sets)) == nearest


@pytest.mark.parametrize("seed", [3, 14, 25, 30, 41, 53])
def test_cases_left_out_never_govern(seed: int) -> None:
    """Every tenth candidate in all cases and in those that matter: the same worst utilisation."""
    job = job_of(seed)
    _, setup, cases = prepared(job, SHIPPED)
    field = field_of(job, SHIPPED, setup, cases, "material", careful=False)
    kept = search.rows_that_matter(field, np.arange(len(field.piles)))
    places = field.order[::10]
    np.testing.assert_array_equal(
        search.screened(field, places, cases.take(kept)), search.screened(field, places, cases)
    )
