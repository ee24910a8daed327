"""The pack, which holds everything, wants no more memory than a shop's old laptop has to spare."""

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
MOST = 500  # MB, what the fuzz allows any command; with the prices after the review it was 545
# From a small process: Linux counts what the one that starts a command holds as the command's own.
MEASURED = "import resource, subprocess, sys\nsubprocess.run(sys.argv[1:], stdout=2)\nprint(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss)"


@pytest.mark.skipif(sys.platform == "win32", reason="no resource here")
def test_the_largest_pack_keeps_under_the_most(tmp_path: Path) -> None:
    job, out = tmp_path / "job.toml", tmp_path / "out"
    job.write_bytes((ROOT / "examples" / "setback-90hp.toml").read_bytes())
    command = (sys.executable, "-m", "transom", "pack", str(job), "--out", str(out), "--despite-failure")
    told = subprocess.run((sys.executable, "-c", MEASURED, *command), cwd=ROOT, capture_output=True, check=True).stdout
    assert list(out.glob("*review.html"))
    assert 50 < int(told) / (1024 if sys.platform == "linux" else 1024**2) < MOST
