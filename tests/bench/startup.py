"""Whole `python -m transom size` against a process that imports numpy, typer, rich, pydantic and pint.

    python tests/bench/startup.py [pairs] [job.toml] [options of size]

Alternating pairs, one BLAS thread, the median of each and their ratio. Both have their bytecode, as pip installs it.
Not collected by pytest.
"""

import os
import statistics
import subprocess
import sys
import time
from pathlib import Path

EXAMPLE = Path(__file__).parents[2] / "examples" / "pontoon-40hp.toml"
BARE = (sys.executable, "-c", "import numpy, typer, rich.console, rich.table, pydantic, pint")


def seconds(command: tuple[str, ...]) -> float:
    """Wall time of one process; it must end well."""
    threads = dict.fromkeys(("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS"), "1")
    environment = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"} | threads
    start = time.perf_counter()
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL, env=environment)
    return time.perf_counter() - start


def main() -> None:
    pairs = int(sys.argv[1]) if len(sys.argv) > 1 else 15
    size = (sys.executable, "-m", "transom", "size", *(sys.argv[2:] or [str(EXAMPLE)]))
    for command in (BARE, size):
        seconds(command)
    bare, whole = zip(*((seconds(BARE), seconds(size)) for _ in range(pairs)), strict=True)
    a, b = statistics.median(bare), statistics.median(whole)
    print(f"imports {a:.3f} s, size {b:.3f} s, ratio {b / a:.2f} (median of {pairs} alternating pairs)")


if __name__ == "__main__":
    main()
