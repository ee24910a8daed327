"""Every speed of the README's table, one script after another, and the table itself.

    python tests/bench/all.py [--batch FOLDER] [--only SCRIPT ...] [--write README.md]

Each script runs in a process of its own and hands its rows over. `batch.py` takes an hour by itself: run it with a folder
first, and `--batch FOLDER` takes what it kept there. `--write` puts the table between its two marks in the file; rows of scripts that were not run stay as they are. Times are
the processor's and the two sides of a ratio take turns, but only an idle machine gives figures worth printing. About three
minutes. Wants what the scripts want: PyNiteFEA and scikit-fem beside the project, and not Windows.
"""

import argparse
import json
import os
import platform
import subprocess
import sys
from collections.abc import Iterator, Sequence
from importlib.metadata import version
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parent))

from rows import Row, brief, times

HERE = Path(__file__).parent
ROOT = HERE.parents[1]
SCRIPTS = ("startup.py", "sizing_speed.py", "plate_speed.py")
BATCH = "batch.py"
BEGIN, END = "<!-- speeds: python tests/bench/all.py --write README.md -->", "<!-- end of speeds -->"
HEAD = ("what", "here", "beside it", "ratio", "wanted", "script")


def measured(script: str) -> tuple[Row, ...]:
    """The rows of one script, in a process of its own with one BLAS thread."""
    threads = dict.fromkeys(("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS"), "1")
    environment = os.environ | threads | {"PYTHONPATH": str(ROOT)}
    print(f"== {script}", file=sys.stderr, flush=True)
    done = subprocess.run(
        (sys.executable, str(HERE / script), "--rows"),
        check=False,
        cwd=ROOT,
        env=environment,
        stdout=subprocess.PIPE,
        text=True,
    )
    if done.returncode:
        raise SystemExit(f"{script} ended with {done.returncode}: no table")
    return tuple(Row(**json.loads(line)) for line in done.stdout.splitlines())


def kept(folder: Path) -> Iterator[Row]:
    """The rows of what `batch.py` kept in a folder, as far as it got."""
    m: dict[str, Any] = json.loads((folder / "measured.json").read_text(encoding="utf-8"))
    counts = {"linear 100": 100, "linear 1000": 1000, "memory 10000": 10_000}
    each = {n: m[key]["cpu"] / n for key, n in counts.items() if key in m}
    for n, cost in each.items():
        if n != 1000 and 1000 in each:
            yield Row(f"`transom batch`, {n:,} jobs by the pencil, processor a job", brief(cost), f"1,000 jobs: {brief(each[1000])}",
                      times(cost / each[1000]), "0.9x to 1.1x" if n > 1000 else "", BATCH)  # fmt: skip
    if "workers 200" in m:
        x = m["workers 200"]
        yield Row("`transom batch`, what a second worker brings", times(x["batch"]), f"plain Python in two processes: {times(x['control'])}",
                  times(x["ratio"]), "0.9x or more", BATCH)  # fmt: skip
    for name in ("memory 1000", "memory 10000"):
        if name in m:
            x, jobs = m[name], int(name.split()[1])
            yield Row(f"`transom batch`, {jobs:,} jobs, most memory, parent and two workers", f"{x['most']:.0f} MB", f"400 MB; {x['slope']:+.2f} MB for 1,000 jobs more",
                      times(x["most"] / 400), "1x or less", BATCH)  # fmt: skip


def machine() -> str:
    """What the figures are of, without a name that dates them."""
    return (
        f"{os.cpu_count()} cores, {platform.system()} {platform.machine()}, Python {platform.python_version()},"
        f" numpy {version('numpy')}, one BLAS thread."
    )


def table(rows: Sequence[Row], on: str) -> str:
    """The table as it stands between its marks."""
    cells = [HEAD, ("---",) * len(HEAD)]
    cells += [(r.what, r.ours, r.beside, r.ratio, r.wanted, f"`{r.script}`") for r in rows]
    return "\n".join(("", on, "", *("| " + " | ".join(row) + " |" for row in cells), ""))


def rows_of(text: str) -> tuple[Row, ...]:
    """The rows of the table that stands in a text."""
    between = text.split(BEGIN)[1].split(END, maxsplit=1)[0]
    lines = [line.strip("| ").split(" | ") for line in between.splitlines() if line.startswith("|")][2:]
    return tuple(Row(*(cell.strip() for cell in line[:-1]), line[-1].strip(" `")) for line in lines)


def merged(old: Sequence[Row], new: Sequence[Row]) -> tuple[Row, ...]:
    """The new rows, and the old ones of scripts that were not run, in the order of the scripts."""
    ran = {r.script for r in new}
    order = (*SCRIPTS, BATCH)
    kept = (*new, *(r for r in old if r.script not in ran))
    return tuple(sorted(kept, key=lambda r: order.index(r.script)))


def written(text: str, rows: Sequence[Row], on: str) -> str:
    """A text with the table in it put in place of the one between its marks."""
    before, rest = text.split(BEGIN)
    return f"{before}{BEGIN}\n{table(merged(rows_of(text), rows), on)}\n{END}{rest.split(END)[1]}"


def main() -> None:
    """Measure, print, write."""
    asked = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    asked.add_argument("--batch", type=Path, metavar="FOLDER", help="take in what batch.py kept there")
    asked.add_argument("--only", nargs="*", choices=SCRIPTS, default=SCRIPTS, help="run these alone, or none")
    asked.add_argument("--write", type=Path, metavar="README.md", help="put the table into this file")
    told = asked.parse_args()
    rows = [row for script in told.only for row in measured(script)]
    rows += [] if told.batch is None else kept(told.batch)
    print(table(rows, machine()))
    if told.write is not None:
        told.write.write_text(written(told.write.read_text(encoding="utf-8"), rows, machine()), encoding="utf-8")


if __name__ == "__main__":
    main()
