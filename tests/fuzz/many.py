"""A hundred thousand spoilt files in process: no exception, no hang, no pass from nonsense, little memory.

    python tests/fuzz/many.py [COUNT [SEED [KIND]]]

Each fault is printed with the seed that makes it again: `many.py 1 SEED`. Counts, the slowest and the peak stand at the end.
"""

import os
import resource
import signal
import sys
import tempfile
import time
import traceback
from collections import Counter
from pathlib import Path
from types import FrameType

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
sys.path.insert(0, str(Path(__file__).parents[2]))

SLOW = 5.0  # s of processor
MOST = 500  # MB
MEMORY = "/dev/shm"
JUDGED = 0.1  # share of the jobs that read


class Hang(Exception):  # noqa: N818 - the word for it
    """Longer than anything may take."""


def _hung(_: int, __: FrameType | None) -> None:
    raise Hang


def peak() -> float:
    """The most memory so far, MB."""
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


def main() -> int:
    """1 where any law was broken."""
    from tests.fuzz.laws import Bench, one

    given = [int(x) for x in sys.argv[1:3]]
    count, seed = (given + [100_000, 1][len(given) :])[:2]
    kind = sys.argv[3] if len(sys.argv) > 3 else ""
    signal.signal(signal.SIGVTALRM, _hung)
    became, bad, slowest, most = Counter[str](), 0, (0.0, 0, ""), 0.0
    with tempfile.TemporaryDirectory(dir=MEMORY if Path(MEMORY).is_dir() else None) as name:
        bench = Bench(Path(name), judged=1.0 if count == 1 else JUDGED)
        for at in range(seed, seed + count):
            start = time.process_time()
            signal.setitimer(signal.ITIMER_VIRTUAL, 4 * SLOW)
            try:
                what = " ".join(one(at, bench, kind))
            except Exception as error:
                bad, what = bad + 1, f"BROKEN {type(error).__name__}"
                where = traceback.extract_tb(error.__traceback__)[-1]
                print(
                    f"seed {at}: {type(error).__name__}: {str(error)[:200]!r} at {Path(where.filename).name}:{where.lineno}",
                    flush=True,
                )
                if count == 1:
                    traceback.print_exc()
            signal.setitimer(signal.ITIMER_VIRTUAL, 0)
            became[what] += 1
            took = time.process_time() - start
            slowest = max(slowest, (took, at, what))
            if took > SLOW:
                bad += 1
                print(f"seed {at}: {what}: {took:.1f} s", flush=True)
            if peak() > most + 10:
                most = peak()
                print(f"seed {at}: {what}: {most:.0f} MB", flush=True)
    print(
        f"{count} files from seed {seed}: {bad} faults; slowest {slowest[0]:.2f} s ({slowest[2]}, seed {slowest[1]}); {peak():.0f} MB at most"
    )
    print(", ".join(f"{k}: {n}" for k, n in sorted(became.items())))
    return int(bad > 0 or peak() > MOST)


if __name__ == "__main__":
    sys.exit(main())
