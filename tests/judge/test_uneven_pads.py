"""Pads that do not lie alike on both sides: these sums halve every push between them."""

from dataclasses import replace

import pytest

from tests.judge.mounts import JOB
from transom.catalogue import SHIPPED
from transom.job.records import Pad
from transom.judge.stops import stops
from transom.setup.facts import collect


def named(*across: float) -> set[str]:
    pads = tuple(Pad(y, 0.0, 70.0, 330.0) for y in across)
    job = replace(JOB, engine=replace(JOB.engine, bracket=replace(JOB.engine.bracket, pads=pads)))
    return {s.name for s in stops(job, collect(job, SHIPPED), SHIPPED)}


@pytest.mark.parametrize("across", [(-140.0,), (-200.0, 60.0), (-140.0, -60.0), (-140.0, 147.0)])
def test_uneven_pads_are_out_of_scope(across: tuple[float, ...]) -> None:
    """One at 200 mm, one at 60 mm: the nearer takes 200/260 of the push, not half."""
    assert "out-of-scope" in named(*across)


@pytest.mark.parametrize("across", [(), (-140.0, 140.0), (-140.0, 145.0), (-140.0, -60.0, 60.0, 140.0)])
def test_even_ones_are_not(across: tuple[float, ...]) -> None:
    assert "out-of-scope" not in named(*across)
