"""Where the answer flips: each break-even put back into the job, one at a time."""

import math
from functools import cache

import pytest

from tests.judge.mounts import JOB, mount, put
from transom.catalogue import SHIPPED
from transom.judge.assumptions import DECIDES_WITHIN, TIED, WOOD, decides, nearness
from transom.judge.evaluate import trial_of, worst
from transom.judge.judging import judge
from transom.judge.records import Judgement
from transom.loads.cases import build_cases
from transom.result import Assumption
from transom.setup.build import build, values_of
from transom.setup.facts import collect

PASSES, FAILS = mount(3), mount(3, "5/8 in", 101.6)
# The nearest of twelve steps to the flip is given; the widest steps are a quarter of the value.
BEYOND = 0.25 / 11 + 1e-6


@cache
def judged(passing: bool) -> Judgement:
    """By the pencil, whose own break-evens they are."""
    found = judge(JOB, SHIPPED, PASSES if passing else FAILS, careful=False)
    assert (not found.failing) == passing
    return found


def holds_with(j: Judgement, key: str, value: float) -> bool:
    """True where the mount passes with another value for one assumption: stated in the job where that is all it says."""
    assert j.mount is not None
    stated = put(j.setup.job, key, value)
    if stated is not None:
        setup = build(stated, SHIPPED, values_of(collect(stated, SHIPPED)))
    else:
        base = values_of(j.facts) | dict.fromkeys(WOOD, 1.0)
        share = value / float(base[key])
        setup = build(j.setup.job, SHIPPED, base | {k: base[k] * share for k in TIED.get(key, (key,))})
    return bool(worst(trial_of(setup, build_cases(setup.loads), [j.mount]))[0] <= 1.0)


def ends(j: Judgement) -> list[tuple[Assumption, float, int]]:
    """Every end of every range, and the way out of it."""
    return [
        (a, end, way) for a in j.assumptions for end, way in ((a.holds_from, -1), (a.holds_to, 1)) if end is not None
    ]


@pytest.mark.parametrize("passing", [True, False])
def test_the_answer_flips_just_beyond_and_not_before(passing: bool) -> None:
    j = judged(passing)
    listed = ends(j)
    assert len(listed) >= 2
    assert {way for *_, way in listed} >= ({-1, 1} if passing else {1})
    for a, end, way in listed:
        assert holds_with(j, a.key, end) == passing, (a.key, end)
        assert holds_with(j, a.key, end + way * BEYOND * abs(a.value)) != passing, (a.key, end)


@pytest.mark.parametrize("passing", [True, False])
def test_where_no_end_is_given_half_and_double_change_nothing(passing: bool) -> None:
    j = judged(passing)
    for a in j.assumptions:
        for end, share in ((a.holds_from, 0.5), (a.holds_to, 2.0)):
            if end is None:
                assert holds_with(j, a.key, share * a.value) == passing, (a.key, share)


@pytest.mark.parametrize("passing", [True, False])
def test_ends_lie_either_side_of_what_was_used(passing: bool) -> None:
    for a in judged(passing).assumptions:
        assert a.holds_from is None or a.holds_from <= a.value
        assert a.holds_to is None or a.holds_to >= a.value


def test_every_assumption_says_what_it_is_and_where_it_comes_from() -> None:
    j = judged(True)
    assert {a.key for a in j.assumptions} >= {k for k, f in j.facts.items() if f.assumed} | set(WOOD)
    for a in j.assumptions:
        assert a.evidence in ("published", "common practice", "convention", "estimate"), a.key
        assert a.known_by in ("read", "transcribed", "memory", "derived", "computed"), a.key
        assert a.source.strip(), a.key
        assert a.says.strip(), a.key
        assert math.isfinite(a.value), a.key


def test_nothing_stated_is_an_assumption() -> None:
    j = judged(True)
    assert not [a.key for a in j.assumptions if a.key in j.facts and j.facts[a.key].evidence == "stated"]


def test_what_decides_is_to_be_measured_the_nearest_flip_first() -> None:
    j = judged(False)
    assert j.to_measure
    near = [nearness(a) for a in j.to_measure]
    assert near == sorted(near)
    assert max(near) <= DECIDES_WITHIN
    assert {a.key for a in j.to_measure} == {a.key for a in j.assumptions if decides(a) and a.measure}


@pytest.mark.parametrize(
    "value, low, high, share",
    [(200.0, 190.0, None, 0.05), (200.0, None, 250.0, 0.25), (200.0, 100.0, 210.0, 0.05), (200.0, None, None, math.inf),
     (0.0, 0.0, 1.0, math.inf)],
)  # fmt: skip
def test_nearness_is_the_nearer_flip_as_a_share(
    value: float, low: float | None, high: float | None, share: float
) -> None:
    a = Assumption("k", value, "mm", "estimate", "memory", "s", low, high)
    assert nearness(a) == pytest.approx(share)
    assert decides(a) == (share <= 0.25 + 1e-12)
