"""What a pick is said to be good for is what its own plate bears out, not the pencil's figures brought to its level."""

from dataclasses import replace
from pathlib import Path

from transom.catalogue import SHIPPED
from transom.job.read import load
from transom.judge.judging import judge
from transom.sizing.sizing import size

EXAMPLE = Path(__file__).parents[2] / "examples" / "pontoon-40hp.toml"


def test_the_power_it_is_good_for_passes_when_judged() -> None:
    """A small engine in a pod: its power more than doubles, and what the plate makes of the pencil's figures with it."""
    job = load(EXAMPLE)
    assert job.engine.power is not None
    job = replace(job, engine=replace(job.engine, power=0.6914 * job.engine.power), boat=replace(job.boat, service="calm"),
                  board=replace(job.board, width=602.40, height=442.07), mount=None)  # fmt: skip
    sized = size(job, SHIPPED)
    assert sized.good_for is not None
    assert sized.mount is not None
    assert sized.good_for.power > 1.5 * sized.facts["engine.power"].value
    more = judge(replace(job, engine=replace(job.engine, power=sized.good_for.power)), SHIPPED, sized.mount)
    assert not more.failing
    heavier = judge(replace(job, engine=replace(job.engine, mass=sized.good_for.mass)), SHIPPED, sized.mount)
    assert not heavier.failing
