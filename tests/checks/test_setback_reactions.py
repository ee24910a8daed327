"""What the boat has to hold with a setback bracket between: all six components, and the weight of all of it."""

import random
from dataclasses import replace

import numpy as np
import pytest

from tests.checks.shop import MOUNT
from tests.sizing.jobs import job_of
from transom.catalogue import SHIPPED
from transom.checks.reactions import reactions
from transom.job.records import Job
from transom.job.setback_records import BasePlate, Setback, SidePlates
from transom.judge.evaluate import trial_of
from transom.judge.judging import prepared


def setback_job(seed: int) -> Job:
    """A random job with a random bracket between, of plates or another kind, weighed or not."""
    r = random.Random(1000 + seed)
    bracket = Setback(
        distance=r.uniform(0.0, 700.0),
        mass=r.choice([None, r.uniform(5.0, 40.0)]),
        kind=r.choice(["plates", "box", ""]),
        height=r.choice([None, r.uniform(-80.0, 150.0)]),
        gravity_aft=r.choice([None, r.uniform(50.0, 400.0)]),
        base=BasePlate(upper_holes=300.0, lower_holes=260.0, rows_apart=200.0, top_to_upper=50.0),
        side_plates=SidePlates(apart=r.uniform(150.0, 250.0)),
    )
    return replace(job_of(seed), setback=bracket)


@pytest.mark.parametrize("seed", range(50))
def test_what_the_boat_has_to_hold_balances(seed: int) -> None:
    _, setup, cases = prepared(setback_job(seed), SHIPPED)
    r = reactions(trial_of(setup, cases, [MOUNT]))
    F = r.force
    got = np.concatenate([F.sum(axis=1), np.cross(r.at[None], F).sum(axis=1)], axis=-1)
    own = np.concatenate([r.own_weight, np.cross(r.weight_at, r.own_weight)])
    want = cases.wrench + own
    assert np.max(np.abs(got - want) / (np.abs(want).max(axis=0) + 1.0)) < 1e-6
