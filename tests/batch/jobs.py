"""Jobs and tables that the batch tests share; invented."""

import csv
import json
from pathlib import Path
from typing import Any

from transom.batch.rows import Row
from transom.batch.work import Cells

EXAMPLE = Path(__file__).parents[2] / "examples" / "pontoon-40hp.toml"
# Quick to size: three sheets of one kind, one grade, one thread.
BASE = """
[job]
name = "=SUM(A1), river pontoon"
[boat]
kind = "pontoon"
plate_power = "50 hp"
[engine]
power = "40 hp"
shaft = "20 in"
weight = "260 lb"
steering = "tiller"
[board]
width = "24 in"
height = "18 in"
[frame]
kind = "pod"
[stock]
panels = ["douglas-fir-marine"]
sheets = ["3/4 in"]
most_sheets = 3
"""


def table(folder: Path, good: int, bad: int) -> Path:
    """A table over BASE with so many rows that can be sized and so many that cannot, mixed; the base beside it."""
    (folder / "base.toml").write_text(BASE, encoding="utf-8")
    path = folder / "jobs.csv"
    with path.open("w", newline="", encoding="utf-8") as file:
        rows = csv.writer(file)
        rows.writerow(["engine.power", "engine.weight", "job.number"])
        for i in range(good + bad):
            fine = good and i % ((good + bad) // good) == 0 and i // ((good + bad) // good) < good
            rows.writerow([f"{40 + i % 5} hp" if fine else "forty", f"{240 + i} lb", f"{i}"])
    return path


def read_csv(path: Path) -> list[dict[str, Any]]:
    with path.open(newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


def read_jsonl(path: Path) -> list[dict[str, Any]]:
    return [json.loads(line) for line in path.read_text(encoding="ascii").splitlines()]


# Tasks for the pool alone: nothing is judged


def echo(row: Row) -> Cells:
    return {"row": row.number, "id": row.id}


def fatal(row: Row) -> Cells:
    """Its process dies of row 3, always."""
    import os

    if row.number == 3:
        os.kill(os.getpid(), 9)
    return echo(row)


def once_fatal(row: Row) -> Cells:
    """Its process dies of row 3 the first time; `row.text` names a file that remembers."""
    marker = Path(row.text)
    if row.number == 3 and not marker.exists():
        import os

        marker.touch()
        os.kill(os.getpid(), 9)
    return echo(row)


def dead(row: Row) -> Cells:
    return {"row": row.number, "id": row.id, "faults": "died"}
