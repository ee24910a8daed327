"""Every speed of the README's table, one script after another, and the table itself.

    python tests/bench/all.py [--batch] [--only SCRIPT ...] [--write README.md]

Each script runs in a process of its own and hands its rows over; `--batch` runs `batch.py` too, which takes longer.
`--write` puts the table between its two marks in the file; rows of scripts that were not run stay as they are. Times are
the processor's and the two sides of a ratio take turns, but only an idle machine gives figures worth printing. About five
minutes without `--batch`. Wants what the scripts want: PyNiteFEA and scikit-fem beside the project, and not Windows.
"""

import argparse
import json
import os
import platform
import subprocess
import sys
from collections.abc import Sequence
from importlib.metadata import version
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

from rows import Row

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
    asked.add_argument("--batch", action="store_true", help="run batch.py too")
    asked.add_argument("--only", nargs="+", choices=(*SCRIPTS, BATCH), help="run these alone")
    asked.add_argument("--write", type=Path, metavar="README.md", help="put the table into this file")
    told = asked.parse_args()
    scripts = told.only or (*SCRIPTS, *([BATCH] if told.batch else []))
    rows = [row for script in scripts for row in measured(script)]
    print(table(rows, machine()))
    if told.write is not None:
        told.write.write_text(written(told.write.read_text(encoding="utf-8"), rows, machine()), encoding="utf-8")


if __name__ == "__main__":
    main()
