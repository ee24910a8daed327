"""Every utilisation of the examples and of random jobs, written down; and two such records side by side.

    PYTHONPATH=. python tests/bench/judgements.py write OUT.json [JOBS] [LIKE.json]
    python tests/bench/judgements.py compare BEFORE.json AFTER.json [FROM]

For a change of the method: write once with the code before it and once after, on the mounts of LIKE, then compare: each
check that moved by more than half a percent and lies over FROM (0.5) in either, verdicts that changed, and processor
seconds. Random jobs are invented and seeded; a third has a notch, a third openings. Mounts are what `size` picks; where
it finds none, what a shop might build.
"""

import json
import os
import random
import sys
import time
from collections.abc import Iterator
from dataclasses import asdict, replace
from pathlib import Path

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
sys.path.append(str(Path(__file__).parents[2]))

from tests.sizing.jobs import job_of
from transom.catalogue import SHIPPED
from transom.cli.jobs import read
from transom.errors import JobError
from transom.job.records import Backing, EngineBolts, Hole, Job, Layer, Mount
from transom.judge.judging import judge
from transom.sizing.sizing import picked

EXAMPLES = Path(__file__).parents[2] / "examples"
MOVED = 0.005
Record = dict[str, dict[str, object]]


def random_job(seed: int) -> tuple[Job, Mount]:
    """A job of the search's tests, perhaps notched or bored, and a mount for it."""
    r, job = random.Random(1000 + seed), job_of(seed)
    board = job.board
    if seed % 3 == 1:
        board = replace(board, notch_width=r.uniform(60.0, 300.0), notch_depth=r.uniform(10.0, 60.0))
    if seed % 3 == 2:
        holes = [
            Hole(r.uniform(-150, 150), r.uniform(60, 380), r.choice([25.0, 38.0, 60.0])) for _ in range(r.randint(1, 2))
        ]
        board = replace(board, openings=tuple(holes))
    sheet = f"{job.stock.panels[0]} {'3/4 in' if 'okoume' not in job.stock.panels[0] else '18 mm'}"
    layers = tuple(Layer(sheet, r.choice(["across", "across", "along"])) for _ in range(r.randint(2, 4)))
    per, t = r.choice(["bolt", "pair", "pair", "all"]), r.choice([6.35, 9.525, 12.7])
    width, height = {"bolt": (76.2, 76.2), "pair": (406.4, 76.2), "all": (406.4, 300.0)}[per]
    forward = Backing("", "6061-T6", t, width, height, per)
    length = 25.4 * round((19 * len(layers) + 55) / 25.4)
    bolts = EngineBolts("1/2-13", "F593C", float(length), Backing(washer="1/2 wide"), forward)
    return replace(job, board=board), Mount(layers, bolts)


def jobs(count: int) -> Iterator[tuple[str, Job, Mount | None]]:
    """Name, job, and a mount it may be judged with where it has none and none is found."""
    for path in sorted(EXAMPLES.glob("*.toml")):
        yield path.stem, read(path), None
    for seed in range(count):
        yield f"random-{seed}", *random_job(seed)


def mount_of(job: Job, spare: Mount | None, like: dict[str, object]) -> Mount | None:
    """The mount to judge: stated, the one another record has, picked, or the spare one."""
    if job.mount is not None:
        return job.mount
    if "mount" in like:
        return mount_from(like["mount"])
    found = picked(job, SHIPPED)
    return spare if found is None or found.mount is None else found.mount


def mount_from(data: object) -> Mount | None:
    """Layers and engine bolts as they were written down."""
    if data is None:
        return None
    b = data["engine_bolts"]
    bolts = b and EngineBolts(**{**b, "aft": Backing(**b["aft"]), "forward": Backing(**b["forward"])})
    return Mount(tuple(Layer(**layer) for layer in data["layers"]), bolts)


def mount_data(mount: Mount) -> dict[str, object]:
    """What `mount_from` reads."""
    return {
        "layers": [asdict(x) for x in mount.layers],
        "engine_bolts": mount.engine_bolts and asdict(mount.engine_bolts),
    }


def utilisations(job: Job, mount: Mount, add: bool) -> dict[str, object]:
    """Worst of each check that decides, the verdict and the seconds; the fault where there is one."""
    start = time.process_time()
    try:
        j = judge(job, SHIPPED, mount, add=add)
    except JobError as error:
        return {"fault": str(error)}
    found: dict[str, float] = {}
    for c in j.checks:
        if not c.information:
            key = f"{c.part}.{c.what}.{c.rule}"
            found[key] = max(found.get(key, 0.0), min(c.utilisation, 1e9))
    return {"passes": j.passes, "checks": found, "seconds": time.process_time() - start}


def write(out: Path, count: int, like: Record) -> None:
    """Record of all jobs."""
    record: Record = {}
    for name, job, spare in jobs(count):
        mount = mount_of(job, spare, like.get(name, {}))
        if mount is not None:
            record[name] = utilisations(job, mount, job.mount is None) | {"mount": mount_data(mount)}
    out.write_text(json.dumps(record, indent=1, sort_keys=True), encoding="utf-8")


def compare(before: Record, after: Record, least: float) -> Iterator[str]:
    """Lines for what moved."""
    for name in before:
        a, b = before[name], after.get(name, {})
        if "fault" in a or "fault" in b:
            if a.get("fault") != b.get("fault"):
                yield f"{name}: {a.get('fault', 'judged')} -> {b.get('fault', 'judged')}"
            continue
        if a["passes"] != b["passes"]:
            yield f"{name}: {'passed' if a['passes'] else 'failed'} -> {'passes' if b['passes'] else 'fails'}"
        for key in {**a["checks"], **b["checks"]}:
            u, v = a["checks"].get(key, 0.0), b["checks"].get(key, 0.0)
            if max(u, v) > least and abs(v - u) > MOVED * max(u, v):
                yield f"{name}: {key} {u:.3f} -> {v:.3f}"
    seconds = [sum(float(r.get("seconds", 0.0)) for r in record.values()) for record in (before, after)]
    yield f"processor seconds: {seconds[0]:.1f} -> {seconds[1]:.1f}"


def main() -> None:
    """As the words ask."""
    what, *rest = sys.argv[1:]
    if what == "write":
        like = json.loads(Path(rest[2]).read_text(encoding="utf-8")) if rest[2:] else {}
        write(Path(rest[0]), int(rest[1]) if rest[1:] else 60, like)
        return
    records = (json.loads(Path(p).read_text(encoding="utf-8")) for p in rest[:2])
    print("\n".join(compare(*records, float(rest[2]) if rest[2:] else 0.5)))


if __name__ == "__main__":
    main()
