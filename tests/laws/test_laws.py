"""Each law on a few seeds of its own; `tests/fuzz/whole_jobs.py COUNT SEED` asks hundreds."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.laws import jobs, laws
from transom.catalogue import SHIPPED
from transom.job.read import loads
from transom.job.write import with_mount
from transom.sizing.sizing import picked

SEEDS = {"units": range(1, 4), "order": range(4, 7), "twice": range(7, 9), "mirror": range(9, 14), "reviewed": range(14, 18),
         "tighter": (5, 157), "nothing_before": (12, 117)}  # fmt: skip
ASKED = [(law, seed) for law in laws.EVERY for seed in SEEDS[law.__name__]]


@pytest.mark.parametrize("law, seed", ASKED, ids=[f"{law.__name__}-{seed}" for law, seed in ASKED])
def test_law(law, seed: int) -> None:  # type: ignore[no-untyped-def]
    assert list(law(seed)) == []


def test_a_mount_is_read_back_as_it_was_picked() -> None:
    """Plates of 66 quarter inches in a job that reads in SI: 419.1 mm written, and not a digit of noise more kept."""
    text = jobs.text(jobs.job(133))
    pick = picked(loads(text), SHIPPED)
    assert pick is not None
    assert pick.mount is not None
    assert loads(with_mount(text, pick.mount)).mount == pick.mount


def test_same_bytes_in_other_processes(tmp_path: Path) -> None:
    """Whatever order Python's sets take: two hash seeds, one answer."""
    job = tmp_path / "job.toml"
    job.write_text(jobs.text(jobs.job(5)), encoding="utf-8")
    said = [
        subprocess.run(
            [sys.executable, "-m", "transom", "size", str(job), "--json"], capture_output=True, check=False,
            env={**os.environ, "PYTHONHASHSEED": seed},
        ).stdout
        for seed in ("1", "2")
    ]  # fmt: skip
    assert said[0]
    assert said[0] == said[1]
