"""A bracket of plates with something not measured: its range is swept with every check, and nothing breaks."""

from pathlib import Path

import pytest

from transom.catalogue import SHIPPED
from transom.job.read import loads
from transom.sizing.sizing import size

EXAMPLE = (Path(__file__).parents[2] / "examples" / "setback-90hp.toml").read_text(encoding="utf-8")


@pytest.mark.parametrize("lost", ['kind = "plates"', 'thickness = "3/8 in"', "apart =", "engine_depth =", "leg ="])
def test_size_answers(lost: str) -> None:
    lines = EXAMPLE.splitlines()
    at = next(i for i, line in enumerate(lines) if line.strip().startswith(lost))
    text = "\n".join(line for i, line in enumerate(lines) if i != at and not line.startswith("speed = "))
    found = size(loads(text), SHIPPED, careful=False)
    assert found.checks or found.sizing is not None
