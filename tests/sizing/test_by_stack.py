"""What is worked out once a stack is what each candidate has of its own, to the last bit."""

import numpy as np
import pytest

from tests.sizing.jobs import job_of
from transom.catalogue import SHIPPED
from transom.checks import framed
from transom.checks.board import sliding_at_pads
from transom.judge.judging import prepared
from transom.sizing.by_stack import SHARED, ByStack
from transom.sizing.field import field_of


@pytest.mark.parametrize("seed", [0, 1, 2])
def test_a_candidate_has_what_its_stack_has(seed: int) -> None:
    job = job_of(seed)
    _, setup, cases = prepared(job, SHIPPED)
    field = field_of(job, SHIPPED, setup, cases, "material")
    places = np.concatenate([field.order[:40], field.order[-40:]])
    both, own = ByStack(field, places, cases), field.trial(places, cases)
    for name in SHARED:
        shared, alone = getattr(both.trial, name), getattr(own, name)
        for part in vars(alone) if hasattr(alone, "__dict__") else ("",):
            pair = (getattr(x, part) if part else x for x in (shared, alone))
            assert np.array_equal(*np.broadcast_arrays(*pair)), (name, part)
    n = len(places)
    for own_checks, of_stacks in (
        (framed(own), framed(both.stacks)),
        ([sliding_at_pads(own)], [sliding_at_pads(both.stacks)]),
    ):
        for a, b in zip(own_checks, both.spread(of_stacks), strict=True):
            assert a.name == b.name
            assert np.array_equal(*(np.broadcast_to(c.utilisation, (n, len(c.cases))) for c in (a, b))), a.name
            assert np.array_equal(*(np.broadcast_to(c.worst, n) for c in (a, b)))
