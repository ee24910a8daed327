"""A whole run: rows not yet judged go out, come back in any order into the ledger, and leave it as one table."""

from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from functools import partial
from pathlib import Path

from transom import __version__
from transom.batch import beside, ledger
from transom.batch.columns import columns
from transom.batch.ledger import Ledger
from transom.batch.pool import Task
from transom.batch.rows import Jobs, Row
from transom.batch.tables import writer_for
from transom.batch.work import INTERNAL, Cells, How, faulty, judged
from transom.errors import JobError
from transom.frozen import dataclass
from transom.job.files import free, no_link, write_atomic, written_whole

Crew = Callable[[Iterable[Row], Task, Callable[[Row], Cells]], Iterator[Cells]]
Watch = Callable[[int, int], None]  # rows judged, rows kept from before
SCHEMA = "transom-batch-1"
DIED = "its process ended twice while it was judged, from outside or for want of memory"


@dataclass(frozen=True)
class Plan:
    """What to judge, how, and where to."""

    jobs: Jobs
    results: Path
    how: How
    force: bool = False
    go_on: bool = False


@dataclass(frozen=True)
class Outcome:
    """How many rows came out how, and the worst exit code among them."""

    verdicts: Counter[str]
    code: int

    @property
    def says(self) -> str:
        """`12 jobs: 9 WORKS, 2 DOES NOT WORK, 1 STOP`."""
        order = ("WORKS", "DOES NOT WORK", "STOP", "CANNOT BE JUDGED")
        count = self.verdicts.total()
        each = ", ".join(f"{self.verdicts[v]} {v}" for v in order if self.verdicts[v])
        return f"{count} {'job' if count == 1 else 'jobs'}: {each}"


def places(results: Path) -> tuple[Path, Path, Path]:
    """Every file that a run writes: the table, the note beside it, and the rows while it is not finished."""
    return results, beside.place_of(results), ledger.place_of(results)


def run(plan: Plan, crew: Crew, watch: Watch) -> Outcome:
    """Judge every row that is not done yet, and write the table.

    Whatever ends it, what has been judged is kept; a table stands under its name once it is whole.

    Raises:
        JobError: something is there already, or cannot be read or written; one line each.
    """
    results, shown = plan.results, columns(plan.jobs.said)
    write = writer_for(results)
    replace = _may_begin(plan)
    head = {"schema": SCHEMA, "version": __version__, "rank": plan.how.rank, "method": plan.how.method,
            "columns": [c.name for c in shown]}  # fmt: skip
    kept = Ledger(ledger.place_of(results), head, plan.go_on)
    done = False
    try:
        count = _judge_all(plan, kept, crew, watch)
        if not count:
            raise JobError(f"{results}: not written, there are no jobs in the table.")
        tally, worst = Counter[str](), Counter[int]()
        with written_whole(results, replace) as out:
            write(out, shown, _tallied(kept.rows(count), tally, worst))
        outcome = Outcome(tally, max(worst))
        write_atomic(beside.place_of(results), beside.note(results, plan.how, shown, outcome.says), replace)
        done = True
    finally:
        kept.close(done or kept.empty)
    return outcome


def _may_begin(plan: Plan) -> bool:
    """Whether results may be replaced: a run that is taken up began by leave.

    Raises:
        JobError: results or the rows of an unfinished run are there, or a link in a place made of their name.
    """
    results, note, unfinished = places(plan.results)
    no_link(note)
    no_link(unfinished)
    replace = plan.force or (plan.go_on and unfinished.exists())
    free(results, replace)
    free(note, replace)
    if unfinished.exists() and not (plan.go_on or plan.force):
        raise JobError(f"{unfinished}: rows of a run that was not finished. --go-on takes it up, --force starts anew.")
    return replace


def _judge_all(plan: Plan, kept: Ledger, crew: Crew, watch: Watch) -> int:
    """Every row judged and kept; how many there are."""
    seen = Counter[str]()

    def open_rows() -> Iterator[Row]:
        for row in plan.jobs.rows():
            seen["all"] += 1
            if kept.has(row.number, row.id):
                seen["kept"] += 1
            else:
                yield row

    def dead(row: Row) -> Cells:
        return faulty(row, plan.how, INTERNAL, (DIED,))

    for cells in crew(open_rows(), partial(judged, how=plan.how), dead):
        kept.add(cells)
        seen["done"] += 1
        watch(seen["done"], seen["kept"])
    return seen["all"]


def _tallied(rows: Iterable[Cells], verdicts: Counter[str], codes: Counter[int]) -> Iterator[Cells]:
    for cells in rows:
        verdicts[str(cells["verdict"])] += 1
        codes[int(str(cells["exit"]))] += 1
        yield cells
