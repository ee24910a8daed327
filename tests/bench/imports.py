"""What importing the package costs, and what it would with the standard library's dataclasses in place of `transom.frozen`.

    python tests/bench/imports.py [pairs]

Alternating pairs of processes, each with its bytecode; processor time of the imports alone, numpy and typer imported
before. Not collected by pytest.
"""

import os
import statistics
import subprocess
import sys
from pathlib import Path

OURS = """
import time, numpy, typer, dataclasses
{first}
start = time.process_time()
import transom.cli.main, transom.cli.size, transom.cli.stream, transom.catalogue, transom.sizing.sizing, transom.report.judgement
print(time.process_time() - start)
"""
THEIRS = OURS.format(first="import transom.frozen; transom.frozen.dataclass = dataclasses.dataclass")


def spent(code: str) -> float:
    """Seconds of the processor for the imports."""
    environment = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
    environment["OPENBLAS_NUM_THREADS"] = "1"
    folder = Path(__file__).parents[2]
    done = subprocess.run(
        (sys.executable, "-c", code), check=True, capture_output=True, text=True, env=environment, cwd=folder
    )
    return float(done.stdout)


def main() -> None:
    """Print both medians and their ratio."""
    pairs = int(sys.argv[1]) if len(sys.argv) > 1 else 15
    codes = (OURS.format(first=""), THEIRS)
    for code in codes:
        spent(code)
    ours, theirs = zip(*((spent(codes[0]), spent(codes[1])) for _ in range(pairs)), strict=True)
    a, b = statistics.median(ours), statistics.median(theirs)
    print(
        f"median of {pairs} pairs: {a * 1e3:.0f} ms; with dataclasses of the standard library {b * 1e3:.0f} ms: {b / a:.1f}x"
    )


if __name__ == "__main__":
    main()
