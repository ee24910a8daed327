"""Whole `python -m transom size` against a process that imports numpy, typer, rich, pydantic and pint.

    python tests/bench/startup.py [pairs] [job.toml] [options of size] [--rows]

Alternating pairs, one BLAS thread, the median of each and their ratio: by the clock, and by the processor, which other
work on the machine disturbs less; and the memory of each. Both have their bytecode, as pip installs it. Wants a system
with `os.wait4` (not Windows). Not collected by pytest.
"""

import os
import statistics
import subprocess
import sys
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from rows import WANTED_ROWS, Row, brief, hand_over, times

EXAMPLE = Path(__file__).parents[2] / "examples" / "pontoon-40hp.toml"
BARE = (sys.executable, "-c", "import numpy, typer, rich.console, rich.table, pydantic, pint")
SIZE = (sys.executable, "-m", "transom", "size")
SCRIPT = "startup.py"


@dataclass(frozen=True)
class Spent:
    """What one process took: seconds by the clock and of the processor, and its most memory, MB."""

    clock: float
    processor: float
    peak: float


def spent(command: tuple[str, ...]) -> Spent:
    """What a process takes, in the project's folder; it must end well."""
    threads = dict.fromkeys(("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS"), "1")
    environment = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"} | threads
    start = time.perf_counter()
    process = subprocess.Popen(command, stdout=subprocess.DEVNULL, env=environment, cwd=EXAMPLE.parents[1])
    _, status, used = os.wait4(process.pid, 0)
    clock = time.perf_counter() - start
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode:
        raise SystemExit(f"{' '.join(command)} ended with {process.returncode}")
    # Linux counts in KiB, macOS in bytes.
    return Spent(clock, used.ru_utime + used.ru_stime, used.ru_maxrss / (1024 if sys.platform == "linux" else 1024**2))


def median(found: list[Spent], name: str) -> float:
    """The middle one of a figure."""
    return statistics.median(getattr(each, name) for each in found)


def measured(size: tuple[str, ...], pairs: int) -> tuple[list[Spent], list[Spent]]:
    """Bare imports and the whole command in turn, after one of each that is not counted."""
    for command in (BARE, size):
        spent(command)
    both = [(spent(BARE), spent(size)) for _ in range(pairs)]
    return [b for b, _ in both], [s for _, s in both]


def rows(bare: list[Spent], whole: list[Spent]) -> Iterator[Row]:
    """The figures, as rows of the table."""
    for name, says in (("processor", "by the processor"), ("clock", "by the clock")):
        a, b = median(bare, name), median(whole, name)
        yield Row(f"`transom size`, whole process, {says}", brief(b), f"bare imports: {brief(a)}", times(b / a), "2.5x or less", SCRIPT)  # fmt: skip
    a, b = median(bare, "peak"), median(whole, "peak")
    yield Row("`transom size`, most memory", f"{b:.0f} MB", f"bare imports: {a:.0f} MB", times(b / a), "", SCRIPT)


def main() -> None:
    """Print or hand over the figures."""
    told = [a for a in sys.argv[1:] if a != "--rows"]
    pairs = int(told[0]) if told else 15
    job = [str(Path(told[1]).resolve()), *told[2:]] if len(told) > 1 else [str(EXAMPLE)]
    bare, whole = measured((*SIZE, *job), pairs)
    if not WANTED_ROWS:
        print(f"median of {pairs} alternating pairs")
    hand_over(rows(bare, whole))


if __name__ == "__main__":
    main()
