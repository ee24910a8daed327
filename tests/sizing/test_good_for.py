"""What a pick is said to be good for is what its own plate bears out, not the pencil's figures brought to its level."""

from dataclasses import replace
from pathlib import Path

from transom.catalogue import SHIPPED
from transom.job.read import load
from transom.job.usual import as_usual
from transom.judge.judging import judge
from transom.sizing.sizing import size

EXAMPLE = Path(__file__).parents[2] / "examples" / "pontoon-40hp.toml"
UPRIGHTS = EXAMPLE.with_name("uprights-90hp.toml")
HP = 745.69987158


def test_the_power_it_is_good_for_passes_when_judged() -> None:
    """A small engine on a board that is stiff for it: its power all but doubles, and the plate bears it out."""
    job = load(UPRIGHTS)
    job = replace(job, engine=replace(as_usual(job.engine), power=15 * HP), mount=None)
    sized = size(job, SHIPPED)
    assert sized.good_for is not None
    assert sized.mount is not None
    assert sized.good_for.power > 1.8 * sized.facts["engine.power"].value
    more = judge(replace(job, engine=replace(job.engine, power=sized.good_for.power)), SHIPPED, sized.mount)
    assert not more.failing
    assert more.governing.utilisation > 0.9
    heavier = judge(replace(job, engine=replace(job.engine, mass=sized.good_for.mass)), SHIPPED, sized.mount)
    assert not heavier.failing


def test_a_larger_engine_is_not_taken_for_as_light_as_the_jobs_own() -> None:
    """The example's engine is lighter, and on a smaller propeller, than is usual: a larger one need not be.

    Its bracket takes nothing thin here, so that the board has strength to spare.
    """
    job = load(EXAMPLE)
    job = replace(job, engine=replace(job.engine, takes=(55.0, 70.0)))
    sized = size(job, SHIPPED)
    assert sized.good_for is not None
    assert sized.mount is not None
    now = sized.facts["engine.power"].value
    kept = replace(job, engine=replace(job.engine, power=1.75 * now))
    usual = replace(kept, engine=as_usual(kept.engine))
    assert not judge(kept, SHIPPED, sized.mount, add=True).failing
    assert judge(usual, SHIPPED, sized.mount, add=True).failing
    assert now <= sized.good_for.power < 1.75 * now
