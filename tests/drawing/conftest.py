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
    found = {}
    for name in ("pontoon-40hp", "runabout-60hp", "uprights-90hp"):
        job = load(EXAMPLES / f"{name}.toml")
        found[name] = judge(job, SHIPPED, job.mount) if job.mount else size(job, SHIPPED)
    return found


@pytest.fixture(scope="package")
def drawings(judged: dict[str, Judgement]) -> dict[str, Drawing]:
    """The same, as geometry."""
    return {name: drawing_of(j) for name, j in judged.items()}
