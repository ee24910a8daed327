"""The story of one job, its nine commands as nine processes' worth of work, against nine bare imports.

    python tests/bench/story.py [pairs]

Each pair is the whole story in one process and nine processes that only import; the median of each and their ratio.
"""

import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).parents[2]
BARE = (sys.executable, "-c", "import numpy, typer, rich.console, rich.table, pydantic, pint")
NINE = 9


def story() -> float:
    start = time.perf_counter()
    with tempfile.TemporaryDirectory() as folder:
        subprocess.run((sys.executable, str(ROOT / "examples/story/story.py"), folder), check=True, cwd=ROOT,
                       stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, env={"PYTHONPATH": str(ROOT), "PATH": ""})  # fmt: skip
    return time.perf_counter() - start


def bare() -> float:
    start = time.perf_counter()
    for _ in range(NINE):
        subprocess.run(BARE, check=True)
    return time.perf_counter() - start


def main() -> None:
    pairs = int(sys.argv[1]) if len(sys.argv) > 1 else 3
    found = [(story(), bare()) for _ in range(pairs)]
    a, b = (statistics.median(each) for each in zip(*found, strict=True))
    print(f"story {a:.2f} s, nine bare imports {b:.2f} s, ratio {a / b:.1f} (median of {pairs} pairs)")


if __name__ == "__main__":
    main()
