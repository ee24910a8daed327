"""`transom batch`: cost a job at 100, 1,000 and 10,000, memory of all its processes, two workers beside a control.

    python tests/bench/batch.py [FOLDER] [part ...]

Parts: linear, memory, workers, careful; all where none is named. What is measured is kept in FOLDER/measured.json (a
folder of the temporary ones if left out), so that a second call goes on where the first one ended; the table is
printed from it at the end, and `all.py --batch FOLDER` takes the README's rows from it. On an idle machine: about an hour for all, most of it 10,000 jobs by the pencil method.
Linux (reads /proc). Not collected by pytest.
"""

import json
import multiprocessing
import os
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))
SIDES = {100: (10, 10), 200: (10, 20), 1000: (25, 40), 10_000: (100, 100)}
ENVIRONMENT = {**os.environ, "PYTHONPATH": str(ROOT), "OPENBLAS_NUM_THREADS": "1", "OMP_NUM_THREADS": "1"}


def spread(low: float, high: float, count: int, unit: str) -> str:
    """Middles of so many equal parts of a range: the same jobs on average, however many."""
    step = (high - low) / count
    return ", ".join(f"{low + (i + 0.5) * step:.5f}" for i in range(count)) + f" {unit}"


def command(folder: Path, jobs: int, workers: int, *more: str) -> list[str]:
    from tests.batch.jobs import (
        BASE,
    )  # here, so that the control's processes, which read this file, import nothing of ours

    (folder / "job.toml").write_text(BASE, encoding="utf-8")
    wide, heavy = SIDES[jobs]
    grid = [f"board.width={spread(22, 28, wide, 'in')}", f"engine.weight={spread(220, 300, heavy, 'lb')}"]
    out = folder / f"{jobs} by {workers}{''.join(more)}.jsonl"
    return [sys.executable, "-m", "transom", "batch", str(folder / "job.toml"), "--vary", grid[0], "--vary", grid[1],
            "--out", str(out), "--workers", str(workers), "--force", *more]  # fmt: skip


def spent(given: list[str], look: Callable[[int], None] = lambda pid: None) -> dict[str, float]:
    """Wall and processor seconds of a command with all its processes; `look` is called while it runs."""
    start = time.perf_counter()
    process = subprocess.Popen(given, env=ENVIRONMENT, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    while True:
        pid, status, used = os.wait4(process.pid, os.WNOHANG)
        if pid:
            break
        look(process.pid)
        time.sleep(0.05)
    code = os.waitstatus_to_exitcode(status)
    assert code in (0, 1), f"ended with {code}: {given}"
    return {"wall": time.perf_counter() - start, "cpu": used.ru_utime + used.ru_stime}


# Memory


def family(pid: int) -> list[int]:
    """A process and all below it."""
    below = []
    for task in Path(f"/proc/{pid}/task").glob("*"):
        try:
            below += [int(child) for child in (task / "children").read_text().split()]
        except OSError:
            continue
    return [pid, *(p for child in below for p in family(child))]


def megabytes(pid: int) -> tuple[float, float]:
    """Over a process and all below it, what each holds with shared pages shared out (PSS), and of that what no file holds."""
    total = [0, 0]
    for each in family(pid):
        try:
            lines = Path(f"/proc/{each}/smaps_rollup").read_text().splitlines()
        except OSError:
            continue
        for i, name in enumerate(("Pss:", "Pss_Anon:")):
            total[i] += next((int(line.split()[1]) for line in lines if line.startswith(name)), 0)
    return total[0] / 1024, total[1] / 1024


def memory(folder: Path, jobs: int) -> dict[str, float]:
    """The most at any time, and the slope over the rows after the first tenth, MB for 1,000 jobs, of what no file holds.

    Pages of files are shared with whatever else runs, which moves their share.
    """
    given = command(folder, jobs, 2, "--pencil")
    unfinished = Path(f"{given[given.index('--out') + 1]}.unfinished")
    seen: list[tuple[int, float, float]] = []
    last = 0.0

    def look(pid: int) -> None:
        nonlocal last
        if time.perf_counter() - last < 1.0:
            return
        last = time.perf_counter()
        rows = unfinished.read_bytes().count(b"\n") if unfinished.exists() else 0
        seen.append((rows, *megabytes(pid)))

    result = spent(given, look)
    late = [(rows, own) for rows, _, own in seen if rows > jobs / 10]
    slope = 1000 * statistics.linear_regression(*zip(*late, strict=True)).slope
    return {**result, "most": max(mb for _, mb, _ in seen), "slope": slope, "samples": len(late)}


# Two workers beside a control


def turn(count: int) -> int:
    """Plain Python: no memory to speak of, no library."""
    x = 1
    for _ in range(count):
        x = (x * 1103515245 + 12345) % 2147483648
    return x


def control(turns: int, processes: int) -> float:
    """Wall seconds of so many turns shared among processes, in 120 pieces, starting them included."""
    start = time.perf_counter()
    with multiprocessing.get_context("spawn").Pool(processes) as pool:
        pool.map(turn, [turns // 120] * 120, chunksize=1)
    return time.perf_counter() - start


def workers(folder: Path) -> dict[str, Any]:
    """Pairs in turn: batch at 1 and 2 workers, the control at 1 and 2 processes, of comparable length."""
    one = spent(command(folder, 200, 1, "--pencil"))["wall"]
    began = time.perf_counter()
    turn(2_000_000)
    turns = int(2_000_000 * one / (time.perf_counter() - began))
    found = []
    for _ in range(3):
        batch = [spent(command(folder, 200, n, "--pencil"))["wall"] for n in (1, 2)]
        plain = [control(turns, n) for n in (1, 2)]
        found.append({"batch": batch, "control": plain})
    gain = [statistics.median(f[what][0] / f[what][1] for f in found) for what in ("batch", "control")]
    return {"rounds": found, "batch": gain[0], "control": gain[1], "ratio": gain[0] / gain[1]}


# All parts


def parts(folder: Path) -> dict[str, Callable[[], dict[str, Any]]]:
    return {
        "workers 200": lambda: workers(folder),
        "linear 100": lambda: spent(command(folder, 100, 2, "--pencil")),
        "linear 1000": lambda: spent(command(folder, 1000, 2, "--pencil")),
        "memory 1000": lambda: memory(folder, 1000),
        "careful 100": lambda: spent(command(folder, 100, 2)),
        "careful 1000": lambda: spent(command(folder, 1000, 2)),
        "linear 100 again": lambda: spent(command(folder, 100, 2, "--pencil")),
        "memory 10000": lambda: memory(folder, 10_000),
    }


def table(m: dict[str, Any]) -> list[str]:
    """What there is so far."""
    out = [f"{'jobs':>8}  {'method':<8}{'CPU s':>9}{'ms a job':>10}{'wall s':>9}"]
    for name, method in (("linear 100", "pencil"), ("linear 100 again", "pencil"), ("linear 1000", "pencil"),
                         ("memory 1000", "pencil"), ("memory 10000", "pencil"), ("careful 100", "careful"),
                         ("careful 1000", "careful")):  # fmt: skip
        if name in m:
            jobs, x = int(name.split()[1]), m[name]
            out.append(f"{jobs:>8}  {method:<8}{x['cpu']:>9.1f}{1000 * x['cpu'] / jobs:>10.1f}{x['wall']:>9.1f}")
    if {"linear 1000", "memory 10000"} <= set(m):
        each = [m[k]["cpu"] / int(k.split()[1]) for k in ("linear 1000", "memory 10000")]
        out.append(f"10,000 jobs cost {each[1] / each[0]:.3f} of ten times 1,000 (wanted 0.9 to 1.1)")
    for name in ("memory 1000", "memory 10000"):
        if name in m:
            x = m[name]
            out.append(f"memory, {name.split()[1]} jobs, parent and 2 workers: at most {x['most']:.0f} MB, slope"
                       f" {x['slope']:+.2f} MB for 1,000 jobs ({x['samples']} samples)")  # fmt: skip
    if "workers 200" in m:
        x = m["workers 200"]
        out.append(
            f"2 workers over 1: batch {x['batch']:.2f}, control {x['control']:.2f}, ratio {x['ratio']:.2f} (wanted 0.9)"
        )
    return out


def main() -> None:
    given = sys.argv[1:]
    folder = Path(given[0]) if given else Path(tempfile.gettempdir()) / "transom-batch-bench"
    folder.mkdir(parents=True, exist_ok=True)
    kept = folder / "measured.json"
    measured: dict[str, Any] = json.loads(kept.read_text()) if kept.exists() else {}
    for name, measure in parts(folder).items():
        if name in measured or (given[1:] and name.split()[0] not in given[1:]):
            continue
        print(f"{name} ...", file=sys.stderr, flush=True)
        measured[name] = measure()
        kept.write_text(json.dumps(measured, indent=1))
    print("\n".join(table(measured)))


if __name__ == "__main__":
    main()
