"""`size` as a shop uses it: the pick passes its own review, less stock is never better, nothing that fails is a pick."""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from tests.sizing.jobs import HP
from transom.catalogue import SHIPPED
from transom.checks import all_checks, band
from transom.errors import JobError
from transom.job.records import Board, Boat, Engine, Frame, Head, Job, Stock
from transom.judge.evaluate import careful_of, decided, trial_of, worst
from transom.judge.judging import judge, prepared
from transom.judge.records import Judgement
from transom.sizing.field import field_of
from transom.sizing.search import best_of_kinds
from transom.sizing.sizing import size

FIR = "douglas-fir-marine"
SHELF = Stock(
    panels=(FIR,), sheets=("1/2 in", "3/4 in"), grades=("F593C",), threads=("1/2-13",),
    plates=("6061-T6",), plate_thicknesses=(6.35,), washers=("1/2 wide",), most_sheets=3,
)  # fmt: skip
KINDS = {"pod": "pontoon", "uprights": "aluminium hull", "cap rail": "glass hull"}


def job(kind: str = "uprights", hp: float = 40.0, **stock: object) -> Job:
    return Job(
        Head(),
        Boat(KINDS[kind], plate="stated", plate_power=300 * HP, trailer=False),
        Engine(power=hp * HP, power_low=hp * HP),
        Board(610.0, 457.0),
        Frame(kind, at=(-225.0, 225.0) if kind == "uprights" else ()),
        replace(SHELF, **stock),
    )


@cache
def sized(kind: str, rank: str) -> Judgement:
    return size(job(kind), SHIPPED, rank)


def key(j: Judgement, rank: str) -> tuple[float, ...]:
    """What the rank compares, of a pick."""
    assert j.mount is not None
    _, setup, cases = prepared(j.job, SHIPPED)
    field = field_of(j.job, SHIPPED, setup, cases, rank)
    s = list(field.piles).index(j.mount.layers)
    sheets, mass, t = float(field.halves[s]), round(j.mass, 6), round(j.wood, 6)
    return {"material": (sheets, mass, t), "mass": (mass, t, sheets), "thickness": (t, sheets, mass)}[rank]


@pytest.mark.parametrize("kind", KINDS)
def test_the_pick_passes_its_own_review(kind: str) -> None:
    found = sized(kind, "material")
    assert found.mount is not None
    again = judge(found.job, SHIPPED, found.mount)
    assert not again.failing
    assert again.passes
    # A plate that knows a like one takes another way to the same figures: to the nine digits that are written.
    assert [c.id for c in again.checks] == [c.id for c in found.checks]
    assert [c.utilisation for c in again.checks] == pytest.approx([c.utilisation for c in found.checks], rel=1e-8)
    assert again.governing.utilisation <= 1.0
    assert found.sizing is not None
    for other in found.sizing.alternatives:
        assert other.passes
        assert judge(found.job, SHIPPED, other.mount).passes


def test_nothing_ranked_before_the_pick_passes() -> None:
    """One plate after another in the order of the rank, in every case, up to the pick: no screen, no calibration."""
    found = sized("uprights", "thickness")
    assert found.mount is not None
    _, setup, cases = prepared(found.job, SHIPPED)
    field = field_of(found.job, SHIPPED, setup, cases, "thickness")
    for place in field.order:
        mount = field.mount(int(place))
        trial = trial_of(setup, cases, [mount])
        # What the pencil finds over its limit threefold, and the plate decides, no plate can mend; nor any, where it decides.
        if max(c.worst[0] / band(c) for c in decided(all_checks(trial))) > 1.3:
            continue
        if worst(careful_of(trial))[0] <= 1.0:
            assert mount == replace(found.mount, frame_bolts=None, pod_bolts=None)
            return
    pytest.fail("nothing passes")


@pytest.mark.parametrize("rank", ["material", "mass", "thickness"])
@pytest.mark.parametrize(
    "less", [{"sheets": ("3/4 in",)}, {"most_sheets": 2}, {"plate_thicknesses": (3.175,)}, {"sheets": ("1/2 in",)}]
)
def test_less_on_the_shelf_is_never_better(rank: str, less: dict[str, object]) -> None:
    whole, some = sized("uprights", rank), size(job("uprights", **less), SHIPPED, rank)
    assert some.mount is None or key(some, rank) >= key(whole, rank)


def test_the_best_by_a_rank_is_best_in_what_it_ranks() -> None:
    by = {rank: sized("uprights", rank) for rank in ("material", "mass", "thickness")}
    assert min(j.mass for j in by.values()) == by["mass"].mass
    assert min(j.wood for j in by.values()) == by["thickness"].wood
    assert min(key(j, "material")[0] for j in by.values()) == key(by["material"], "material")[0]


def test_where_nothing_works_the_nearest_miss_is_shown() -> None:
    found = size(job("pod", 150.0, most_sheets=2), SHIPPED)
    assert found.mount is None
    assert not found.passes
    assert found.checks == ()
    assert found.sizing is not None
    miss = found.sizing.nearest_miss
    assert miss is not None
    assert not miss.passes
    assert miss.failing
    assert max(c.utilisation for c in miss.failing) > 1.0
    assert miss.weakest.utilisation == max(c.utilisation for c in miss.failing)
    assert found.paper == "QUOTE"
    assert found.cautions


def test_a_stock_too_thin_to_judge_is_refused_in_words() -> None:
    with pytest.raises(JobError, match=r"\[stock\] sheets: no stack of 1 to 1 of them is 25 to 90 mm thick"):
        size(job(sheets=("1/2 in",), most_sheets=1), SHIPPED)


def test_required_thicknesses_pass_where_they_say() -> None:
    """Half a millimetre under the largest the mount fails, at it it passes, by plates of its own."""
    found = sized("uprights", "material")
    assert found.mount is not None
    assert found.sizing is not None
    _, setup, cases = prepared(found.job, SHIPPED)
    trial = trial_of(setup, cases, [found.mount])
    largest = found.sizing.required[0]
    for thickness, passes in ((largest.thickness + 0.2, True), (largest.thickness - 0.5, False)):
        stacks = trial.stacks.scaled(np.array([thickness / trial.stacks.t[0]]))
        checks = careful_of(replace(trial, stacks=stacks))
        assert (worst(checks)[0] <= 1.0) == passes, (largest, thickness)


@pytest.mark.parametrize("number", [np.nan, np.inf])
def test_a_board_whose_thickness_is_no_number_is_never_picked(number: float) -> None:
    wanted = job()
    _, setup, cases = prepared(wanted, SHIPPED)
    field = field_of(wanted, SHIPPED, setup, cases, "material")
    stacks = replace(field.stacks, s=np.full_like(field.stacks.s, number))
    assert best_of_kinds(replace(field, stacks=stacks), 4) == []


def test_a_measured_thickness_that_is_no_number_is_refused() -> None:
    with pytest.raises(JobError):
        size(job(measured=((f"{FIR} 3/4 in", float("nan")), (f"{FIR} 1/2 in", 0.0))), SHIPPED)
