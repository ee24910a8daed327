"""A stated number that makes the loads small and is far from usual is doubted, never cut on unread."""

from dataclasses import replace
from pathlib import Path

import pytest

from transom.catalogue import SHIPPED
from transom.job.read import load
from transom.job.records import Engine
from transom.judge.notes import doubts
from transom.setup.facts import collect

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))
JOB = load(next(p for p in EXAMPLES if p.stem == "runabout-60hp"))


def propelled(**found: float) -> Engine:
    return replace(JOB.engine, propeller=replace(JOB.engine.propeller, **found))  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("engine", "what"),
    [
        (replace(JOB.engine, mass=5.4), "engine weight"),
        (propelled(diameter=127.0), "propeller diameter"),
        (propelled(gear=0.5), "gear ratio"),
        (propelled(speed=240.0), "rated engine speed"),
        (replace(JOB.engine, thrust=500.0), "measured thrust"),
    ],
)
def test_far_from_usual_is_doubted(engine: Engine, what: str) -> None:
    """60 hp of 12 lb, on a 5 in propeller, geared up, at 14,400 rpm, that pulls 112 lbf."""
    job = replace(JOB, engine=engine)
    (one,) = doubts(job, collect(job, SHIPPED), SHIPPED)
    assert one.startswith(what)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.stem)
def test_the_examples_are_not(path: Path) -> None:
    job = load(path)
    assert doubts(job, collect(job, SHIPPED), SHIPPED) == ()
