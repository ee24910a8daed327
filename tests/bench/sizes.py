"""What `size` answers for examples and varied random jobs, written down; and two such records side by side.

    PYTHONPATH=. python tests/bench/sizes.py write OUT.json [FIRST SEED] [LAST SEED]
    python tests/bench/sizes.py compare BEFORE.json AFTER.json

For a change of the search: write once with the code before it and once after. Of each job the whole JSON is kept, how many
quick looks and plates on two grids were asked, and the processor's seconds. `compare` says how many answers were the same
to seven digits, prints what moved in the others, and sums looks, plates and seconds. Jobs are invented and seeded; kinds
of boat and what is cut out of the board go round independently, every seventh engine hangs on clamp screws. Not
collected by pytest.
"""

import json
import os
import random
import sys
import time
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
sys.path.append(str(Path(__file__).parents[2]))

from tests.sizing.jobs import HP, job_of
from transom.catalogue import SHIPPED
from transom.cli.jobs import read
from transom.errors import JobError
from transom.job.records import Corners, EngineBracket, Hole, Job
from transom.report.judgement import to_json
from transom.running import quick
from transom.sizing import estimates, probe
from transom.sizing.sizing import size

EXAMPLES = Path(__file__).parents[2] / "examples"
SAME, NOTHING = 1e-7, 1e-6  # of a number; of one that is nothing but rounding
DEEP = 6  # lines of what moved, a job


def varied(seed: int) -> Job:
    """A random job with nothing cut out of its board, a notch, openings or cut corners, on bolts or clamp screws."""
    r, job = random.Random(7000 + seed), job_of(seed)
    board, cut = job.board, seed // 3 % 4
    if cut == 1:
        board = replace(board, notch_width=r.uniform(60.0, 300.0), notch_depth=r.uniform(10.0, 60.0))
    if cut == 2:
        board = replace(board, openings=(Hole(r.uniform(-150, 150), r.uniform(60, 380), r.choice([25.0, 38.0, 60.0])),))
    if cut == 3:
        board = replace(board, top_corners=Corners(r.uniform(20.0, 60.0), r.uniform(20.0, 60.0)))
    job = replace(job, board=board)
    if seed % 7 != 6:
        return job
    power = r.choice([6.0, 9.9, 15.0]) * HP
    engine = replace(job.engine, power=power, power_low=power, mass=None, held_by="clamps", bracket=EngineBracket())
    return replace(job, engine=engine)


def jobs(first: int, last: int) -> Iterator[tuple[str, Job]]:
    """Examples, where the first seed is asked, and random jobs, by name."""
    if first == 0:
        for path in sorted(EXAMPLES.glob("*.toml")):
            yield path.stem, replace(read(path), mount=None)
    for seed in range(first, last):
        yield f"varied-{seed}", varied(seed)


def counted(counts: dict[str, int]) -> None:
    """Have the search count what it asks: each plate that speaks for others is learnt from once."""
    learnt = probe.Tried._learnt

    def count(self: probe.Tried, checks: object, found: object, within: tuple[float, float]) -> None:
        name = {estimates.ROUGH: "looks", estimates.RAW: "looks", estimates.FINE: "plates"}.get(within)
        if name:
            counts[name] += 1
        learnt(self, checks, found, within)  # type: ignore[arg-type]

    probe.Tried._learnt = count  # type: ignore[method-assign]


def write(out: Path, first: int, last: int) -> None:
    """Record of all jobs."""
    record, counts = {}, {"looks": 0, "plates": 0}
    quick()
    counted(counts)
    for name, job in jobs(first, last):
        counts.update(looks=0, plates=0)
        start = time.process_time()
        try:
            found = json.loads(to_json(size(job, SHIPPED)))
        except JobError as no:
            found = {"fault": str(no)}
        record[name] = {"found": found, **counts, "seconds": time.process_time() - start}
    out.write_text(json.dumps(record), encoding="utf-8")


def differences(a: object, b: object, at: str = "") -> Iterator[str]:
    """Where two answers differ by more than rounding."""
    if isinstance(a, dict) and isinstance(b, dict) and a.keys() == b.keys():
        for key in a:
            yield from differences(a[key], b[key], f"{at}.{key}")
    elif isinstance(a, list) and isinstance(b, list) and len(a) == len(b):
        for i, (one, other) in enumerate(zip(a, b, strict=True)):
            yield from differences(one, other, f"{at}[{i}]")
    elif isinstance(a, float) and isinstance(b, float):
        if abs(a - b) > SAME * max(abs(a), abs(b)) + NOTHING:
            yield f"{at}: {a!r} -> {b!r}"
    elif a != b:
        yield f"{at}: {str(a)[:70]} -> {str(b)[:70]}"


def compare(before: dict, after: dict) -> Iterator[str]:
    """Lines for what moved, and sums."""
    same, both = 0, [name for name in before if name in after]
    for name in both:
        moved = list(differences(before[name]["found"], after[name]["found"]))
        same += not moved
        yield from (f"{name} {line}" for line in moved[:DEEP])
    yield f"{same} of {len(both)} the same"
    for what in ("looks", "plates", "seconds"):
        sums = [sum(record[name][what] for name in both) for record in (before, after)]
        yield f"{what}: {sums[0]:.6g} before, {sums[1]:.6g} after"


if __name__ == "__main__":
    if sys.argv[1:2] == ["write"]:
        write(Path(sys.argv[2]), *(int(n) for n in sys.argv[3:5] or ("0", "40")))
    else:
        two = (json.loads(Path(path).read_text(encoding="utf-8")) for path in sys.argv[2:4])
        print("\n".join(compare(*two)))
