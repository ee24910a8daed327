"""What must hold of any table of jobs and of whatever is varied: rows are refused or read, and the tables of results carry no formula."""

import csv
import io
import json
import random
from itertools import islice

from tests.fuzz.bench import Bench, Broken, finite, job_numbers, jobs, told
from tests.fuzz.corpus import HOSTILE, TYPED, VALUES
from transom.batch.columns import columns
from transom.batch.rows import Jobs, Row, found
from transom.batch.tables import to_csv, to_jsonl
from transom.batch.vary import Varied, varied
from transom.batch.work import Cells, How, judged
from transom.errors import JobError

MOST = 12  # rows of one table
PENCIL = How("material", careful=False)
TABLE = """engine.power,engine.weight,boat.kind,board.width,stock.sheets,job.name,job.date
40 hp,260 lb,pontoon,24 in,"3/4 in; 5/8 in",first,2026-05-04
"40 to 60 hp",?,pod,610 mm,"[""3/4 in""]","second, with a comma",2026-05-05
25 hp,118 kg,pontoon,24-1/2 in,3/4 in,"in two
lines",
"""
KEYS = ("engine.power", "engine.weight", "engine.takes", "board.width", "board.lean", "boat.kind", "job.name", "stock.sheets", "board.sealed",
        "frame.bolts.count", "board.openings", "job.date", "mount.layers")  # fmt: skip
STEPS = ("40 to 90 step 10 hp", "40 to 90 by 1e-9 hp", "1 to 9e99 step 1 hp", "90 to 40 step 5 hp", "0 to 1 step 0 hp", "1/3 to 3 step 1/3 in",
         "40,60,90 hp", "40;60", '"a, b", c', "[1], [2]", "40 hp, 40 hp", ",", "nan, inf hp", "3' 4\", 12 in")  # fmt: skip


def rows_table(data: bytes, bench: Bench, chance: random.Random) -> str:
    """A table of jobs over a good one, or over none, and now and then something varied besides."""
    base = bench.put("base.toml", jobs()["pontoon-40hp"].encode())
    several = several_of(chance)
    source, _ = found(bench.put("jobs.csv", data), base if chance.random() < 0.8 else None, several)
    cells = [_cells(row, bench, chance) for row in islice(source.rows(), MOST)]
    harmless(source, cells)
    return "passes" if any(c["passes"] for c in cells) else "read" if any(c["exit"] != 2 for c in cells) else "refused"


def several_of(chance: random.Random) -> tuple[Varied, ...]:
    """Up to two keys varied, by what people and mischief type; none where they are refused, in lines."""
    options = []
    for _ in range(chance.choice((0, 0, 1, 2))):
        words = chance.choice((*STEPS, chance.choice(TYPED), chance.choice(HOSTILE), chance.choice(VALUES)))
        options.append(f"{chance.choice((*KEYS, chance.choice(HOSTILE)))}={words}")
    try:
        return varied(options)
    except JobError as error:
        told(error)
        return ()


def _cells(row: Row, bench: Bench, chance: random.Random) -> Cells:
    """A row that is refused, judged by the pencil, or read only and then said to be nothing."""
    try:
        finite(job_numbers(row.read()), "a row's job")
    except JobError as error:
        told(error)
    else:
        if chance.random() >= 0.3 * bench.judged:
            return {"row": row.number, "id": row.id, "job": row.job, **dict(row.said), "exit": 0, "passes": None}
    cells = judged(row, PENCIL)
    if cells["exit"] not in (0, 1, 2):
        raise Broken(f"row {row.number}: {cells['faults']}")
    sure = cells["exit"] == 0, cells["passes"] is True, cells["verdict"] == "WORKS"
    if len(set(sure)) != 1:
        raise Broken(f"row {row.number}: {cells}")
    if sure[0] and not (isinstance(p := cells["percent_of_limit"], float) and 0 <= p <= 100):
        raise Broken(f"passes at {p!r} % of its limit")
    return cells


def harmless(source: Jobs, cells: list[Cells]) -> None:
    """The rows as CSV and as JSON lines: a cell for each column, no formula, nothing that turns a terminal, no NaN."""
    shown = columns(source.said)
    out = io.BytesIO()
    to_csv(out, shown, cells)
    lines = list(csv.reader(io.StringIO(out.getvalue().decode("utf-8"), newline="")))
    if {len(line) for line in lines} != {len(shown)} or len(lines) != 1 + len(cells):
        raise Broken(f"{len(lines)} lines of {[len(line) for line in lines]} cells")
    for cell in (cell for line in lines for cell in line):
        if cell.startswith(("=", "+", "-", "@")) and not number(cell):
            raise Broken(f"a formula: {cell!r}")
        if not cell.isprintable():
            raise Broken(f"a cell that turns a terminal: {cell!r}")
    out = io.BytesIO()
    to_jsonl(out, shown, cells)
    for line in out.getvalue().splitlines():
        finite(json.loads(line), "a line of JSON")


def number(cell: str) -> bool:
    """Whether a cell is a number and nothing else."""
    try:
        float(cell)
    except ValueError:
        return False
    return True
