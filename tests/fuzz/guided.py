"""Spoilt files led by coverage: what reaches new lines is spoilt further. Needs atheris, which no environment of ours has.

    python tests/fuzz/guided.py job|shop|prices|table|saved|paper|quote [-runs=20000 ...]

Options are libFuzzer's. A broken law ends it, with the file that broke it left in the folder it runs in.
"""

import os
import random
import sys
import tempfile
import zlib
from pathlib import Path

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
sys.path.insert(0, str(Path(__file__).parents[2]))

import atheris  # type: ignore[import-not-found]

with atheris.instrument_imports(
    include=[
        "transom.job",
        "transom.quantity",
        "transom.estimate",
        "transom.catalogue",
        "transom.interview",
        "transom.report.compare",
    ]
):
    from tests.fuzz.laws import Bench, base_of, run
    from tests.fuzz.mutants import spoilt
    from transom.report.compare import comparing, saved, screen  # noqa: F401 - imported here, they are led by too


def main() -> None:
    """Until the runs are done or a law is broken."""
    kind = sys.argv.pop(1)
    bench = Bench(Path(tempfile.mkdtemp(dir="/dev/shm" if Path("/dev/shm").is_dir() else None)), judged=0.01)

    def one(data: bytes) -> None:
        run(kind, data, bench, random.Random(zlib.crc32(data)))

    def mutator(data: bytes, most: int, seed: int) -> bytes:
        chance = random.Random(seed)
        text = data.decode("utf-8", "replace") if len(data) > 20 else base_of(kind, chance)
        return spoilt(text, chance)[:most]

    atheris.Setup([*sys.argv, "-max_len=20000", "-rss_limit_mb=500", "-timeout=20"], one, custom_mutator=mutator)
    atheris.Fuzz()


if __name__ == "__main__":
    main()
