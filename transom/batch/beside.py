"""What stands beside a table of results: what it is, its columns, and the cautions that hold for every row."""

from collections.abc import Sequence
from pathlib import Path

from transom import __version__
from transom.batch.columns import Column
from transom.batch.work import SCREEN, How
from transom.job.faults import printable
from transom.judge.always import ALWAYS
from transom.report.text import wrapped


def place_of(results: Path) -> Path:
    """The note of a table, beside it."""
    return results.with_name(f"{results.name}.txt")


def note(results: Path, how: How, columns: Sequence[Column], counts: str) -> str:
    """The note's text; the same for the same table."""
    width = max(len(c.name) for c in columns) + 2
    lines = [
        f"{printable(results.name)}: by transom {__version__}, {how.method}, rank {how.rank}",
        counts,
        "",
        "CAREFUL - for every row of the table:",
        *(line for caution in cautions(how) for line in wrapped(f"- {caution}", 79, "  ")),
        "",
        "Each row's own cautions stand in its last column. Lengths are mm, masses kg. Columns:",
        "",
        *(f"{c.name:<{width}}{c.says}" for c in columns),
    ]
    return "\n".join(lines) + "\n"


def cautions(how: How) -> tuple[str, ...]:
    """What holds for every row."""
    row = "A row is a figure to compare with, no paper to build from: `transom size` the job that is to be built."
    return (*(() if how.careful else (SCREEN,)), row, *ALWAYS)
