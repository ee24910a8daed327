"""Quick looks side by side inside the search: they find what looks one at a time find."""

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest

from tests.sizing.jobs import job_of
from transom.catalogue import SHIPPED
from transom.errors import JobError
from transom.job.records import Job
from transom.judge.judging import prepared
from transom.sizing import probe
from transom.sizing.estimates import Block, Solved
from transom.sizing.field import Field, field_of
from transom.sizing.probe import Tried
from transom.sizing.search import best_by_plate

SEEDS = (0, 2, 13)  # a pod, a cap rail and uprights, whose first candidates come near the limit


def fielded(job: Job) -> Field:
    _, setup, cases = prepared(job, SHIPPED)
    return field_of(job, SHIPPED, setup, cases, "material")


def few(seed: int) -> Job:
    """A job with two sheets: some 300 candidates."""
    job = job_of(seed)
    return replace(job, stock=replace(job.stock, sheets=job.stock.sheets[-2:], most_sheets=3))


def passing(tried: Tried) -> bool:
    return tried.passes


@pytest.fixture(scope="module", params=SEEDS)
def field(request: pytest.FixtureRequest) -> Field:
    return fielded(few(request.param))


def counted(monkeypatch: pytest.MonkeyPatch, look: Callable[..., object]) -> list[int]:
    """How many stood in each look side by side, `look` in place of it."""
    counts: list[int] = []

    def asked(kin: object, trial: object, rows: object) -> object:
        counts.append(len(trial.stacks))  # type: ignore[attr-defined]
        return look(kin, trial, rows)

    monkeypatch.setattr(probe, "beside", asked)
    return counts


def refused(*_: object) -> object:
    raise JobError("contact: no balance")


def test_many_find_what_one_at_a_time_does(field: Field, monkeypatch: pytest.MonkeyPatch) -> None:
    counts = counted(monkeypatch, probe.beside)
    many = best_by_plate(field, 3, passing)
    assert many
    assert max(counts) > 1
    monkeypatch.setattr(probe, "beside", refused)  # then each is looked at alone
    assert best_by_plate(field, 3, passing) == many


def test_cases_near_the_worst_lead() -> None:
    """Of two candidates the first is worst in its first case by the second check, the other in its third by the first."""
    u = np.array([[[0.1, 0.2, 0.3], [0.2, 0.5, 1.0]], [[0.9, 0.7, 0.1], [0.1, 0.1, 0.1]]])
    one, ones, none = np.ones((2, 3)), np.ones(2), np.zeros((2, 3))
    block = Block(np.arange(2), u, np.ones_like(u), np.zeros((3, 2)), ones, ones, ones, ones, np.zeros(2, dtype=int))
    by = Solved(np.zeros(3), one, none, (0.05, 0.5), np.zeros(2), 0)
    assert block.leading(np.array([0]), by) == [0]
    assert block.leading(np.array([0, 1]), by) == [0, 2]
    # What a plate finds more, as demand, counts too: 0.7 and 0.2 come to 0.9 of the limit.
    assert block.leading(np.array([0]), replace(by, more=np.array([[0.0] * 3, [0.0, 0.2, 0.0]]))) == [0, 1]


def _alone(u: np.ndarray) -> Block:
    """A block of one candidate of utilisations u (c, 1, v), of which nothing is known yet."""
    far = np.full(1, np.inf)
    bolts = np.zeros(1, dtype=int)
    return Block(np.arange(1), u, np.ones_like(u), np.zeros((3, 1)), np.ones(1), far, far.copy(), far.copy(), bolts)


def test_plates_of_the_same_bolts_are_heard_first_and_whole() -> None:
    """At 1.06 by a check of the bolts: given up where a plate of the same bolts says so, not where another does."""
    u = np.full((1, 1, 1), 1.06)
    for bolts, apart, out in ((0, 0.01, True), (1, 0.01, False), (0, 0.06, False)):
        block = _alone(u)
        block.learn(
            [
                Solved(
                    np.array([apart, 0.0, 0.0]), np.ones((1, 1)), np.zeros((1, 1)), (0.05, 0.5), np.array([0.1]), bolts
                )
            ]
        )
        assert bool(block.out[0]) is out
    near, same = (
        Solved(np.array([x, 0.0, 0.0]), np.full((1, 1), t), np.zeros((1, 1)), (0.05, 0.5), np.array([0.1]), b)
        for x, t, b in ((0.0, 1.0, 1), (0.03, 1.1, 0))
    )
    block = _alone(u)
    block.learn([near, same])
    assert block.likely[0] == pytest.approx(1.1 * 1.06)
