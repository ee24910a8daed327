"""`transom batch`: many jobs sized, one table."""

import sys
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal

import typer

from transom.cli.jobs import Force, apart

if TYPE_CHECKING:
    from transom.batch.run import Crew, Outcome, Plan


def batch(
    jobs: Annotated[Path, typer.Argument(metavar="JOBS", help="Folder of jobs, a table of jobs (.csv), or one job.")],
    out: Annotated[
        Path,
        typer.Option("--out", metavar="RESULTS", help="Table to write: .csv, .jsonl or .parquet.", show_default=False),
    ],
    base: Annotated[
        Path | None,
        typer.Option("--base", metavar="JOB", help="Job that a table's rows are changes to.", show_default=False),
    ] = None,
    vary: Annotated[
        list[str] | None,
        typer.Option(
            "--vary",
            metavar="KEY=VALUES",
            help='Every job at each value: engine.power="40,60,90 hp". Several make a grid.',
            show_default=False,
        ),
    ] = None,
    rank: Annotated[
        Literal["material", "mass", "thickness"], typer.Option(help="What to be sparing with, as in size.")
    ] = "material",
    pencil: Annotated[
        bool, typer.Option("--pencil", help="Pencil method alone: quicker, for screening; comes out thicker.")
    ] = False,
    workers: Annotated[
        int | None,
        typer.Option("--workers", min=1, metavar="N", help="Processes; left out, one a core.", show_default=False),
    ] = None,
    cluster: Annotated[
        str | None,
        typer.Option("--cluster", metavar="ADDRESS", help="Dask scheduler to send the jobs to.", show_default=False),
    ] = None,
    go_on: Annotated[bool, typer.Option("--go-on", help="Take up a run that was not finished.")] = False,
    force: Force = False,
) -> None:
    """Size many jobs into one table: a row a job, bad ones beside good ones."""
    from transom.batch.rows import found
    from transom.batch.run import Plan, places, run
    from transom.batch.vary import varied
    from transom.batch.work import How
    from transom.cli.stream import say, tell
    from transom.errors import JobError

    if cluster is not None and workers is not None:
        raise JobError(
            "--workers counts processes of this machine; with --cluster the workers are the cluster's. Leave one out"
        )
    several = varied(vary or [])
    source, passed_over = found(jobs, base, several)
    there = [place for place in places(out) if place.exists()]
    for read in source.reads if there else ():
        apart(read, *there, what="the table of jobs" if read == jobs and source.table else "the job")
    tell(*passed_over, *(v.says for v in several))
    plan = Plan(source, out, How(rank, not pencil), force, go_on)
    watch, last = _watch(source.total)
    outcome = run(plan, _crew(workers, cluster), watch)
    tell(last())
    say(_screen(plan, outcome))
    raise typer.Exit(outcome.code)


def _crew(workers: int | None, cluster: str | None) -> "Crew":
    from functools import partial

    if cluster is not None:
        from transom.batch.cluster import by_cluster

        return partial(by_cluster, address=cluster)
    from transom.batch.pool import by_processes, cores

    return partial(by_processes, workers=workers or cores())


def _watch(total: int | None) -> tuple[Callable[[int, int], None], Callable[[], str]]:
    """What is called for every row, and the last line."""
    from transom.batch.progress import Progress

    progress, live = Progress(total), sys.stderr.isatty()

    def watch(done: int, kept: int) -> None:
        progress.done, progress.kept = done, kept
        if live and progress.due():
            sys.stderr.write(f"\r{progress.line():<78}\r")
            sys.stderr.flush()

    def last() -> str:
        before = f", {progress.kept} of them from before" if progress.kept else ""
        return f"{progress.done + progress.kept} jobs{before}, {progress.rate:.3g} a second{' ' * 30 * live}".rstrip()

    return watch, last


def _screen(plan: "Plan", outcome: "Outcome") -> list[str]:
    from transom.batch.beside import cautions, place_of
    from transom.report.text import block

    first = f"{outcome.says}; {plan.how.method}"
    files = (f" {plan.results}", f" {place_of(plan.results)} says what its columns are")
    return [*block("", first, at=0), *files, *(line for c in cautions(plan.how) for line in block("", f"- {c}", at=0))]
