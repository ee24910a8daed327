"""Drawings of the shipped examples, judged once."""

from pathlib import Path

import pytest

from transom.catalogue import SHIPPED
from transom.drawing.layout import drawing_of
from transom.drawing.records import Drawing
from transom.job.read import load
from transom.judge.judging import judge
from transom.judge.records import Judgement
from transom.sizing.sizing import size

EXAMPLES = Path(__file__).parents[2] / "examples"


@pytest.fixture(scope="package")
def judged() -> dict[str, Judgement]:
    """A pick in inches, a mount as drawn with two plates, and one in mm that fails; by example."""
    return {name: _judged(name, careful=True) for name in ("pontoon-40hp", "runabout-60hp", "uprights-90hp")}


def _judged(name: str, careful: bool) -> Judgement:
    job = load(EXAMPLES / f"{name}.toml")
    if job.mount:
        return judge(job, SHIPPED, job.mount, careful)
    found = size(job, SHIPPED, careful=careful)
    if found.mount is None and found.sizing and found.sizing.nearest_miss:
        return judge(job, SHIPPED, found.sizing.nearest_miss.mount, careful)
    return found


@pytest.fixture(scope="package")
def drawings(judged: dict[str, Judgement]) -> dict[str, Drawing]:
    """The same, as geometry."""
    return {name: drawing_of(j) for name, j in judged.items()}


@pytest.fixture(scope="package")
def every_example(drawings: dict[str, Drawing]) -> dict[str, Drawing]:
    """All examples there are; where geometry alone counts, the pencil judges the others."""
    names = sorted(p.stem for p in EXAMPLES.glob("*.toml"))
    return {name: drawings.get(name) or drawing_of(_judged(name, careful=False)) for name in names}
