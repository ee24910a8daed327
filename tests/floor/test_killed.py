"""A command killed while it writes a job back: the old file or the new one, whole; and the .bak is the old one or not there."""

import os
import random
import signal
import sys
import time
from pathlib import Path

import pytest

from transom.floor.keeping import kept
from transom.job.read import load

TIMES = 50
FIGURES = ("20 mph", "21 mph")


@pytest.mark.skipif(sys.platform == "win32", reason="no fork")
def test_killed_at_any_moment_the_job_is_old_or_new(sized: Path, tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_bytes(sized.read_bytes())
    kept(path, {"trial.speed": FIGURES[0]})
    chance, seen = random.Random(9), set()
    for _ in range(TIMES):
        _killed(path, chance.uniform(0.0, 0.12))
        job = load(path)
        assert job.sea_trial is not None
        assert job.sea_trial.speed is not None
        seen.add(round(job.sea_trial.speed / 0.44704))
        bak = path.with_name("job.toml.bak")
        assert load(bak).mount == job.mount
    assert seen <= {20, 21}


def _killed(path: Path, after: float) -> None:
    """Another process that writes figure after figure into the job, killed after so many seconds."""
    child = os.fork()
    if child == 0:  # pragma: no cover - the other process
        while True:
            for figure in FIGURES:
                kept(path, {"trial.speed": figure})
    time.sleep(after)
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
